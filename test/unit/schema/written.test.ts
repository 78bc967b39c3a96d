/** What to write in place of a text that has a number in it. Expected: by the definitions of the units (1 in = 25.4 mm). */
import fc from "fast-check";
import {expect, test} from "vitest";
import {pathOfText, pathText} from "../../../src/schema/editing/index.ts";
import {writtenNumber} from "../../../src/schema/unit-guess.ts";

test.each([
  ["80 mm", "mm", "write 80: the unit is in the name of the field"],
  ["0,5", "mm", "write 0.5"],
  ["1,500", "mm", "write 1500 or 1.5"],
  ["1,234,567", "mm", "write 1234567"],
  ["2.5 in", "mm", "write 63.5: the field is in mm"],
  ['2.5"', "mm", "write 63.5: the field is in mm"],
  ["1 ft", "m", "write 0.3048: the field is in m"],
  ["3 GPa", "MPa", "write 3000: the field is in MPa"],
  ["80 furlongs", "mm", "write the number alone, in mm"],
  ["80 toString", "mm", "write the number alone, in mm"],
  ["7 of them", undefined, "write 7"],
  ["none", "mm", null],
])("%s in %s", (text, unit, advice) => {
  expect(writtenNumber(text, unit)).toBe(advice);
});

test("a path is read back from its text", () => {
  const step = fc.oneof(fc.nat(99), fc.string({minLength: 1}));
  fc.assert(
    fc.property(fc.string({minLength: 1}), fc.array(step), (root, rest) => {
      expect(pathOfText(pathText([root, ...rest]))).toEqual([root, ...rest]);
    }),
  );
});

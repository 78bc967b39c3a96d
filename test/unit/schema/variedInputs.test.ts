import {expect, test} from "vitest";
import {findInput, studyVariations, type VariedInput, variedStudy} from "../../../src/schema/index.ts";
import {csv, goodText} from "./good-study.ts";

const variations = studyVariations(goodText, {fileName: "study.yaml", readCsv: () => csv()});

const input = (name: string): VariedInput => {
  const found = findInput(variations, name);
  if (found.kind === "none") throw new Error(found.problem);
  return found.input;
};
const studyWith = (name: string, value: number) => {
  const outcome = variedStudy(variations, [{input: input(name), value}]);
  if (outcome.kind === "faults") throw new Error(JSON.stringify(outcome.faults));
  return outcome.study;
};
const base = studyWith("traffic", 1);

test("an input is told with unit and words", () => {
  expect(input("section.layers.overlay.thickness_mm")).toMatchObject({
    unit: "mm",
    words: "overlay thickness",
    base: 80,
  });
  expect(input("materials.cemented.modulus_MPa")).toMatchObject({
    unit: "MPa",
    label: "cemented modulus, MPa",
    base: 9000,
  });
  expect(input("section.joint.load_transfer.efficiency_percent")).toMatchObject({
    unit: "%",
    words: "load transfer efficiency",
  });
  expect(input("temperature")).toMatchObject({unit: "K", base: 0});
});

test("what is no input is told, with what was meant", () => {
  expect(findInput(variations, "section.joint")).toMatchObject({
    kind: "none",
    problem: "section.joint is a map with spacing_m, width_mm, load_transfer, not a number",
    suggestion: "numbers in it: spacing_m, width_mm",
  });
  expect(findInput(variations, "trafic")).toMatchObject({kind: "none", suggestion: "did you mean traffic?"});
  expect(findInput(variations, "section.layers.overlay.material")).toMatchObject({
    problem: 'section.layers.overlay.material is "asphalt", not a number',
  });
});

test("factors go to every load, and nowhere else", () => {
  const busy = studyWith("traffic", 3);
  const heavy = studyWith("loads", 1.1);
  base.traffic.classes.forEach((own, k) => {
    expect(busy.traffic.classes[k]).toEqual({...own, passesPerYear: 3 * own.passesPerYear});
    heavy.traffic.classes[k].wheels.forEach((wheel, w) => {
      expect(wheel).toEqual({...own.wheels[w], load: own.wheels[w].load * 1.1});
    });
  });
  expect(heavy.traffic.standardAxle).toEqual(base.traffic.standardAxle);
});

test("a warmer record is read as if it had been measured", () => {
  const warm = studyWith("temperature", 2.5);
  expect(warm.weather!.temperature[4000]).toBeCloseTo(base.weather!.temperature[4000] + 2.5, 12);
  expect(warm.weather!.label).toBe("made up, +2.5 K");
  expect(base.weather!.label).toBe("made up");
});

test("what is outside its range is told, of inputs and fields alike", () => {
  const outcome = variedStudy(variations, [
    {input: input("temperature"), value: 80},
    {input: input("section.joint.spacing_m"), value: -1},
  ]);
  expect(outcome).toMatchObject({kind: "faults", faults: [{path: "temperature"}, {path: "section.joint.spacing_m"}]});
});

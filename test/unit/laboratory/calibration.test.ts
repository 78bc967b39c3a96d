/** A programme of few beams from readings to laws, warnings and predictions; its truth is that of the readings. */
import {expect, test} from "vitest";
import {INVENTED} from "../../../examples/laboratory/invent.ts";
import {Cancelled, InputError} from "../../../src/engine/errors.ts";
import {calibrate, calibrationTasks} from "../../../src/engine/laboratory/index.ts";
import {smallRequest} from "./smallProgramme.ts";

const REQUEST = smallRequest();
const tests = REQUEST.tests.slice(0, 4);

test("beams, laws, predictions and choices of a small programme", () => {
  const told: {part: number; doing: string}[] = [];
  const result = calibrate(REQUEST, (part, doing) => told.push({part, doing}) > 0);
  expect(result.cases.map(c => c.test.name)).toEqual(tests.map(t => t.name));
  expect(result.fit).toMatchObject({materials: ["dense asphalt"], converged: true, degrees: 3});
  const {logRate, exponent} = INVENTED.laws["dense asphalt"];
  [logRate, exponent].forEach((truth, k) => {
    const error = Math.sqrt(result.fit.covariance[3 * k]);
    expect(Math.abs(result.fit.parameters[k] - truth)).toBeLessThan(4 * error);
  });
  expect(result.profiles).toHaveLength(2);
  expect(result.predictions.map(p => p.name)).toEqual(tests.map(t => t.name));
  for (const {life, lower} of result.predictions) {
    expect(life.low).toBeLessThanOrEqual(life.middle);
    expect(life.middle).toBeLessThanOrEqual(life.high);
    expect(lower.low.every((l, k) => l <= lower.high[k])).toBe(true);
  }
  expect(result.unpredicted).toEqual([]);
  expect(result.reduced).toHaveLength(5); // the one set aside too
  expect(result.choices.map(c => c.choice)).toEqual(["shear weight", "crack interlock"]);
  for (const {fall} of result.choices) expect(Math.max(...fall)).toBe(0);
  expect(result.warnings.filter(w => w.code === "set aside")).toMatchObject([{subjects: ["slipped"]}]);
  // Progress rises from 0 towards 1.
  expect(told.every(({part}, k) => part >= 0 && part <= 1 && (k === 0 || part >= told[k - 1].part))).toBe(true);
});

test("is cancelled by what it tells its progress to", () => {
  expect(() => calibrate(REQUEST, () => false)).toThrow(Cancelled);
  let calls = 0;
  expect(() => calibrate(REQUEST, () => ++calls < 7)).toThrow(Cancelled); // within the fit
});

test("without a beam there is nothing to do", () => {
  const aside = tests.map(t => ({...t, setAside: "all of them"}));
  expect(() => calibrationTasks({...REQUEST, tests: aside})).toThrow(InputError);
});

import {expect, test} from "vitest";
import {beamCycles} from "../../../src/engine/laboratory/beamGrowth.ts";
import type {BeamCase} from "../../../src/engine/laboratory/beamLaws.ts";
import type {BeamTest} from "../../../src/engine/laboratory/beamTypes.ts";
import {firstStrain, shearShare, warningsOf} from "../../../src/engine/laboratory/calibrationWarnings.ts";
import {beamFit, beamTest, evenSolution, faces} from "./fixture.ts";

const fitOf = (error: number, converged = true) =>
  beamFit({covariance: Float64Array.of(0.01, 0, 0, error * error), pivots: {mix: 1e-3}, degrees: 3, converged});

/** A beam whose first tip strain is given [–]. */
function beam(strain: number, change: Partial<BeamTest> = {}): BeamCase {
  const readings = [
    {passes: 100, lower: faces(5, 6), upper: faces(3, 3), stopped: false},
    {passes: 200, lower: faces("t"), upper: [], stopped: false},
  ];
  const solution = evenSolution([0, 1e9 * strain, 0]); // E' = 1 GPa
  return {test: beamTest({readings, ...change}), solution, cycles: beamCycles(solution, 1)};
}

const found = (cases: readonly BeamCase[], change: Partial<Parameters<typeof warningsOf>[0]> = {}) =>
  warningsOf({
    tests: cases.map(c => c.test),
    cases,
    lifts: cases.map(() => 0),
    origins: {mix: {kind: "fitted"}},
    fit: fitOf(0.3),
    choices: [],
    ...change,
  });
const codes = (...all: Parameters<typeof found>): string[] => found(...all).map(w => w.code);

const good = [beam(5e-4), beam(8e-4), beam(1e-3)];

test("the first strain is that of the beam without cracks", () => {
  expect(firstStrain(good[1], 1)).toBeCloseTo(8e-4, 12);
});

test("the share of shear is that under the wheel's worst place", () => {
  const one = (opening: number[], shear: number[]) => shearShare({solution: evenSolution(opening, opening, shear)});
  expect(one([1e6, 3e6, 1e6], [3e6, 0, 3e6])).toBeCloseTo(0.9, 12); // 1 + 9 is more than 9
  expect(one([1e6, 4e6, 1e6], [3e6, 2e6, 3e6])).toBeCloseTo(0.2, 12); // 16 + 4
  expect(one([-9e6, 1e6, -9e6], [0.5e6, 0, 0])).toBe(0); // pressed together is no opening
});

test("a programme that tells its laws gives no warning", () => {
  expect(found(good)).toEqual([]);
});

test("a law is not believed that has not settled, or whose exponent is loose", () => {
  expect(codes(good, {fit: fitOf(0.3, false)})).toEqual(["not converged"]);
  expect(codes(good, {fit: fitOf(0.69)})).toEqual([]);
  expect(codes(good, {fit: fitOf(0.71)})).toEqual(["exponent not known"]);
});

test("strain levels and beams are counted by material", () => {
  expect(codes([beam(5e-4), beam(5.5e-4), beam(6e-4)])).toEqual(["one strain level"]);
  expect(codes([beam(5e-4), beam(1e-3)])).toEqual(["few beams"]);
  expect(codes([beam(5e-4)])).toEqual(["few beams"]);
});

test("laws that no beam showed are told", () => {
  const relative = {kind: "relative", to: "mix", logRate: -3, exponent: 0} as const;
  expect(codes(good, {origins: {mix: {kind: "fitted"}, soft: relative}})).toEqual(["from fatigue"]);
  expect(codes(good, {origins: {mix: {kind: "fitted"}, soft: {kind: "whole"}}})).toEqual(["interlayer whole"]);
});

test("choices that every value of fits are told, others not", () => {
  const choice = {
    choice: "shear weight",
    values: [0, 1, 2],
    fall: [0, -0.1, -0.2],
    used: 1,
    cut: -2,
    allowed: [0, 1, 2],
  } as const;
  expect(found(good, {choices: [{...choice, known: false}]})).toMatchObject([
    {
      code: "choice not known",
      subjects: ["shear weight"],
      text: expect.stringContaining("0 to 2; in no beam is shear"),
    },
  ]);
  expect(codes(good, {choices: [{...choice, known: true}]})).toEqual([]);
});

test("what is odd about beams is told with their names", () => {
  expect(found(good, {lifts: [0.05, 0.11, 0]})).toMatchObject([{code: "ends lift", subjects: ["B1"]}]);
  const apart = [1, 2, 3].map(k => ({passes: k, lower: faces(5, 9), upper: faces(3), stopped: false}));
  const broken = {passes: 9, lower: faces("t"), upper: [], stopped: false};
  const skew = beam(8e-4, {name: "skew", readings: [...apart, broken]});
  expect(found([good[0], skew, good[2]])).toMatchObject([{code: "faces differ", subjects: ["skew"]}]);
  const aside = beamTest({name: "left", setAside: "clamp slipped"});
  expect(found(good, {tests: [...good.map(c => c.test), aside]})).toMatchObject([
    {code: "set aside", text: "Set aside by hand: left (clamp slipped)."},
  ]);
});

test("a programme that saw nothing from above, or no beam break, is told so", () => {
  const below = [{passes: 100, lower: faces(5), upper: [], stopped: true}];
  expect(codes(good.map((_, k) => beam(5e-4 * (k + 1), {readings: below})))).toEqual([
    "nothing from above",
    "none broke",
  ]);
});

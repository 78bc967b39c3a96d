import {expect, test} from "vitest";
import {type LawOrigin, lawVector} from "../../../src/engine/laboratory/beamLaws.ts";
import {beamTest, INTERLAYER} from "./fixture.ts";

const plain = beamTest();
const covered = beamTest({interlayer: INTERLAYER});
const fitted = {kind: "fitted"} as const;
const p = Float64Array.of(-15, 4, -18, 3);

test("fitted materials stand in the order of their names", () => {
  const {fitted: names, size, lawsOf, concerns} = lawVector([covered, plain], {soft: fitted, mix: fitted});
  expect(names).toEqual(["mix", "soft"]);
  expect(size).toBe(4);
  expect(lawsOf(covered, p)).toEqual({
    overlay: {logRate: -15, exponent: 4},
    interlayer: {logRate: -18, exponent: 3},
  });
  expect(lawsOf(plain, p).interlayer).toBeNull();
  expect([0, 1, 2, 3].map(k => concerns(plain, k))).toEqual([true, true, false, false]);
  expect([0, 1, 2, 3].map(k => concerns(covered, k))).toEqual([true, true, true, true]);
});

test("a law relative to another moves with it", () => {
  const origin: LawOrigin = {kind: "relative", to: "mix", logRate: -3, exponent: 0.5};
  const {size, lawsOf, concerns} = lawVector([covered], {mix: fitted, soft: origin});
  expect(size).toBe(2);
  expect(lawsOf(covered, p).interlayer).toEqual({logRate: -18, exponent: 4.5});
  expect(concerns(covered, 0)).toBe(true);
});

test("a relative law alone makes a beam feel the material it hangs on", () => {
  const other = beamTest({overlay: {...plain.overlay, material: "other"}, interlayer: INTERLAYER});
  const origins: Record<string, LawOrigin> = {
    mix: fitted,
    other: fitted,
    soft: {kind: "relative", to: "mix", logRate: -3, exponent: 0},
  };
  const {concerns} = lawVector([plain, other], origins);
  expect([0, 1, 2, 3].map(k => concerns(other, k))).toEqual([true, true, true, true]);
});

test("an interlayer that stays whole has no law; an overlay cannot", () => {
  const {lawsOf} = lawVector([covered], {mix: fitted, soft: {kind: "whole"}});
  expect(lawsOf(covered, p).interlayer).toBeNull();
  const none = lawVector([plain], {mix: {kind: "whole"}});
  expect(() => none.lawsOf(plain, p)).toThrow(/law of mix/);
});

test("a material without an origin, or hanging on one that is not fitted, is named", () => {
  expect(() => lawVector([covered], {mix: fitted})).toThrow(/origin of the law of soft/);
  const hanging = lawVector([covered], {mix: fitted, soft: {kind: "relative", to: "none", logRate: 0, exponent: 0}});
  expect(() => hanging.lawsOf(covered, p)).toThrow(/law of soft/);
});

import {expect, test} from "vitest";
import {type HistoryRow, readHistory, type StiffnessSummary} from "../../../src/engine/laboratory/index.ts";

function summary(rows: readonly HistoryRow[]): StiffnessSummary {
  const reader = readHistory();
  for (const row of rows) reader.add(row);
  return reader.finish();
}

/** Modulus 10 GPa less 1 GPa a decade. */
const gently = (cycle: number): HistoryRow => ({cycle, modulus: 1e10 - 1e9 * Math.log10(cycle)});
const flat = (cycle: number, ratio: number): HistoryRow => ({cycle, modulus: ratio * 8e9});

test("the initial modulus is linear in lg N between two rows", () => {
  const {initialModulus, startsLate} = summary([gently(30), gently(250), gently(1000)]);
  expect(initialModulus).toBeCloseTo(8e9, 3); // 10 − 1·lg 100
  expect(startsLate).toBe(false);
  expect(summary([gently(1), gently(100), gently(1000)]).initialModulus).toBe(8e9);
});

test("a record that begins later says so", () => {
  const late = summary([gently(1000), gently(2000), gently(4000)]);
  expect(late).toMatchObject({startsLate: true, initialModulus: 7e9, cyclesToHalf: null, lastCycle: 4000});
  expect(late.lastRatio).toBeCloseTo((10 - Math.log10(4000)) / 7, 12);
});

test("failure is interpolated in lg N", () => {
  const {cyclesToHalf} = summary([flat(100, 1), flat(1000, 0.9), flat(10_000, 0.6), flat(1e6, 0.4)]);
  expect(cyclesToHalf).toBeCloseTo(1e5, 6); // half way from 0.6 to 0.4, so half way from 10⁴ to 10⁶
});

test("a row that dips alone is no failure, three are, and so is the end of the record", () => {
  const start = [flat(100, 1), flat(1000, 0.9)];
  const dip = [flat(2000, 0.3), flat(3000, 0.4), flat(4000, 0.8)];
  expect(summary([...start, ...dip, flat(5000, 0.7)]).cyclesToHalf).toBeNull();
  const later = summary([...start, ...dip, flat(5000, 0.5)]);
  expect(later.cyclesToHalf).toBe(5000); // exactly half counts
  // What comes after three low rows is of a broken specimen.
  const broken = [flat(5000, 0.5), flat(5100, 0.4), flat(5200, 0.3), flat(5300, 0.9)];
  expect(summary([...start, ...broken]).cyclesToHalf).toBe(5000);
});

test("a start with a jump", () => {
  const jump = [flat(50, 1.2), flat(100, 1), flat(150, 0.94), flat(2000, 0.9)];
  expect(summary(jump).startsWithJump).toBe(true);
  expect(summary([flat(50, 1.2), flat(100, 1), flat(150, 0.96), flat(2000, 0.9)]).startsWithJump).toBe(false);
  expect(summary([flat(100, 1), flat(300, 0.9), flat(2000, 0.8)]).startsWithJump).toBe(false); // too far apart to tell
  expect(summary([flat(100, 1), flat(1500, 0.97), flat(1600, 0.9)]).startsWithJump).toBe(false); // no longer the start
});

test("a drift of the amplitude, until failure", () => {
  const held = (displacements: (number | null)[], ratios = [1, 0.9, 0.8, 0.7]) =>
    summary(displacements.map((displacement, i) => ({...flat(100 * 10 ** i, ratios[i]), displacement})));
  expect(held([1, 1.01, 0.985, 1.019]).displacementDrifts).toBe(false);
  expect(held([1, 1.01, 0.979, 1]).displacementDrifts).toBe(true);
  expect(held([null, 2, 3, 4]).displacementDrifts).toBe(false); // nothing to compare with
  const broken = [1, 1, 1, 1, 9].map((displacement, i) => ({...flat(100 * (i + 1), i ? 0.4 : 1), displacement}));
  expect(summary(broken).displacementDrifts).toBe(false);
});

test("a long record takes few points, evenly in lg N, first and last among them", () => {
  const reader = readHistory();
  for (let cycle = 0; cycle <= 300_000; cycle++) reader.add({cycle, modulus: 8e9 - 1e4 * cycle});
  const {cycles, modulus, lastCycle} = reader.finish();
  expect(cycles.length).toBeLessThanOrEqual(400);
  expect(cycles.length).toBeGreaterThan(150);
  expect([cycles[0], cycles[cycles.length - 1], lastCycle]).toEqual([1, 300_000, 300_000]);
  cycles.forEach((cycle, i) => {
    expect(modulus[i]).toBe(8e9 - 1e4 * cycle);
  });
  const steps = Array.from(cycles.subarray(1), (cycle, i) => Math.log10(cycle / cycles[i]));
  const late = steps.slice(steps.length / 2, -1); // early rows are farther apart than cells
  expect(Math.max(...late) / Math.min(...late)).toBeLessThan(2.1);
});

test("rows out of order or not finite are told by their index", () => {
  const after = (row: HistoryRow) => () => summary([flat(100, 1), flat(200, 0.9), row]);
  expect(after(flat(200, 0.9))).toThrow("history[2].cycle: got 200, need more than 200");
  expect(after(flat(Number.NaN, 1))).toThrow("history[2].cycle");
  expect(after(flat(300, Number.NaN))).toThrow("history[2].modulus");
  expect(after(flat(300, -1))).toThrow("history[2].modulus");
  expect(after({...flat(300, 1), displacement: Infinity})).toThrow("history[2].displacement");
  expect(() => summary([flat(-1, 1)])).toThrow("history[0].cycle");
});

test("a record must reach the initial cycle, with some stiffness", () => {
  expect(() => summary([])).toThrow("no row");
  expect(() => summary([flat(0, 1), flat(99, 1)])).toThrow("beyond cycle 100");
  expect(() => summary([flat(100, 0), flat(200, 0)])).toThrow("history[0].modulus");
});

import {expect, test} from "vitest";
import {
  dominating,
  type SobolIndices,
  singly,
  sobolDesign,
  sobolIndices,
  tornado,
  tornadoDesign,
} from "../../../src/engine/risk/index.ts";

const evaluate = (
  {dimensions, rows, points}: {dimensions: number; rows: number; points: Float64Array},
  f: (x: Float64Array) => number,
) => Float64Array.from({length: rows}, (_, r) => f(points.subarray(r * dimensions, (r + 1) * dimensions)));
const bootstrap = {replicates: 50, seed: 1};

test("a design mixes its two points group by group", () => {
  const {dimensions, rows, points} = sobolDesign({groups: [[0, 2], [1]], count: 4, seed: 9});
  expect([dimensions, rows]).toEqual([3, 16]);
  for (let i = 0; i < 4; i++) {
    const [a, b, first, second] = [0, 1, 2, 3].map(k => [...points.slice((4 * i + k) * 3, (4 * i + k + 1) * 3)]);
    expect(first).toEqual([b[0], a[1], b[2]]);
    expect(second).toEqual([a[0], b[1], a[2]]);
    expect(new Set([...a, ...b]).size).toBe(6);
  }
});

test("a longer design begins with the shorter", () => {
  const short = sobolDesign({groups: singly(4), count: 8, seed: 2});
  const long = sobolDesign({groups: singly(4), count: 16, seed: 2});
  expect(long.points.slice(0, short.points.length)).toEqual(short.points);
});

test("groups that do not cover the dimensions once are refused", () => {
  const of = (groups: number[][]) => () => sobolDesign({groups, count: 4, seed: 1});
  expect(of([])).toThrow("dimensions: got 0, need 1 to 64");
  expect(of([[0], [2]])).toThrow("groups: got [[0],[2]], need 0 to 1, each in one group");
  expect(of([[0], [0]])).toThrow("groups");
  expect(of([[0, 1], []])).toThrow("groups");
  expect(of([Array.from({length: 65}, (_, d) => d)])).toThrow("dimensions: got 65");
});

test("an answer that is a sum is shared out by the squares of its factors, whatever its mean and unit", () => {
  const design = sobolDesign({groups: [[0], [1], [2, 3]], count: 2048, seed: 4});
  for (const [shift, unit] of [
    [0, 1],
    [1e6, 1e-3],
  ]) {
    const values = evaluate(design, ([a, b, c, d]) => shift + unit * (4 * a + 2 * b + c + d));
    const {groups, interactions} = sobolIndices(design, values, bootstrap)!;
    // 16 : 4 : 1 + 1 of 22
    [16 / 22, 4 / 22, 2 / 22].forEach((share, j) => {
      expect(groups[j].first).toBeCloseTo(share, 2);
      expect(groups[j].total).toBeCloseTo(share, 2);
      expect(Math.abs(groups[j].first - share)).toBeLessThan(4 * groups[j].firstError);
    });
    expect(interactions).toBeCloseTo(0, 2);
  }
});

test("an answer that does not vary has nothing to share out", () => {
  const design = sobolDesign({groups: singly(2), count: 8, seed: 4});
  const indices = sobolIndices(design, new Float64Array(design.rows).fill(3), bootstrap);
  expect(indices).toBeNull();
  expect(dominating(indices, ["a", "b"])).toBe("Nothing that was varied changes ln life.");
});

test("one base sample", () => {
  const design = sobolDesign({groups: [[0]], count: 1, seed: 4});
  const indices = sobolIndices(design, [1, 3, 3], bootstrap)!;
  expect(indices.mean).toBe(2);
  expect(indices.groups[0].firstError).toBe(0); // drawn anew it is always the same
});

test("values that cannot be are refused", () => {
  const design = sobolDesign({groups: singly(2), count: 2, seed: 4});
  expect(() => sobolIndices(design, [1], bootstrap)).toThrow("values.length: got 1, need 8");
  const values = Float64Array.from({length: 8}, (_, i) => i);
  expect(() => sobolIndices(design, values.with(3, Number.NaN), bootstrap)).toThrow("values[3]: got NaN, need finite");
  expect(() => sobolIndices(design, values, {replicates: 1, seed: 1})).toThrow("replicates: got 1");
});

const told = (firsts: number[], error = 0.01): SobolIndices => ({
  mean: 0,
  deviation: 1,
  groups: firsts.map(first => ({first, firstError: error, total: first, totalError: error})),
  interactions: 1 - firsts.reduce((sum, s) => sum + s, 0),
});

test("the sentence names what counts, the most first", () => {
  const names = ["the growth law", "traffic", "temperature", "thickness"];
  expect(dominating(told([0.62, 0.08, 0.25, 0.02]), names)).toBe(
    "The answer depends mostly on the growth law (62 % of the spread of ln life), then on temperature (25 %) and traffic (8 %).",
  );
  expect(dominating(told([0.1, 0.5, 0, 0.1]), names)).toBe(
    "The answer depends mostly on traffic (50 % of the spread of ln life), then on the growth law (10 %) and thickness (10 %). 30 % comes from inputs acting together.",
  );
  expect(dominating(told([0, 1]), ["a", "b"], "the cost")).toBe(
    "The answer depends mostly on b (100 % of the spread of the cost).",
  );
  expect(dominating(told([0.2, 0.3, 0.3, 0.2], 0.2), names)).toBe(
    "No single input stands out in the spread of ln life.",
  );
  expect(() => dominating(told([1]), [])).toThrow("names.length: got 0, need 1");
});

test("a tornado moves one input at a time, longest bar first", () => {
  const design = tornadoDesign(3);
  const values = evaluate(design, ([a, b, c]) => a - 5 * b + 2 * c + 1);
  const {base, bars} = tornado(design, values);
  expect(base).toBeCloseTo(0, 12);
  expect(bars.map(bar => bar.input)).toEqual([1, 2, 0]);
  expect(bars[0].swing).toBeCloseTo(4, 12);
  expect(bars[0].atLow).toBeCloseTo(2, 12);
  expect(bars[0].atHigh).toBeCloseTo(-2, 12);
  expect(() => tornadoDesign(0)).toThrow("dimensions");
  expect(() => tornadoDesign(1, 0.9, 0.1)).toThrow("low: got 0.9, need < 0.1");
  expect(() => tornadoDesign(1, 0, 0.1)).toThrow("low: got 0, need in (0, 1)");
  expect(() => tornado(design, values.subarray(1))).toThrow("values.length: got 6, need 7");
  expect(() => tornado(design, values.with(0, Number.NaN))).toThrow("values[0]");
});

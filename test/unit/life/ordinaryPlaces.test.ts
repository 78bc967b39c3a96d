import {describe, expect, test} from "vitest";
import {
  besideGrid,
  contactRadius,
  type LateralGrid,
  undersideGrid,
  undersideLines,
  underWheel,
  wanderAverage,
} from "../../../src/engine/life/ordinaryPlaces.ts";
import type {Wander, Wheel} from "../../../src/engine/traffic/index.ts";

const wheel = (x: number, y: number, load = 2e5): Wheel => ({x, y, load, length: 0.45, width: 0.32});
const gear = [-1.45, 0, 1.45].flatMap(x => [wheel(x, -0.7), wheel(x, 0.7)]);
const normal = (deviation: number): Wander => ({kind: "normal", deviation});
const box = (half: number): LateralGrid => ({
  y: Float64Array.of(0),
  edges: Float64Array.of(-half, half),
  solved: Float64Array.of(0),
});

describe("wander", () => {
  test("a tyre 0.40 m wide with s = 0.773 m covers the middle of its path in one pass of five", () => {
    // erf(0.2/(0.773·√2)) = 0.204158; pass-to-coverage ratio 4.898
    const [covered] = wanderAverage(box(0.2), Float64Array.of(1), normal(0.773), Float64Array.of(0));
    expect(covered).toBeCloseTo(0.2041581, 6);
    const far = wanderAverage(box(0.2), Float64Array.of(1), normal(0.773), Float64Array.of(20, -20));
    expect([...far]).toEqual([0, 0]);
  });

  test("Φ: half a box at one and two standard deviations", () => {
    // Abramowitz & Stegun 1964, Table 26.1: Φ(1) = 0.841344746069, Φ(2) = 0.977249868052
    const at = (d: number) => wanderAverage(box(d), Float64Array.of(1), normal(1), Float64Array.of(0))[0];
    expect(at(1)).toBeCloseTo(2 * 0.841344746069 - 1, 11);
    expect(at(2)).toBeCloseTo(2 * 0.977249868052 - 1, 11);
    expect(at(50)).toBe(1);
  });

  test("no deviation gives back the profile, and a large one keeps its integral", () => {
    const grid = undersideGrid(gear);
    const damage = grid.y.map(y => Math.exp(-8 * (Math.abs(y) - 0.7) ** 2));
    expect([...wanderAverage(grid, damage, normal(0), grid.y)]).toEqual([...damage]);
    const own = damage.reduce((sum, d, k) => sum + d * (grid.edges[k + 1] - grid.edges[k]), 0);
    const step = 0.02; // a sum over equal steps of a smooth function that vanishes at both ends: no error to speak of
    const wide = Float64Array.from({length: 1001}, (_, k) => (k - 500) * step);
    const spread = wanderAverage(grid, damage, normal(0.773), wide).reduce((sum, d) => sum + d * step, 0);
    expect(spread / own).toBeCloseTo(1, 10);
    expect(() => wanderAverage(grid, damage, normal(-0.1), wide)).toThrow("wander.deviation");
  });
});

describe("places", () => {
  test.each([
    ["underside", undersideGrid],
    ["beside", besideGrid],
  ])("%s grid: ascending, mirrored, solved on one side only, cells without gaps", (_, gridOf) => {
    const {y, edges, solved} = gridOf(gear);
    const n = y.length;
    expect(n).toBe(2 * solved.length - 1);
    for (let k = 0; k < n; k++) {
      expect(y[k]).toBeCloseTo(-y[n - 1 - k], 12);
      expect(edges[k]).toBeLessThan(y[k]);
      expect(edges[k + 1]).toBeGreaterThan(y[k]);
    }
    const {y: all, solved: each} = gridOf([...gear.slice(1), wheel(-1.45, -0.7, 2.1e5)]);
    expect(each).toBe(all);
  });

  test("beside a wheel the cells meet at its edge, and none is centred nearer than half a shoulder", () => {
    const {y, edges} = besideGrid(gear);
    const a = contactRadius(gear[0]);
    for (const edge of [-0.7 - a, -0.7 + a, 0.7 - a, 0.7 + a]) {
      expect(Math.min(...edges.map(e => Math.abs(e - edge)))).toBeLessThan(1e-12);
    }
    for (const place of y) {
      if (underWheel(gear, place)) continue;
      expect(Math.min(...gear.map(w => Math.abs(place - w.y))) - a).toBeGreaterThan(0.05 * 0.32 - 1e-9);
    }
  });

  test("underside: lines that are mirror images count twice; half-way places count for both lines", () => {
    const lines = undersideLines(gear);
    expect(lines.map(l => [l.count, l.wheels[0].x])).toEqual([
      [1, 0],
      [2, -1.45],
    ]);
    expect(lines[0].x).toContain(0.725);
    expect(lines[0].x).toContain(-0.725);
    expect(lines[1].x).toContain(-0.725);
    const uneven = [...gear, wheel(3, -0.7), wheel(3, 0.7)];
    expect(undersideLines(uneven).map(l => l.count)).toEqual([1, 1, 1, 1]);
  });
});

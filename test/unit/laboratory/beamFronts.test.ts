import {expect, test} from "vitest";
import {type SteadyFronts, type SteadyProblem, steadyFronts} from "../../../src/engine/laboratory/beamFronts.ts";

const H = 0.1;
const FAR = 1e12;
const endOf = ({passes}: SteadyFronts): number => passes[passes.length - 1];
const lastOf = ({fronts}: SteadyFronts): number[] => fronts.map(f => f[f.length - 1]);

const problem = (growth: SteadyProblem["growth"], rest: Partial<SteadyProblem> = {}): SteadyProblem => ({
  overlayThickness: H,
  interlayerThickness: 0,
  horizon: FAR,
  growth,
  ...rest,
});

// c₁ + c₂ = 4·r·N: they meet, half a per cent before the whole.
test("fronts at rates that stay meet when their ways add up to the overlay", () => {
  const path = steadyFronts(problem((_, out) => out.set([0, 1e-8, 3e-8])));
  expect(path.broken).toBe(true);
  expect(endOf(path)).toBeCloseTo((0.995 * H) / 4e-8, 3);
  expect(lastOf(path)[2]).toBeCloseTo(0.75 * 0.995 * H, 9);
});

test("they are followed to the horizon and no farther", () => {
  const path = steadyFronts(problem((_, out) => out.set([0, 1e-8, 3e-8]), {horizon: 1e6}));
  expect(path.broken).toBe(false);
  expect(endOf(path)).toBe(1e6);
  expect(lastOf(path)[1]).toBeCloseTo(0.01, 9);
});

// dc/dN = r·e^(c/l): N = (l/r)·(1 − e^(−c/l)).
test("growth that quickens e-fold every 4 mm", () => {
  const [r, l] = [1e-9, 0.004];
  const path = steadyFronts(problem((f, out) => out.set([0, r * Math.exp(f[1] / l), 0])));
  path.passes.forEach((n, k) => {
    const expected = (l / r) * (1 - Math.exp(-path.fronts[1][k] / l));
    expect(Math.abs(n / expected - 1 || 0)).toBeLessThan(1e-5);
  });
  expect(path.broken).toBe(true);
});

// dc/dN = r·((c − m)² + w²) all but stops at m: N = (atan((c − m)/w) + atan(m/w))/(r·w).
test("growth that all but stops on the way is not stepped over", () => {
  const [r, m, w] = [1e-4, 0.0317, 5e-4];
  const path = steadyFronts(problem((f, out) => out.set([0, r * ((f[1] - m) ** 2 + w * w), 0])));
  const expected = (Math.atan((0.995 * H - m) / w) + Math.atan(m / w)) / (r * w);
  expect(Math.abs(endOf(path) / expected - 1)).toBeLessThan(0.01); // of a life ten thousand times slower there
});

test("cracks that stop wait for the horizon", () => {
  const stops = steadyFronts(problem((f, out) => out.set([0, f[1] < 0.02 ? 1e-6 * (0.02 - f[1]) : 0, 0])));
  expect(stops.broken).toBe(false);
  expect(endOf(stops)).toBe(FAR);
  expect(lastOf(stops)[1]).toBeCloseTo(0.02, 4);
  const never = steadyFronts(problem((_, out) => out.fill(0)));
  expect([...never.passes]).toEqual([0, FAR]);
  expect(lastOf(never)).toEqual([0, 0, 0]);
  const growth = [...stops.growth, ...never.growth];
  for (const own of growth) expect(own[own.length - 1]).toBeCloseTo(0, 15); // a number, where nothing grows
});

// 10 mm at 5e-8 take 2e5 passes, in which the other grows at 2e-8 to 1e-7, by 12 mm; then 87.5 mm at 1e-7.
test("the interlayer's front ends with it, the growth before and after that moment are told", () => {
  const path = steadyFronts(problem((f, out) => out.set([5e-8, 2e-8 + 8e-6 * f[0], 0]), {interlayerThickness: 0.01}));
  expect(endOf(path)).toBeCloseTo(2e5 + 8.75e5, 0);
  const k = path.passes.findIndex((n, i) => n === path.passes[i + 1]);
  expect(path.passes[k]).toBeCloseTo(2e5, 4);
  expect([path.fronts[0][k], path.fronts[0][k + 1]]).toEqual([0.01, 0.01]);
  expect(path.growth[0][k]).toBeCloseTo(5e-8, 16);
  expect([path.growth[0][k + 1], path.growth[1][k + 1]]).toEqual([0, 2e-8 + 8e-6 * 0.01]);
  expect(Math.max(...path.fronts[0])).toBe(0.01);
});

// A fit's derivatives are differences over a thousandth: noise of 1e-9 in ln N would be one of 1e-6 in them.
test("the life changes smoothly with the growth, also where a course of another growth begins", () => {
  const logLife = (exponent: number): number => {
    const growth: SteadyProblem["growth"] = ([a, b, c], out) => {
      const corner = 1 + 20 * Math.max(0, b - 0.0331) + 300 * Math.abs(c - 0.0123);
      out.set([2e-8 * (1 + 40 * a), 1e-8 * corner ** exponent, 3e-9 * (corner / (1 + 30 * b)) ** exponent]);
    };
    return Math.log(endOf(steadyFronts(problem(growth, {interlayerThickness: 0.012}))));
  };
  const at = Array.from({length: 21}, (_, k) => logLife(4 + 1e-3 * (k - 10)));
  const bend = at.slice(2).map((v, k) => v - 2 * at[k + 1] + at[k]);
  const mean = bend.reduce((sum, b) => sum + b, 0) / bend.length;
  for (const b of bend) expect(Math.abs(b - mean)).toBeLessThan(2e-8);
});

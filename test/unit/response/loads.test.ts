import {expect, test} from "vitest";
import {inverseWeights, wavenumbers, wheelLoads} from "../../../src/engine/response/loads.ts";
import {buildMesh, type Mesh} from "../../../src/engine/section/index.ts";
import {layer, section} from "../section/fixture.ts";

const OPTIONS = {rowSize: 0.02, finest: 5e-3, extent: {spacings: 1.5}, reach: 1, tips: [], halved: false} as const;
const mesh = buildMesh(section(), OPTIONS);

/** Sum and first moment about x = 0 of one row of loads. */
function resultant({surface}: Mesh, values: Float64Array, row: number): {force: number; moment: number} {
  const loads = values.subarray(row * surface.length, (row + 1) * surface.length);
  return {
    force: loads.reduce((sum, f) => sum + f, 0),
    moment: loads.reduce((sum, f, k) => sum + f * surface[k].x, 0),
  };
}

// Unit pressure on (c − a, c + a) folded onto x > 0: ½·p(x) ± ½·p(−x).
test.each([0, 0.03, 0.1, 0.15, 0.4, 0.87])("wheel at %d m: the halves add up to the patch", centre => {
  const length = 0.25;
  const even = wheelLoads(mesh, length, [0.2, centre], "symmetric");
  const odd = wheelLoads(mesh, length, [0.2, centre], "antisymmetric");
  const [from, to] = [centre - length / 2, centre + length / 2];
  const right = to - Math.max(from, 0); // on the side x > 0, and mirrored from the other side
  const left = Math.max(-from, 0);
  const square = (a: number, b: number): number => (b * b - a * a) / 2;
  const rightMoment = square(Math.max(from, 0), to);
  const leftMoment = square(0, left);
  const e = resultant(mesh, even.values, 1);
  const o = resultant(mesh, odd.values, 1);
  expect(e.force).toBeCloseTo((right + left) / 2, 13);
  expect(o.force).toBeCloseTo((right - left) / 2, 13);
  expect(e.moment).toBeCloseTo((rightMoment + leftMoment) / 2, 13);
  expect(o.moment).toBeCloseTo((rightMoment - leftMoment) / 2, 13);
  expect(even.count).toBe(2);
  expect(resultant(mesh, even.values, 0).force).toBeCloseTo(length / 2, 13);
});

test("loads are consistent: their work on a parabola is exact wherever the patch ends", () => {
  // One element of the surface from x₀ to x₁; p = ½ on part of it works on w = x².
  const {values} = wheelLoads(mesh, 0.01, [0.503], "symmetric");
  const workDone = mesh.surface.reduce((sum, {x}, k) => sum + values[k] * x * x, 0);
  expect(workDone).toBeCloseTo((0.508 ** 3 - 0.498 ** 3) / 6, 14);
});

test("a patch beyond the meshed reach, or over an open joint without an overlay, is refused", () => {
  expect(() => wheelLoads(mesh, 0.3, [0.1, 5], "symmetric")).toThrow("centres[1]");
  expect(() => wheelLoads(mesh, 0.3, [Number.NaN], "symmetric")).toThrow("centres[0]");
  const layers = [layer("jointed", 0.2, 9e9), layer("foundation", 1, 9e7)];
  const bare = buildMesh(section({layers}, {width: 0.02}), OPTIONS);
  expect(() => wheelLoads(bare, 0.3, [0.1], "symmetric")).toThrow("centres[0]");
  expect(() => wheelLoads(bare, 0.3, [0.16], "symmetric")).not.toThrow();
});

const Y = Float64Array.of(0, 0.05, 0.2, 0.5, 1.1);

/** f(y) = Σ weights·r(β) with a load factor of 1: a strip so narrow that 2p·sin(βb)/β = 2pb = 1 within 1e-9. */
function inverse(r: (beta: number) => number, kind: "even" | "odd", count = 40): number[] {
  const w = wavenumbers(count, 1, 300);
  const width = 1e-7;
  const weights = inverseWeights(w, Y, [{centre: 0, width, pressure: 1 / width}])[kind];
  return [...Y].map((_, i) => w.beta.reduce((sum, b, k) => sum + weights[i * count + k] * r(b), 0));
}

// (1/π)∫₀^∞ e^(−aβ)·cos βy dβ = (1/π)·a/(a² + y²), and with sin: (1/π)·y/(a² + y²).
test("inverse transform of an exponential", () => {
  const a = 0.2;
  const even = inverse(b => Math.exp(-a * b), "even");
  const odd = inverse(b => Math.exp(-a * b), "odd");
  Y.forEach((y, i) => {
    expect(Math.abs(even[i] - a / (a * a + y * y) / Math.PI)).toBeLessThan(2e-6);
    expect(Math.abs(odd[i] - y / (a * a + y * y) / Math.PI)).toBeLessThan(2e-6);
  });
});

// (1/π)∫₀^∞ e^(−s²β²/2)·cos βy dβ = e^(−y²/(2s²))/(s√(2π)).
test("inverse transform of a Gaussian, and how it converges with the wavenumbers", () => {
  const s = 0.3;
  const error = (count: number): number => {
    const values = inverse(b => Math.exp(-((s * b) ** 2) / 2), "even", count);
    return Math.max(
      ...[...Y].map((y, i) => Math.abs(values[i] - Math.exp(-(y * y) / (2 * s * s)) / (s * Math.sqrt(2 * Math.PI)))),
    );
  };
  expect(error(40)).toBeLessThan(1e-5);
  expect(error(14)).toBeLessThan(0.05);
  expect(error(40)).toBeLessThan(error(20) / 100); // faster than any power: the roots are Chebyshev's
});

// A strip under r = e^(−aβ): the step spread by a Lorentzian, (p/π)·[atan((y+b)/a) − atan((y−b)/a)].
test("strips: width, place, pressure, and two of them together", () => {
  const a = 0.15;
  const w = wavenumbers(40, 1, 300);
  const strips = [
    {centre: 0, width: 0.3, pressure: 2},
    {centre: 0.6, width: 0.2, pressure: 5},
  ];
  const {even, odd} = inverseWeights(w, Y, strips);
  const sum = (weights: Float64Array, i: number): number =>
    w.beta.reduce((total, b, k) => total + weights[i * w.beta.length + k] * Math.exp(-a * b), 0);
  Y.forEach((y, i) => {
    let expectedEven = 0;
    let expectedOdd = 0;
    for (const {centre, width, pressure} of strips) {
      const [p, m] = [y - centre + width / 2, y - centre - width / 2];
      expectedEven += (pressure / Math.PI) * (Math.atan(p / a) - Math.atan(m / a));
      expectedOdd += (pressure / (2 * Math.PI)) * Math.log((a * a + p * p) / (a * a + m * m));
    }
    expect(Math.abs(sum(even, i) - expectedEven)).toBeLessThan(1e-5);
    expect(Math.abs(sum(odd, i) - expectedOdd)).toBeLessThan(1e-5);
  });
});

test("wavenumbers ascend within their range and are Chebyshev roots in asinh(βH)", () => {
  const w = wavenumbers(7, 2, 300);
  const top = Math.asinh(600);
  w.beta.forEach((b, k) => {
    const t = (2 * Math.asinh(2 * b)) / top - 1;
    expect(Math.abs(Math.cos(7 * Math.acos(t)))).toBeLessThan(1e-12);
    expect(b).toBeGreaterThan(k ? w.beta[k - 1] : 0);
  });
  expect(w.beta[6]).toBeLessThan(300);
});

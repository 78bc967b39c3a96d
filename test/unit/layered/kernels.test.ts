import {expect, test} from "vitest";
import {besselJ01} from "../../../src/engine/layered/bessel.ts";
import {cel} from "../../../src/engine/layered/elliptic.ts";
import {gaussLegendre} from "../../../src/engine/layered/gauss.ts";
import {halfSpaceResponse} from "../../../src/engine/layered/halfspace.ts";

function bessel(x: number): [number, number] {
  const j0 = new Float64Array(1);
  const j1 = new Float64Array(1);
  besselJ01(Float64Array.of(x), 0, 1, j0, j1);
  return [j0[0], j1[0]];
}

test("J₀ and J₁ agree with Abramowitz & Stegun 1964, Table 9.1", () => {
  // J₀ to 15 decimals, J₁ to 10.
  for (const [x, j0, j1] of [
    [1, 0.765197686557967, 0.4400505857],
    [2, 0.223890779141236, 0.5767248078],
    [5, -0.177596771314338, -0.3275791376],
    [10, -0.245935764451348, 0.0434727462],
  ]) {
    const [c0, c1] = bessel(x);
    expect(Math.abs(c0 - j0)).toBeLessThan(1e-15);
    expect(Math.abs(c1 - j1)).toBeLessThan(5.1e-11); // the table's last digit
  }
});

test("J₀ and J₁ agree with their integral over the angle at every kind of argument", () => {
  // Jₙ(x) = (1/π)∫₀^π cos(nθ − x sin θ)dθ; A&S 9.1.21. The trapezoidal rule is exact to rounding with N > x terms.
  for (const x of [0, 1e-9, 0.1, 0.125, 0.3751, 3.3, 12.4, 24.99, 25, 25.01, 31.7, 60, 79.9, 80.1, 150]) {
    const [j0, j1] = bessel(x);
    const n = 400;
    let s0 = 0;
    let s1 = 0;
    for (let k = 0; k < n; k++) {
      const t = (2 * Math.PI * k) / n;
      s0 += Math.cos(x * Math.sin(t)) / n;
      s1 += Math.cos(t - x * Math.sin(t)) / n;
    }
    expect(Math.abs(j0 - s0)).toBeLessThan(2e-14); // rounding of x·sin θ at x = 150
    expect(Math.abs(j1 - s1)).toBeLessThan(2e-14);
  }
});

test("J₀ and J₁ are the same on both sides of the end of their table", () => {
  // A step of 2δ changes them by 2δ·J′ and a remainder of J·2δ²; J is 0.01 here.
  const d = 1e-5;
  const [j0, j1] = bessel(4096 - d);
  const [k0, k1] = bessel(4096 + d);
  expect(Math.abs(k0 - j0 + d * (j1 + k1))).toBeLessThan(1e-14);
  expect(Math.abs(k1 - j1 - d * (j0 + k0))).toBeLessThan(1e-10); // J₁′ = J₀ − J₁/x
});

test("small arguments keep relative accuracy in J₁", () => {
  expect(bessel(1e-8)[1] / 0.5e-8).toBeCloseTo(1, 14);
});

test("Gauss–Legendre integrates polynomials of degree 2n − 1 exactly", () => {
  for (const n of [2, 7, 16, 22]) {
    const {nodes, weights} = gaussLegendre(n);
    const degree = 2 * n - 2;
    const sum = nodes.reduce((s, x, i) => s + weights[i] * (x ** degree + x ** (degree + 1)), 0);
    expect(sum).toBeCloseTo(2 / (degree + 1), 13);
  }
});

test("complete elliptic integrals at k² = ½", () => {
  // Abramowitz & Stegun 1964, Tables 17.1: K = 1.854074677301372, E = 1.350643881047675.
  const kc = Math.SQRT1_2;
  expect(cel(kc, 1, 1, 1)).toBeCloseTo(1.854074677301372, 14);
  expect(cel(kc, 1, 1, 0.5)).toBeCloseTo(1.350643881047675, 14);
  // Π(n) at k = 0 is π/(2√(1 − n)).
  expect(cel(1, 0.25, 1, 1)).toBeCloseTo(Math.PI, 13);
});

test("the two forms of the half-space integrals meet, and the surface is the limit of small depth", () => {
  const list = (a: number, r: number, z: number) => Object.values(halfSpaceResponse(a, r, z, 0.3));
  // k² = 4ar/((a+r)² + z²) = ½ at this depth: one side takes the angular, the other the elliptic form
  for (const r of [0.3, 1, 2.5]) {
    const z = Math.sqrt(8 * r - (1 + r) ** 2);
    if (!(z > 0)) continue;
    const a = list(1, r, z * (1 - 1e-9));
    const b = list(1, r, z * (1 + 1e-9));
    a.forEach((value, i) => {
      expect(Math.abs(value - b[i])).toBeLessThan(1e-8);
    });
  }
  for (const r of [0, 0.4, 0.999, 1.001, 3]) {
    const surface = list(1, r, 0);
    list(1, r, 1e-9).forEach((value, i) => {
      expect(Math.abs(value - surface[i])).toBeLessThan(2e-6); // stresses change over |r − a| = 1e-3
    });
  }
});

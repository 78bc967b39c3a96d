/** Sums by Woodbury's identity against dense matrices: V written out and inverted by Gauss–Jordan elimination here. */
import {expect, test} from "vitest";
import type {BeamScatter} from "../../../src/engine/laboratory/beamLikelihood.ts";
import {type LinearBeam, linearStep, restrictedScatter} from "../../../src/engine/laboratory/beamLinear.ts";
import {randomStream} from "../../../src/engine/statistics/index.ts";

type Matrix = number[][];

const product = (A: Matrix, B: Matrix): Matrix =>
  A.map(row => B[0].map((_, j) => row.reduce((sum, a, k) => sum + a * B[k][j], 0)));
const transposed = (A: Matrix): Matrix => A[0].map((_, j) => A.map(row => row[j]));

/** Inverse and determinant by Gauss–Jordan with pivoting. */
function inverted(A: Matrix): {inverse: Matrix; determinant: number} {
  const n = A.length;
  const M = A.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  let determinant = 1;
  for (let k = 0; k < n; k++) {
    const p = M.reduce((best, row, i) => (i >= k && Math.abs(row[k]) > Math.abs(M[best][k]) ? i : best), k);
    if (p !== k) determinant = -determinant;
    [M[k], M[p]] = [M[p], M[k]];
    determinant *= M[k][k];
    M[k] = M[k].map((v, _, row) => v / row[k]);
    M.forEach((row, i) => {
      if (i !== k) M[i] = row.map((v, j) => v - row[k] * M[k][j]);
    });
  }
  return {inverse: M.map(row => row.slice(n)), determinant};
}

const PARAMETERS = 3;
const scatter: BeamScatter = {beam: 0.4, upper: 0.6, exponent: 0.5, lower: 0.8, surface: 1.3};
const DEVIATIONS = [scatter.beam, scatter.upper, scatter.exponent];
const none = {precision: new Float64Array(PARAMETERS), pull: new Float64Array(PARAMETERS)};

/** Beams of a few readings each, some of them bounds; lengths in arbitrary units. */
function beams(count: number, rows: number, truth: readonly number[] = []): LinearBeam[] {
  const {normal, uniform} = randomStream(11);
  return Array.from({length: count}, (): LinearBeam => {
    const J = Float64Array.from({length: rows * PARAMETERS}, normal);
    const Z = Float64Array.from({length: rows * 3}, normal);
    const bound = Float64Array.from({length: rows}, (_, r) =>
      r % 4 === 3 && !truth.length ? 0.2 + uniform() : Number.NaN,
    );
    const error = Float64Array.from({length: rows}, () => 0.3);
    const surface = Uint8Array.from({length: rows}, (_, r) => r % 2);
    const own = DEVIATIONS.map(d => d * normal());
    const residual = Float64Array.from({length: rows}, (_, r) => {
      if (!truth.length) return normal();
      const off = Math.hypot(0.3, surface[r] ? scatter.surface : scatter.lower) * normal();
      const effects = own.reduce((sum, d, k) => sum + d * Z[3 * r + k], off);
      return truth.reduce((sum, t, k) => sum + J[r * PARAMETERS + k] * t, effects);
    });
    return {rows, residual, J, Z, bound, error, surface};
  });
}

/** W⁻¹ + Z·D·Zᵀ. */
function covarianceOf({rows, Z, bound, error, surface}: LinearBeam, s: BeamScatter): Matrix {
  return Array.from({length: rows}, (_, i) =>
    Array.from({length: rows}, (_, j) => {
      const w = Number.isNaN(bound[i]) ? 1 / (error[i] ** 2 + (surface[i] ? s.surface : s.lower) ** 2) : bound[i];
      const effects = [s.beam, s.upper, s.exponent].reduce((sum, d, k) => sum + d * d * Z[3 * i + k] * Z[3 * j + k], 0);
      return effects + (i === j ? 1 / w : 0);
    }),
  );
}

const jacobian = ({rows, J}: LinearBeam): Matrix =>
  Array.from({length: rows}, (_, r) => [...J.subarray(r * PARAMETERS, (r + 1) * PARAMETERS)]);

/** Generalised least squares and the restricted likelihood, all dense. */
function dense(linear: readonly LinearBeam[], s: BeamScatter, {precision, pull}: typeof none) {
  const A: Matrix = Array.from({length: PARAMETERS}, (_, i) =>
    Array.from({length: PARAMETERS}, (_, j) => (i === j ? precision[i] : 0)),
  );
  const right = [...pull];
  let [square, logV] = [0, 0];
  for (const beam of linear) {
    const {inverse, determinant} = inverted(covarianceOf(beam, s));
    const J = jacobian(beam);
    const e = [...beam.residual].map(v => [v]);
    product(product(transposed(J), inverse), J).forEach((row, i) => {
      row.forEach((v, j) => {
        A[i][j] += v;
      });
    });
    product(product(transposed(J), inverse), e).forEach(([v], i) => {
      right[i] += v;
    });
    square += product(product(transposed(e), inverse), e)[0][0];
    // A bound's weight is no matter of the scatter: its own 1/w is taken out of the determinant.
    logV += Math.log(determinant) + [...beam.bound].reduce((sum, w) => sum + (Number.isNaN(w) ? 0 : Math.log(w)), 0);
  }
  const {inverse, determinant} = inverted(A);
  const step = product(
    inverse,
    right.map(v => [v]),
  ).map(([v]) => v);
  const explained = step.reduce((sum, v, i) => sum + v * right[i], 0);
  return {step, covariance: inverse, minusLikelihood: 0.5 * (logV + square - explained + Math.log(determinant))};
}

const priors = {
  none,
  some: {precision: Float64Array.of(0, 2, 5), pull: Float64Array.of(0, 1.5, -4)},
};

for (const [name, prior] of Object.entries(priors))
  test(`generalised least squares, prior: ${name}`, () => {
    const linear = beams(3, 9);
    const {step, covariance, effects, logDeterminants} = linearStep(linear, scatter, prior);
    const expected = dense(linear, scatter, prior);
    expected.step.forEach((v, i) => {
      expect(step[i]).toBeCloseTo(v, 10);
      for (let j = 0; j < PARAMETERS; j++)
        expect(covariance[i * PARAMETERS + j]).toBeCloseTo(expected.covariance[i][j], 10);
    });
    linear.forEach((beam, k) => {
      // Best linear unbiased prediction: D·Zᵀ·V⁻¹·(e − J·Δ).
      const {inverse, determinant} = inverted(covarianceOf(beam, scatter));
      const left = product(
        inverse,
        jacobian(beam).map((row, r) => [beam.residual[r] - row.reduce((sum, v, i) => sum + v * step[i], 0)]),
      );
      const own = [0, 1, 2].map(c => left.reduce((sum, [v], r) => sum + beam.Z[3 * r + c] * v, 0));
      DEVIATIONS.forEach((d, c) => void expect(effects[k][c]).toBeCloseTo(d * d * own[c], 10));
      // |V| = |W⁻¹|·|D|·|D⁻¹ + ZᵀWZ|.
      const weights = covarianceOf(beam, {...scatter, beam: 0, upper: 0, exponent: 0}).reduce(
        (sum, row, i) => sum + Math.log(row[i]),
        0,
      );
      const logD = 2 * DEVIATIONS.reduce((sum, d) => sum + Math.log(d), 0);
      expect(weights + logD + logDeterminants[k]).toBeCloseTo(Math.log(determinant), 10);
    });
  });

test("no scatter has a larger restricted likelihood than the one found", () => {
  const linear = beams(60, 16, [0.5, -1, 2]);
  const found = restrictedScatter(linear, {beam: 1, upper: 1, exponent: 1, lower: 1, surface: 1}, none);
  const least = dense(linear, found, none).minusLikelihood;
  for (const name of ["beam", "upper", "exponent", "lower", "surface"] as const)
    for (const factor of [0.8, 0.95, 1.05, 1.25])
      expect(dense(linear, {...found, [name]: found[name] * factor}, none).minusLikelihood).toBeGreaterThan(
        least - 1e-3,
      );
  // And it is near the truth: 60 beams tell a standard deviation to about 1/√(2·60) = 9 %, three times that allowed.
  for (const name of ["beam", "upper", "exponent", "lower", "surface"] as const)
    expect(Math.abs(Math.log(found[name] / scatter[name]))).toBeLessThan(0.3);
});

test("readings that do not tell a parameter are refused", () => {
  const linear = beams(2, 5).map(b => ({...b, J: b.J.map((v, k) => (k % PARAMETERS === 1 ? 0 : v))}));
  expect(() => linearStep(linear, scatter, none)).toThrow(/positive definite/);
  expect(() => linearStep(linear, scatter, priors.some)).not.toThrow();
});

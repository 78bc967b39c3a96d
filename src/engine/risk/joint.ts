import {InputError} from "../errors.ts";
import {factored, normalQuantile} from "../statistics/index.ts";
import type {JointNormal} from "./types.ts";

/** Two halves of a covariance that should be equal may differ by this part of √(cᵢᵢ·cⱼⱼ) [–]. */
const SYMMETRIC = 1e-9;

/**
 * Maps as many u's in (0, 1) as there are quantities to their values, by Cholesky's factor of the covariance:
 *
 *   x = mean + L·z,   z_i = Φ⁻¹(u_i),   L·Lᵀ = covariance
 *
 * The first quantity depends on the first u alone; each further one on those before it and its own.
 *
 * @throws InputError "shape" when the covariance is not square of the size of the mean
 * @throws InputError "domain" when it is not symmetric, or not positive definite (the message names the pivot)
 */
export function jointNormal({mean, covariance}: JointNormal): (u: ArrayLike<number>) => Float64Array {
  const n = mean.length;
  if (n === 0) throw new InputError("shape", "mean.length", n, "≥ 1");
  if (covariance.length !== n) throw new InputError("shape", "covariance.length", covariance.length, `${n}`);
  covariance.forEach((row, i) => {
    if (row.length !== n) throw new InputError("shape", `covariance[${i}].length`, row.length, `${n}`);
  });
  requireVariances({mean, covariance});
  requireSymmetric(covariance);
  const {spread} = factored(covariance.flat(), n);
  return u => {
    if (u.length !== n) throw new InputError("shape", "u.length", u.length, `${n}`);
    const z = Float64Array.from(u, (p, i) => {
      if (!(p > 0 && p < 1)) throw new InputError("domain", `u[${i}]`, p, "in (0, 1)");
      return p <= 0.5 ? normalQuantile(p) : -normalQuantile(1 - p);
    });
    return spread(z).map((x, i) => mean[i] + x);
  };
}

function requireVariances({mean, covariance}: JointNormal): void {
  mean.forEach((x, i) => {
    if (!Number.isFinite(x)) throw new InputError("domain", `mean[${i}]`, x, "finite");
    const variance = covariance[i][i];
    if (!(variance > 0 && variance < Infinity))
      throw new InputError("domain", `covariance[${i}][${i}]`, variance, "finite, > 0: a variance");
  });
}

function requireSymmetric(covariance: readonly (readonly number[])[]): void {
  covariance.forEach((row, i) => {
    for (let j = 0; j < i; j++) {
      const scale = Math.sqrt(row[i] * covariance[j][j]);
      if (!(Math.abs(row[j] - covariance[j][i]) <= SYMMETRIC * scale))
        throw new InputError("domain", `covariance[${i}][${j}]`, row[j], `${covariance[j][i]}, as [${j}][${i}] has`);
    }
  });
}

/**
 * Contact of joint faces in a few segments, each with one uniform pressure p ≥ 0 and one mean opening g ≥ 0. Openings are
 * linear in the pressures, g = g₀ + F·p, with F symmetric and positive definite, so openings and pressures that exclude
 * each other exist and are unique wherever the pattern does not vary along y.
 */
import {InputError} from "../errors.ts";

/**
 * One contact pattern: the pressures that bring the closed segments' mean opening to zero, and everything else with them.
 *
 * @param values  row-major (tips + segments) × (wheels + segments): zone means and mean openings, all segments open,
 *                under each wheel load and under a unit pressure on each segment
 * @param closed  bit s set where segment s is closed
 * @returns row-major (tips + segments) × wheels: zone means; of each segment the opening where open, the pressure where closed
 */
export function contactPressures(
  values: Float64Array,
  {tips, segments, wheels}: {readonly tips: number; readonly segments: number; readonly wheels: number},
  closed: number,
): Float64Array {
  const columns = wheels + segments;
  const rows = tips + segments;
  const out = new Float64Array(rows * wheels);
  const shut = [...Array(segments).keys()].filter(s => closed & (1 << s));
  const pressure = new Float64Array(shut.length * wheels);
  for (let p = 0; p < wheels; p++) {
    const A = shut.map(r => [
      ...shut.map(c => values[(tips + r) * columns + wheels + c]),
      -values[(tips + r) * columns + p],
    ]);
    solveSmall(A).forEach((x, i) => {
      pressure[i * wheels + p] = x;
    });
  }
  for (let q = 0; q < rows; q++) {
    const own = q >= tips ? shut.indexOf(q - tips) : -1;
    for (let p = 0; p < wheels; p++) {
      let sum = own >= 0 ? pressure[own * wheels + p] : values[q * columns + p];
      if (own < 0)
        for (let i = 0; i < shut.length; i++) sum += values[q * columns + wheels + shut[i]] * pressure[i * wheels + p];
      out[q * wheels + p] = sum;
    }
  }
  return out;
}

/** Gauss elimination on the augmented rows of a small positive definite system: no pivoting needed. */
function solveSmall(A: number[][]): number[] {
  const n = A.length;
  for (let k = 0; k < n; k++) {
    if (!(A[k][k] > 0)) throw new InputError("domain", `contact flexibility ${k}`, A[k][k], "> 0");
    for (let i = k + 1; i < n; i++) {
      const factor = A[i][k] / A[k][k];
      for (let j = k; j <= n; j++) A[i][j] -= factor * A[k][j];
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let k = n - 1; k >= 0; k--) {
    let sum = A[k][n];
    for (let j = k + 1; j < n; j++) sum -= A[k][j] * x[j];
    x[k] = sum / A[k][k];
  }
  return x;
}

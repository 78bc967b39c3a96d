/**
 * Contact of joint faces in a few segments, each with one uniform pressure p ≥ 0 and one mean opening g ≥ 0. Openings are
 * linear in the pressures, g = g₀ + F·p, with F symmetric and positive definite, so openings and pressures that exclude
 * each other exist and are unique wherever the pattern does not vary along y.
 */
import {InputError} from "../errors.ts";

/** Systems of the same size one after the other, such as the wavenumbers of a state; rows are tips, then segments. */
export interface ContactSystems {
  readonly systems: number;
  readonly tips: number;
  readonly segments: number;
  readonly loads: number;
  readonly open: Float64Array; // [system][row][load]: zone means and mean openings, all segments open
  readonly unit: Float64Array; // [system][row][segment]: the same under a unit pressure on each segment
}

/**
 * One contact pattern: the pressures that bring the closed segments' mean opening to zero, and everything else with them.
 *
 * @param closed  bit s set where segment s is closed
 * @param out     laid out as `open`, overwritten: zone means; of each segment the opening where open, the pressure where closed
 * @throws InputError "domain" where the closed segments' flexibility is not positive definite
 */
export function contactPressures(contact: ContactSystems, closed: number, out: Float64Array): void {
  const {systems, tips, segments, loads, open, unit} = contact;
  const rows = tips + segments;
  const shut = [...Array(segments).keys()].filter(s => closed & (1 << s));
  const n = shut.length;
  const inverse = new Float64Array(n * n);
  for (let k = 0; k < systems; k++) {
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) inverse[i * n + j] = unit[(k * rows + tips + shut[i]) * segments + shut[j]];
    }
    invert(inverse, n);
    for (let q = 0; q < rows; q++) {
      const to = (k * rows + q) * loads;
      const own = q < tips ? -1 : shut.indexOf(q - tips);
      if (own >= 0 || n === 0) for (let p = 0; p < loads; p++) out[to + p] = own >= 0 ? 0 : open[to + p];
      for (let i = 0; i < n; i++) {
        // What row q gains by the pressures that answer a unit opening of closed segment i.
        let gain = 0;
        if (own >= 0) gain = -inverse[own * n + i];
        else for (let j = 0; j < n; j++) gain -= unit[(k * rows + q) * segments + shut[j]] * inverse[j * n + i];
        const from = (k * rows + tips + shut[i]) * loads;
        const base = i === 0 && own < 0 ? open : out; // an open row begins with what it has without contact
        for (let p = 0; p < loads; p++) out[to + p] = base[to + p] + gain * open[from + p];
      }
    }
  }
}

/** Inverse of a small positive definite matrix in place, row-major n × n: Gauss–Jordan, no pivoting needed. */
function invert(A: Float64Array, n: number): void {
  for (let k = 0; k < n; k++) {
    const pivot = A[k * n + k];
    if (!(pivot > 0)) throw new InputError("domain", `contact flexibility ${k}`, pivot, "> 0");
    A[k * n + k] = 1;
    for (let j = 0; j < n; j++) A[k * n + j] /= pivot;
    for (let i = 0; i < n; i++) {
      if (i === k) continue;
      const factor = A[i * n + k];
      A[i * n + k] = 0;
      for (let j = 0; j < n; j++) A[i * n + j] -= factor * A[k * n + j];
    }
  }
}

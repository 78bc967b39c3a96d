/** Crack fronts of one beam against passes, for given growth laws. Theory: docs/theory/beams.md. */
import {repeatingRainflow, tipStrain} from "../crack/index.ts";
import {type RateTable, ratesAt, rateTable} from "../life/index.ts";
import {exp} from "../numeric/index.ts";
import {TIPS} from "../response/index.ts";
import type {BeamSolution} from "./beam.ts";
import {type SteadyFronts, steadyFronts} from "./beamFronts.ts";
import type {BeamTest} from "./beamTypes.ts";

/** dc/dN = A·ε^n, as ln A at a strain near those of the beams, where A and n are least correlated. */
export interface LawAtStrain {
  readonly logRate: number; // ln of the advance per cycle at `referenceStrain` [ln m]
  readonly exponent: number; // n [–]
}

/** Strain at which rates are fitted [–]. */
export const REFERENCE_STRAIN = 500e-6;

/** Cycles of tip strain per pass, for every state and tip: [first[row] … first[row + 1]). */
export interface BeamCycles {
  readonly first: Int32Array; // by [state][tip]
  readonly range: Float64Array; // [–]
  readonly count: Float64Array; // a half for each of a travel there and back
}

/**
 * The wheel never leaves the beam: a travel there and back is one period, two passes. Strain at a turning point of the
 * wheel, such as hogging that pulls at the surface, is one peak and not one for either pass.
 *
 * @param shearWeight  of the shear terms in the tip strain [–]
 */
export function beamCycles(solution: BeamSolution, shearWeight: number): BeamCycles {
  const {tips, opening, shear, positions, planeStrainModulus} = solution;
  const places = positions.length;
  const series = new Float64Array(2 * places - 2);
  const stack = new Float64Array(series.length + 1);
  const first = new Int32Array(tips.length + 1);
  const range: number[] = [];
  const count: number[] = [];
  for (let row = 0; row < tips.length; row++) {
    first[row] = range.length;
    if (!tips[row]) continue;
    const own = row % TIPS.length === 0 ? planeStrainModulus.interlayer : planeStrainModulus.overlay;
    const elastic = {planeStrainModulus: own, poisson: 0}; // Poisson's ratio matters to shear along the joint only
    for (let p = 0; p < places; p++) {
      const at = row * places + p;
      series[p] = tipStrain({opening: opening[at], shearXZ: shear[at], shearXY: 0}, elastic, shearWeight);
      if (p > 0 && p < places - 1) series[series.length - p] = series[p];
    }
    repeatingRainflow(
      series,
      (r, _, n) => {
        range.push(r);
        count.push(0.5 * n);
      },
      stack,
    );
  }
  first[tips.length] = range.length;
  return {first, range: Float64Array.from(range), count: Float64Array.from(count)};
}

/** Of the cycles in one row; 0 without any [–]. */
export function largestRange({first, range}: BeamCycles, row: number): number {
  let most = 0;
  for (let k = first[row]; k < first[row + 1]; k++) most = Math.max(most, range[k]);
  return most;
}

const KEPT = 4;
/** The last ones of each beam: a fit asks for the same exponents again and again, at other rates. */
const known = new WeakMap<BeamCycles, GrowthTable[]>();

/** Growth of every state in one pass over that at the reference strain, Σ count·(Δε/ε₀)^n: all that exponents decide. */
interface GrowthTable {
  readonly exponents: readonly [overlay: number, interlayer: number];
  readonly table: RateTable; // at rates of 1
}

function growthTable(solution: BeamSolution, cycles: BeamCycles, exponents: GrowthTable["exponents"]): RateTable {
  const kept = known.get(cycles) ?? [];
  const found = kept.find(g => g.exponents.every((n, k) => Object.is(n, exponents[k])));
  if (found) return found.table;
  const sums = new Float64Array(solution.tips.length);
  const {first, range, count} = cycles;
  for (let row = 0; row < sums.length; row++) {
    const n = exponents[row % TIPS.length === 0 ? 1 : 0];
    if (Number.isNaN(n)) continue; // it does not crack
    for (let k = first[row]; k < first[row + 1]; k++) sums[row] += count[k] * (range[k] / REFERENCE_STRAIN) ** n;
  }
  const table = rateTable(solution.cracks, sums, () => 1);
  known.set(cycles, [{exponents, table}, ...kept.slice(0, KEPT - 1)]);
  return table;
}

export interface BeamLaws {
  readonly overlay: LawAtStrain;
  readonly interlayer: LawAtStrain | null; // null: it does not crack
}

/**
 * @param horizon  passes up to which fronts are followed
 * @param upper    factor on the growth from the surface [–]
 */
export function beamHistory(
  solution: BeamSolution,
  cycles: BeamCycles,
  laws: BeamLaws,
  horizon: number,
  upper = 1,
): SteadyFronts {
  const {overlayThickness: H, interlayerThickness: t} = solution;
  const {overlay, interlayer} = laws;
  const table = growthTable(solution, cycles, [overlay.exponent, interlayer?.exponent ?? Number.NaN]);
  const lower = exp(overlay.logRate);
  const rates = [interlayer ? exp(interlayer.logRate) : 0, lower, lower * upper];
  return steadyFronts({
    overlayThickness: H,
    interlayerThickness: t,
    horizon,
    growth: (fronts, out) => {
      ratesAt(table, fronts, out);
      for (let k = 0; k < out.length; k++) out[k] *= rates[k];
    },
  });
}

/** Tip strains, the largest of a pass, that cracks in a material went through [–]. */
export interface StrainRange {
  readonly material: string;
  readonly low: number;
  readonly high: number;
}

/** Over all states of one crack alone, from none to nine tenths of its way. */
export function strainRange(
  cases: readonly {readonly test: BeamTest; readonly solution: BeamSolution; readonly cycles: BeamCycles}[],
  material: string,
): StrainRange {
  let [low, high] = [Infinity, 0];
  for (const {test, solution, cycles} of cases) {
    const {cracks} = solution;
    const [nb, nc] = [cracks.undersideLength.length, cracks.surfaceLength.length];
    const last = cracks.interlayerLength.length - 1;
    const rows: number[] = [];
    if (test.overlay.material === material)
      for (let b = 0; b < nb && cracks.undersideLength[b] < 0.9 * solution.overlayThickness; b++)
        rows.push(cracks.number[(last * nb + b) * nc] * TIPS.length + 1);
    if (test.interlayer?.material === material)
      for (let a = 0; a < last; a++) rows.push(cracks.number[a * nb * nc] * TIPS.length);
    for (const row of rows) {
      const most = largestRange(cycles, row);
      if (most === 0) continue;
      low = Math.min(low, most);
      high = Math.max(high, most);
    }
  }
  return {material, low, high};
}

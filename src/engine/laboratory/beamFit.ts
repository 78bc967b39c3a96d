import {ln} from "../numeric/index.ts";
import {REFERENCE_STRAIN, type StrainRange, strainRange} from "./beamGrowth.ts";
import {type BeamCase, type LawOrigin, type LawVector, lawVector} from "./beamLaws.ts";
import {type BeamScatter, beamMode, frontCurves} from "./beamLikelihood.ts";
import {faceDeviation, type Observation, observationsOf} from "./beamObservations.ts";
import {fitGrowth, type GrowthCase, type GrowthEstimate, type GrowthFit, type GrowthOptions} from "./growthFit.ts";

export interface BeamFitOptions extends GrowthOptions {
  readonly origins: Readonly<Record<string, LawOrigin>>; // by material
  readonly start?: GrowthEstimate; // default: looked for
}

/** Parameters: by fitted material ln of the advance per cycle [ln m] at REFERENCE_STRAIN, exponent. */
export interface BeamFit extends GrowthFit {
  readonly materials: readonly string[]; // fitted, in the order of the parameters
  readonly faceDeviation: number; // of one face's reading [m]
  readonly pivots: Readonly<Record<string, number>>; // strains at which a beam's own exponent leaves the rate, by material [–]
}

const FIRST: BeamScatter = {beam: 0.3, upper: 0.3, exponent: 0.1, lower: 1e-3, surface: 1e-3};

/**
 * Growth laws from all readings of all beams together.
 *
 * @throws InputError "domain" when no beam has readings, or the readings do not tell the laws; Cancelled
 */
export function fitBeams(cases: readonly BeamCase[], options: BeamFitOptions): BeamFit {
  const laws = lawVector(
    cases.map(c => c.test),
    options.origins,
  );
  const deviation = faceDeviation(cases.map(c => c.test));
  const beams: Beam[] = cases.map(own => ({own, observations: observationsOf(own.test, deviation)}));
  const pivots = Object.fromEntries(laws.fitted.map(name => [name, middleStrain(strainRange(cases, name))]));
  const growth = beams.map(
    ({own, observations}): GrowthCase => ({
      observations,
      byExponent: exponentDirection(laws, own, pivots),
      curves: (parameters, upper) => frontCurves(own, laws.lawsOf(own.test, parameters), upper),
      concerns: parameter => laws.concerns(own.test, parameter),
    }),
  );
  const start = options.start ?? {parameters: firstLaws(beams, laws), scatter: FIRST};
  return {...fitGrowth(growth, start, options), materials: laws.fitted, faceDeviation: deviation, pivots};
}

/** Nearer to the low end, where a crack spends most of its passes: there a beam's clock and exponent are nearly independent. */
function middleStrain({low, high}: StrainRange): number {
  return high > 0 ? low ** (2 / 3) * high ** (1 / 3) : REFERENCE_STRAIN;
}

/** How the parameters of a beam move with v, its own addition to exponents. */
export function exponentDirection(
  laws: LawVector,
  {test}: BeamCase,
  pivots: Readonly<Record<string, number>>,
): Float64Array {
  return Float64Array.from({length: laws.size}, (_, k) => {
    if (!laws.concerns(test, k)) return 0;
    return k % 2 ? 1 : -ln(pivots[laws.fitted[k >> 1]] / REFERENCE_STRAIN);
  });
}

interface Beam {
  readonly own: BeamCase;
  readonly observations: readonly Observation[];
}

/**
 * Exponents of 4, one rate for all overlays and a slower one for interlayers: the most likely of a grid. All rates k times
 * as fast is the same fronts at k times the passes, so each slowness is integrated once.
 */
function firstLaws(beams: readonly Beam[], laws: LawVector): Float64Array {
  const overlays = new Set(beams.map(({own}) => own.test.overlay.material));
  const onlyOverlays = laws.fitted.every(name => overlays.has(name));
  const wide: BeamScatter = {beam: 1, upper: 1, exponent: 1, lower: 5e-3, surface: 5e-3};
  let best = new Float64Array(laws.size);
  let most = -Infinity;
  for (const slower of onlyOverlays ? [0] : [0, 2, 4, 6, 8]) {
    const parameters = Float64Array.from({length: laws.size}, (_, k) =>
      k % 2 ? 4 : MIDDLE_RATE - (overlays.has(laws.fitted[k / 2]) ? 0 : slower),
    );
    const curves = beams.map(({own}) => frontCurves(own, laws.lawsOf(own.test, parameters), 0));
    for (let faster = -8; faster <= 8; faster++) {
      const likelihood = beams.reduce((sum, {observations}, k) => {
        const sooner = observations.map(o => ({...o, logPasses: o.logPasses + faster}));
        return sum + beamMode(sooner, curves[k], wide, 0).likelihood;
      }, 0);
      if (likelihood <= most) continue;
      most = likelihood;
      best = parameters.map((p, k) => (k % 2 ? p : p + faster));
    }
  }
  return best;
}

/** ln of an advance of 0.3 µm a cycle at the reference strain, in the middle of what bituminous mixes do [ln m]. */
const MIDDLE_RATE = -15;

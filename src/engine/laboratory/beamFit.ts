/**
 * Growth laws fitted to all readings of all beams together: a nonlinear model with mixed effects. By turns the fronts are
 * linearised at the present laws and each beam's own effects, the scatter is estimated by restricted maximum likelihood of
 * the linear model, and laws and effects move together by generalised least squares.
 *
 * @source Lindstrom & Bates 1990, doi:10.2307/2532087; what was not seen enters as a bound, linearised like the rest.
 *   Theory: docs/theory/laboratory.md
 */
import {Cancelled, InputError} from "../errors.ts";
import {type BeamCase, type LawOrigin, type LawVector, lawVector} from "./beamLaws.ts";
import {
  type BeamEffects,
  type BeamMode,
  type BeamScatter,
  beamMode,
  type FrontCurves,
  frontCurves,
  modelValue,
} from "./beamLikelihood.ts";
import {type LinearBeam, linearStep, type Prior, restrictedScatter} from "./beamLinear.ts";
import {faceDeviation, type Observation, observationsOf} from "./beamObservations.ts";

export interface BeamFitOptions {
  readonly origins: Readonly<Record<string, LawOrigin>>; // by material
  /** What is believed of every fitted exponent beforehand, normal; null: nothing. */
  readonly exponentPrior: {readonly mean: number; readonly deviation: number} | null;
  readonly start?: BeamEstimate; // default: looked for
  /** Parameters that are held where `start` has them, and then the scatter too. */
  readonly held?: readonly number[];
  /** Largest step of the laws, in standard errors, at which the fit ends; default 0.05. */
  readonly settled?: number;
  readonly onProgress?: (part: number) => boolean; // returning false cancels
}

/** Laws, scatter, and how each beam differs. */
export interface BeamEstimate {
  /** By fitted material: ln of the advance per cycle [ln m] at REFERENCE_STRAIN, exponent. */
  readonly parameters: Float64Array;
  readonly scatter: BeamScatter;
  readonly effects?: readonly BeamEffects[]; // by beam; default: none
}

export interface BeamFit extends Required<BeamEstimate> {
  readonly materials: readonly string[]; // fitted, in the order of the parameters
  readonly covariance: Float64Array; // of the parameters, row-major; 0 for those held
  /** For intervals by Student's t: beams less fitted materials. */
  readonly degrees: number;
  readonly likelihood: number; // ln, marginal over the effects, by Laplace's approximation
  readonly faceDeviation: number; // of one face's reading [m]
  readonly iterations: number;
  readonly converged: boolean;
}

const LARGEST_ITERATIONS = 40;
const SETTLED = 0.05;
const FIRST: BeamScatter = {beam: 0.3, upper: 0.3, lower: 1e-3, surface: 1e-3};
const DIFFERENCE = 0.01; // of a parameter or of u, to either side

/**
 * @throws InputError "domain" when no beam has readings, or the readings do not tell the laws; Cancelled
 */
export function fitBeams(cases: readonly BeamCase[], options: BeamFitOptions): BeamFit {
  if (!cases.length) throw new InputError("domain", "beams", 0, "at least one with readings");
  const laws = lawVector(
    cases.map(c => c.test),
    options.origins,
  );
  const deviation = faceDeviation(cases.map(c => c.test));
  const beams: Beam[] = cases.map(own => ({own, observations: observationsOf(own.test, deviation)}));
  const free = [...Array(laws.size).keys()].filter(k => !options.held?.includes(k));
  let {scatter} = options.start ?? {scatter: FIRST};
  let state = evaluate(beams, laws, scatter, firstPlace(beams, laws, options), options);
  let linear = linearise(beams, laws, state, free);
  let converged = false;
  let iterations = 0;
  while (!converged && iterations < LARGEST_ITERATIONS) {
    iterations++;
    if (options.onProgress?.(iterations / LARGEST_ITERATIONS) === false) throw new Cancelled();
    const prior = priorOf(options, state.parameters, free);
    if (!options.held) scatter = restrictedScatter(linear, scatter, prior);
    const {step, covariance, effects} = linearStep(linear, scatter, prior);
    const sizes = free.map((_, i) => Math.abs(step[i]) / Math.sqrt(covariance[i * free.length + i]));
    const before = evaluate(beams, laws, scatter, state, options);
    // A step takes no rate more than a factor of e², no exponent and no effect more than 1.
    const upper = effects.map(([, u], k) => u - before.upper[k]);
    let t = Math.min(1, ...free.map((k, i) => (k % 2 ? 1 : 2) / Math.abs(step[i])), ...upper.map(u => 1 / Math.abs(u)));
    let next = moved(t);
    for (let halvings = 0; next.objective < before.objective - 1e-3 && halvings < 10; halvings++) {
      t /= 2;
      next = moved(t);
    }
    const better = next.objective >= before.objective - 1e-3;
    state = better ? next : before;
    converged = !better || Math.max(0, ...sizes) < (options.settled ?? SETTLED);
    linear = linearise(beams, laws, state, free);

    function moved(part: number): State {
      const parameters = before.parameters.slice();
      free.forEach((k, i) => {
        parameters[k] += part * step[i];
      });
      const place = {
        parameters,
        clocks: before.clocks.map((b, k) => b + part * (effects[k][0] - b)),
        upper: before.upper.map((u, k) => u + part * upper[k]),
      };
      return evaluate(beams, laws, scatter, place, options);
    }
  }
  const {covariance, logDeterminants} = linearStep(linear, scatter, priorOf(options, state.parameters, free));
  const spread = logDeterminants.reduce((sum, d) => sum + Math.log(scatter.beam * scatter.upper) + 0.5 * d, 0);
  return {
    materials: laws.fitted,
    parameters: state.parameters,
    scatter,
    effects: state.clocks.map((clock, k) => ({clock, upper: state.upper[k]})),
    covariance: spreadOut(covariance, free, laws.size),
    degrees: Math.max(1, beams.length - laws.fitted.length),
    likelihood: state.likelihood - spread,
    faceDeviation: deviation,
    iterations,
    converged,
  };
}

interface Beam {
  readonly own: BeamCase;
  readonly observations: readonly Observation[];
}

/** Laws and the beams' effects. */
interface Place {
  readonly parameters: Float64Array;
  readonly clocks: readonly number[];
  readonly upper: readonly number[];
}

interface State extends Place {
  readonly curves: readonly FrontCurves[];
  readonly modes: readonly BeamMode[];
  readonly likelihood: number; // of readings and effects together
  readonly objective: number; // that, and what was believed beforehand
}

/** Fronts at a place, with each beam's clock at its most likely. */
function evaluate(
  beams: readonly Beam[],
  laws: LawVector,
  scatter: BeamScatter,
  {parameters, clocks, upper}: Place,
  {exponentPrior}: Pick<BeamFitOptions, "exponentPrior">,
): State {
  const curves = beams.map(({own}, k) => frontCurves(own, laws.lawsOf(own.test, parameters), upper[k]));
  const modes = beams.map(({observations}, k) => beamMode(observations, curves[k], scatter, clocks[k]));
  const likelihood = modes.reduce((sum, m, k) => sum + m.likelihood - 0.5 * (upper[k] / scatter.upper) ** 2, 0);
  const believed = exponentPrior
    ? laws.fitted.reduce(
        (sum, _, k) => sum - 0.5 * ((parameters[2 * k + 1] - exponentPrior.mean) / exponentPrior.deviation) ** 2,
        0,
      )
    : 0;
  return {
    parameters,
    clocks: modes.map(m => m.clock),
    upper,
    curves,
    modes,
    likelihood,
    objective: likelihood + believed,
  };
}

function firstPlace(beams: readonly Beam[], laws: LawVector, {start}: BeamFitOptions): Place {
  return {
    parameters: start?.parameters.slice() ?? firstLaws(beams, laws),
    clocks: beams.map((_, k) => start?.effects?.[k].clock ?? 0),
    upper: beams.map((_, k) => start?.effects?.[k].upper ?? 0),
  };
}

/**
 * Exponents of 4, one rate for all overlays and a slower one for interlayers: the most likely of a grid. All rates k times
 * as fast is the same fronts at k times the passes, so each slowness is integrated once.
 */
function firstLaws(beams: readonly Beam[], laws: LawVector): Float64Array {
  const overlays = new Set(beams.map(({own}) => own.test.overlay.material));
  const onlyOverlays = laws.fitted.every(name => overlays.has(name));
  const wide: BeamScatter = {beam: 1, upper: 1, lower: 5e-3, surface: 5e-3};
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

function linearise(beams: readonly Beam[], laws: LawVector, state: State, free: readonly number[]): LinearBeam[] {
  const {parameters, upper, modes} = state;
  return beams.map(({own, observations}, i) => {
    const {clock, seen} = modes[i];
    const kept = [...observations.keys()].filter(k => seen[k].weight > 1e-9);
    const derivative = (at: (d: number) => FrontCurves): Float64Array => {
      const [above, below] = [at(DIFFERENCE), at(-DIFFERENCE)];
      return Float64Array.from(kept, k => {
        const o = observations[k];
        const d = (modelValue(o, above, clock) - modelValue(o, below, clock)) / (2 * DIFFERENCE);
        return Number.isFinite(d) ? d : 0;
      });
    };
    const J = new Float64Array(kept.length * free.length);
    free.forEach((k, j) => {
      if (!laws.concerns(own.test, k)) return;
      const column = derivative(d => {
        const moved = parameters.slice();
        moved[k] += d;
        return frontCurves(own, laws.lawsOf(own.test, moved), upper[i]);
      });
      column.forEach((value, row) => {
        J[row * free.length + j] = value;
      });
    });
    const byUpper = derivative(d => frontCurves(own, laws.lawsOf(own.test, parameters), upper[i] + d));
    const lengthOf = (k: number) => {
      const o = observations[k];
      return o.kind === "length" ? o : null;
    };
    return {
      rows: kept.length,
      residual: Float64Array.from(
        kept,
        (k, row) => seen[k].slope / seen[k].weight + seen[k].byClock * clock + byUpper[row] * upper[i],
      ),
      J,
      Z: Float64Array.from(kept.flatMap((k, row) => [seen[k].byClock, byUpper[row]])),
      bound: Float64Array.from(kept, k => (lengthOf(k) ? Number.NaN : seen[k].weight)),
      error: Float64Array.from(kept, k => lengthOf(k)?.error ?? 0),
      surface: Uint8Array.from(kept, k => (lengthOf(k)?.front === 2 ? 1 : 0)),
    };
  });
}

function priorOf({exponentPrior}: BeamFitOptions, parameters: Float64Array, free: readonly number[]): Prior {
  const precision = Float64Array.from(free, k => (exponentPrior && k % 2 ? 1 / exponentPrior.deviation ** 2 : 0));
  const pull = Float64Array.from(free, (k, i) =>
    exponentPrior ? precision[i] * (exponentPrior.mean - parameters[k]) : 0,
  );
  return {precision, pull};
}

/** A matrix among the free parameters as one among all. */
function spreadOut(matrix: Float64Array, free: readonly number[], size: number): Float64Array {
  const out = new Float64Array(size * size);
  free.forEach((k, i) => {
    free.forEach((l, j) => {
      out[k * size + l] = matrix[i * free.length + j];
    });
  });
  return out;
}

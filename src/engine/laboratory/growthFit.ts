/**
 * Growth laws fitted to the readings of many cracked bodies together: a nonlinear model with mixed effects. By turns the
 * fronts are linearised at the present laws and each body's own effects, the scatter is estimated by restricted maximum
 * likelihood of the linear model, and laws and effects move together by generalised least squares.
 *
 * @source Lindstrom & Bates 1990, doi:10.2307/2532087; what was not seen enters as a bound, linearised like the rest.
 *   Theory: docs/theory/beams.md
 */
import {Cancelled, InputError} from "../errors.ts";
import {ln} from "../numeric/index.ts";
import {
  type BeamEffects,
  type BeamMode,
  type BeamScatter,
  beamMode,
  type FrontCurves,
  modelValue,
} from "./beamLikelihood.ts";
import {type LinearBeam, linearStep, type Prior, restrictedScatter} from "./beamLinear.ts";
import type {Observation} from "./beamObservations.ts";

/** One body whose cracks were read, with what the laws say of it. */
export interface GrowthCase {
  readonly observations: readonly Observation[];
  /** @param upper u, ln of the factor on the growth of front 2 */
  readonly curves: (parameters: Float64Array, upper: number) => FrontCurves;
  /** Whether a parameter has a say in this body. */
  readonly concerns: (parameter: number) => boolean;
  /** How the parameters move with v: exponents by 1, rates so that they stay at a strain in the middle. */
  readonly byExponent: Float64Array;
}

/** Laws, scatter, and how each body differs. */
export interface GrowthEstimate {
  /** By law: ln of a rate, exponent. */
  readonly parameters: Float64Array;
  readonly scatter: BeamScatter;
  readonly effects?: readonly BeamEffects[]; // by body; default: none
}

export interface GrowthOptions {
  /** What is believed of every exponent beforehand, normal; null: nothing. */
  readonly exponentPrior: {readonly mean: number; readonly deviation: number} | null;
  /** Parameters that are held where they start, and then the scatter too. */
  readonly held?: readonly number[];
  /** Largest step of the laws, in standard errors, at which the fit ends; default 0.001. */
  readonly settled?: number;
  readonly onProgress?: (part: number) => boolean; // returning false cancels
}

export interface GrowthFit extends Required<GrowthEstimate> {
  readonly covariance: Float64Array; // of the parameters, row-major; 0 for those held
  /** For intervals by Student's t: bodies less laws. */
  readonly degrees: number;
  /** ln, marginal over the effects, by Laplace's approximation; with what was believed of exponents beforehand. */
  readonly likelihood: number;
  readonly iterations: number;
  readonly converged: boolean;
}

const LARGEST_ITERATIONS = 40;
const SETTLED = 1e-3;
const LONGER = 1.2; // steps by a turn that goes on as the one before did, until they are whole; one that turns back is halved
const DIFFERENCE = 1e-3; // of a parameter or of u, to either side
const SLACK = 1e-3; // of ln likelihood: linearisation and restricted likelihood do not quite agree about its top

/** @throws InputError "domain" when there is no body, or the readings do not tell the laws; Cancelled */
export function fitGrowth(cases: readonly GrowthCase[], start: GrowthEstimate, options: GrowthOptions): GrowthFit {
  if (!cases.length) throw new InputError("domain", "cases", 0, "at least one with readings");
  const size = start.parameters.length;
  const free = [...Array(size).keys()].filter(k => !options.held?.includes(k));
  let {scatter} = start;
  let state = evaluate(cases, scatter, firstPlace(cases, start), options);
  let linear = linearise(cases, state, free);
  let converged = false;
  let iterations = 0;
  let way = 1;
  let last = new Float64Array();
  while (!converged && iterations < LARGEST_ITERATIONS) {
    iterations++;
    if (options.onProgress?.(iterations / LARGEST_ITERATIONS) === false) throw new Cancelled();
    const prior = priorOf(options, state.parameters, free);
    if (!options.held) scatter = between(scatter, restrictedScatter(linear, scatter, prior), way);
    const {step, covariance, effects} = linearStep(linear, scatter, prior);
    const sizes = step.map((d, i) => d / Math.sqrt(covariance[i * (free.length + 1)]));
    if (iterations > 1)
      way = sizes.reduce((sum, s, i) => sum + s * last[i], 0) < 0 ? way / 2 : Math.min(1, LONGER * way);
    last = sizes;
    const before = evaluate(cases, scatter, state, options, state.curves);
    const next = stepped(before, effects, step, way);
    state = next ?? before;
    converged = !next || way * Math.max(0, ...sizes.map(Math.abs)) < (options.settled ?? SETTLED);
    linear = linearise(cases, state, free);
  }
  const {covariance, logDeterminants} = linearStep(linear, scatter, priorOf(options, state.parameters, free));
  const spread = logDeterminants.reduce(
    (sum, d) => sum + ln(scatter.beam * scatter.upper * scatter.exponent) + 0.5 * d,
    0,
  );
  return {
    parameters: state.parameters,
    scatter,
    effects: state.effects,
    covariance: spreadOut(covariance, free, size),
    degrees: Math.max(1, cases.length - size / 2),
    likelihood: state.objective - spread,
    iterations,
    converged,
  };

  /** As much of a step as does not lower the objective, at most `way` of it; null when none does. */
  function stepped(before: State, effects: readonly Float64Array[], step: Float64Array, way: number): State | null {
    // A step takes no rate more than a factor of e², no exponent and no effect more than 1.
    let part = Math.min(
      way,
      ...free.map((k, i) => (k % 2 ? 1 : 2) / Math.abs(step[i])),
      ...effects.map(([, u, v], k) => {
        const {upper, exponent} = before.effects[k];
        return 1 / Math.max(Math.abs(u - upper), Math.abs(v - exponent));
      }),
    );
    for (let halvings = 0; halvings < 10; halvings++, part /= 2) {
      const parameters = before.parameters.slice();
      free.forEach((k, i) => {
        parameters[k] += part * step[i];
      });
      const place: Place = {
        parameters,
        effects: before.effects.map(({clock, upper, exponent}, k) => {
          const [b, u, v] = effects[k];
          return {
            clock: clock + part * (b - clock),
            upper: upper + part * (u - upper),
            exponent: exponent + part * (v - exponent),
          };
        }),
      };
      const next = evaluate(cases, scatter, place, options);
      if (next.objective >= before.objective - SLACK) return next;
    }
    return null;
  }
}

/** Scatter part of the way from one to another, in its logarithms. */
function between(from: BeamScatter, to: BeamScatter, way: number): BeamScatter {
  const part = (name: keyof BeamScatter): number => from[name] * (to[name] / from[name]) ** way;
  return {
    beam: part("beam"),
    upper: part("upper"),
    exponent: part("exponent"),
    lower: part("lower"),
    surface: part("surface"),
  };
}

/** Laws and the bodies' effects. */
interface Place {
  readonly parameters: Float64Array;
  readonly effects: readonly BeamEffects[];
}

interface State extends Place {
  readonly curves: readonly FrontCurves[];
  readonly modes: readonly BeamMode[];
  readonly objective: number; // ln likelihood of readings and effects together, and of what was believed beforehand
}

const NO_EFFECTS: BeamEffects = {clock: 0, upper: 0, exponent: 0};

function firstPlace(cases: readonly GrowthCase[], {parameters, effects}: GrowthEstimate): Place {
  return {parameters: parameters.slice(), effects: cases.map((_, k) => effects?.[k] ?? NO_EFFECTS)};
}

/** The laws of one body. */
export function ownParameters(
  parameters: Float64Array,
  {byExponent}: Pick<GrowthCase, "byExponent">,
  exponent: number,
): Float64Array {
  return parameters.map((p, k) => p + exponent * byExponent[k]);
}

/** Fronts at a place, with each body's clock at its most likely. @param known the fronts, where they were computed before */
function evaluate(
  cases: readonly GrowthCase[],
  scatter: BeamScatter,
  {parameters, effects}: Place,
  {exponentPrior}: GrowthOptions,
  known?: readonly FrontCurves[],
): State {
  const curves =
    known ?? cases.map((c, k) => c.curves(ownParameters(parameters, c, effects[k].exponent), effects[k].upper));
  const modes = cases.map(({observations}, k) => beamMode(observations, curves[k], scatter, effects[k].clock));
  const likelihood = modes.reduce((sum, m, k) => {
    const {upper, exponent} = effects[k];
    return sum + m.likelihood - 0.5 * ((upper / scatter.upper) ** 2 + (exponent / scatter.exponent) ** 2);
  }, 0);
  let believed = 0;
  if (exponentPrior)
    for (let k = 1; k < parameters.length; k += 2)
      believed -= 0.5 * ((parameters[k] - exponentPrior.mean) / exponentPrior.deviation) ** 2;
  const settled = effects.map((e, k) => ({...e, clock: modes[k].clock}));
  return {parameters, effects: settled, curves, modes, objective: likelihood + believed};
}

function linearise(cases: readonly GrowthCase[], state: State, free: readonly number[]): LinearBeam[] {
  return cases.map((one, i) => {
    const {observations, curves, concerns, byExponent} = one;
    const {clock, upper, exponent} = state.effects[i];
    const {seen} = state.modes[i];
    const parameters = ownParameters(state.parameters, one, exponent);
    const kept = [...observations.keys()].filter(k => seen[k].weight > 1e-9);
    const rows = kept.length;
    const derivative = (at: (d: number) => FrontCurves): Float64Array => {
      const [above, below] = [at(DIFFERENCE), at(-DIFFERENCE)];
      return Float64Array.from(kept, k => {
        const o = observations[k];
        const d = (modelValue(o, above, clock) - modelValue(o, below, clock)) / (2 * DIFFERENCE);
        return Number.isFinite(d) ? d : 0;
      });
    };
    const byParameter = [...parameters.keys()].map(k =>
      concerns(k)
        ? derivative(d =>
            curves(
              parameters.map((p, j) => (j === k ? p + d : p)),
              upper,
            ),
          )
        : null,
    );
    const J = new Float64Array(rows * free.length);
    free.forEach((k, j) => {
      byParameter[k]?.forEach((value, row) => {
        J[row * free.length + j] = value;
      });
    });
    const byUpper = derivative(d => curves(parameters, upper + d));
    const byV = new Float64Array(rows);
    byParameter.forEach((column, k) => {
      column?.forEach((value, row) => {
        byV[row] += value * byExponent[k];
      });
    });
    const lengthOf = (k: number) => {
      const o = observations[k];
      return o.kind === "length" ? o : null;
    };
    return {
      rows,
      residual: Float64Array.from(
        kept,
        (k, row) =>
          seen[k].slope / seen[k].weight + seen[k].byClock * clock + byUpper[row] * upper + byV[row] * exponent,
      ),
      J,
      Z: Float64Array.from(kept.flatMap((k, row) => [seen[k].byClock, byUpper[row], byV[row]])),
      bound: Float64Array.from(kept, k => (lengthOf(k) ? Number.NaN : seen[k].weight)),
      error: Float64Array.from(kept, k => lengthOf(k)?.error ?? 0),
      surface: Uint8Array.from(kept, k => (lengthOf(k)?.front === 2 ? 1 : 0)),
    };
  });
}

function priorOf({exponentPrior}: GrowthOptions, parameters: Float64Array, free: readonly number[]): Prior {
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

import {InputError} from "../errors.ts";
import {ln} from "../numeric/index.ts";
import {normalCdf, normalDensity} from "./distributions.ts";
import {type Factored, factored} from "./spd.ts";

/** Observations w = Σ θⱼ·uⱼ + σ·z, z standard normal; of a censored one only a lower bound is known. */
export interface CensoredModel {
  readonly columns: readonly (readonly number[])[]; // u, one array a coefficient
  readonly values: readonly number[]; // w
  readonly censored: readonly boolean[];
}

/** A maximum in Olsen's variables γ = θ/σ (first) and η = 1/σ (last). */
export interface Maximum {
  readonly variables: readonly number[];
  readonly logLikelihood: number;
  readonly covariance: Float64Array; // inverse of the observed information, in these variables, row-major
  readonly iterations: number;
  readonly decrement: number; // gᵀ·H⁻¹·g at the end: twice what is missing in the log-likelihood
}

const MOST_ITERATIONS = 100;
const DECREMENT = 1e-20; // [–]
/** A log-likelihood that falls by less is taken as not falling: rounding. */
const ROUNDING = 1e-12;
/** Scatter that has shrunk by this much since the start goes to zero. */
const SHRUNK = 1e-8;

/**
 * Newton's method with halved steps. In Olsen's variables the log-likelihood
 *
 *   ℓ = Σ_failed (ln η − r²/2 − ln √(2π)) + Σ_censored ln Φ(−r),    r = η·w − γ·u
 *
 * is concave, so that there is one maximum, and any way up leads to it.
 *
 * @throws InputError "convergence" when the scatter goes to zero (the likelihood then has no maximum) or steps run out
 * @source Olsen 1978, Econometrica 46, 1211–1215, doi:10.2307/1911445 (from memory)
 */
export function maximise(model: CensoredModel, start: readonly number[]): Maximum {
  const last = start.length - 1;
  let variables = start;
  let here = slopes(model, variables);
  for (let iterations = 1; iterations <= MOST_ITERATIONS; iterations++) {
    const {gradient, logLikelihood} = here;
    const information = factoredInformation(here);
    const step = information.solve(Float64Array.from(gradient));
    const decrement = step.reduce((sum, s, j) => sum + s * gradient[j], 0);
    if (decrement <= DECREMENT)
      return {variables, logLikelihood, covariance: information.inverse(), iterations, decrement};
    let next: Slopes | null = null;
    let length = 1;
    let moved = variables;
    for (; next === null && length > 1e-10; length /= 2) {
      moved = variables.map((v, j) => v + length * step[j]);
      if (!(moved[last] > 0)) continue;
      const there = slopes(model, moved);
      if (there.logLikelihood >= logLikelihood - ROUNDING * (1 + Math.abs(logLikelihood))) next = there;
    }
    if (next === null) throw new InputError("convergence", "likelihood", decrement, "a step that leads up");
    if (moved[last] * SHRUNK > start[last])
      throw new InputError("convergence", "scatter", 1 / moved[last], "failures that do not lie exactly on a line");
    variables = moved;
    here = next;
  }
  throw new InputError("convergence", "likelihood", MOST_ITERATIONS, "fewer iterations");
}

interface Slopes {
  readonly logLikelihood: number;
  readonly gradient: number[];
  readonly information: number[][]; // −∂²ℓ
}

function slopes({columns, values, censored}: CensoredModel, variables: readonly number[]): Slopes {
  const size = variables.length;
  const eta = variables[size - 1];
  const gradient = new Array<number>(size).fill(0);
  const information = gradient.map(() => new Array<number>(size).fill(0));
  const dr = new Array<number>(size).fill(0); // ∂r/∂variables
  let logLikelihood = 0;
  for (let i = 0; i < values.length; i++) {
    let r = eta * values[i];
    for (let j = 0; j < size - 1; j++) {
      r -= variables[j] * columns[j][i];
      dr[j] = -columns[j][i];
    }
    dr[size - 1] = values[i];
    const tail = censored[i] ? normalTail(r) : null;
    const first = tail ? -tail.hazard : -r; // dℓ/dr
    const second = tail ? tail.hazard * (tail.hazard - r) : 1; // −d²ℓ/dr²
    logLikelihood += tail ? tail.logarithm : ln(eta) + logNormalDensity(r);
    for (let j = 0; j < size; j++) {
      gradient[j] += first * dr[j];
      for (let k = 0; k < size; k++) information[j][k] += second * dr[j] * dr[k];
    }
    if (censored[i]) continue;
    gradient[size - 1] += 1 / eta;
    information[size - 1][size - 1] += 1 / (eta * eta);
  }
  return {logLikelihood, gradient, information};
}

function logNormalDensity(r: number): number {
  return -0.5 * (r * r + ln(2 * Math.PI));
}

/** Beyond this Laplace's continued fraction takes over from φ/Φ, whose parts vanish at 38. */
const FAR = 5;

/**
 * Hazard h(r) = φ(r)/Φ(−r) of the standard normal, and ln Φ(−r). Far out h = r + 1/(r + 2/(r + 3/(r + …))); forty terms
 * give all digits from r = 5 on.
 *
 * @source Abramowitz & Stegun 1964, 26.2.14 (from memory)
 */
export function normalTail(r: number): {readonly hazard: number; readonly logarithm: number} {
  if (r < FAR) {
    const above = normalCdf(-r);
    return {hazard: normalDensity(r) / above, logarithm: ln(above)};
  }
  let hazard = r;
  for (let k = 40; k >= 1; k--) hazard = r + k / hazard;
  return {hazard, logarithm: logNormalDensity(r) - ln(hazard)};
}

/** Where it is not positive there is no one maximum. */
function factoredInformation({information, gradient}: Slopes): Factored {
  try {
    return factored(information.flat(), gradient.length, 0);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    throw new InputError("convergence", "likelihood", error.got, "information on every coefficient");
  }
}

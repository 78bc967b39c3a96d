/**
 * How likely a beam's readings are. Each beam has a clock of its own, ln N + b, and its upper crack grows e^u times as fast
 * as the law says, and its exponents are higher by v; b, u and v are normal over the beams. Readings scatter about the fronts. Theory: docs/theory/beams.md.
 */
import {exp, ln} from "../numeric/index.ts";
import {normalCdf, normalDensity} from "../statistics/index.ts";
import {type BeamLaws, beamHistory} from "./beamGrowth.ts";
import type {BeamCase} from "./beamLaws.ts";
import type {Observation} from "./beamObservations.ts";
import {type Curve, monotoneCurve} from "./curve.ts";

/** Standard deviations of what differs from beam to beam and from reading to reading. */
export interface BeamScatter {
  readonly beam: number; // of b, a beam's clock [–, in ln N]
  readonly upper: number; // of u, what the upper crack grows faster than the lower [–, in ln]
  readonly exponent: number; // of v, what a beam's exponents differ by [–]
  readonly lower: number; // of a lower front about its curve, reading error apart [m]
  readonly surface: number; // the same of an upper front [m]
}

/** How a beam differs from the laws. */
export interface BeamEffects {
  readonly clock: number; // b
  readonly upper: number; // u
  readonly exponent: number; // v, added to every exponent, the rate at a strain in the middle of the beams' unchanged
}

/** Fronts against ln N, and ln N at which they meet. */
export interface FrontCurves {
  readonly fronts: readonly Curve[];
  readonly logBreak: number; // Infinity when they do not
}

const EARLIER = 0.1;

/** Fronts are followed so many times farther than the last reading. */
export const HORIZON = 100;

/** @param upper u */
export function frontCurves({test, solution, cycles}: BeamCase, laws: BeamLaws, upper: number): FrontCurves {
  const last = test.readings[test.readings.length - 1].passes;
  const {passes, fronts, growth, broken} = beamHistory(solution, cycles, laws, HORIZON * last, exp(upper));
  // Growth is even before the first step: so much earlier there was so much less.
  const early = passes.map((n, k) => (k ? n : EARLIER * passes[1]));
  const logPasses = early.map(ln);
  return {
    fronts: fronts.map((f, k) =>
      monotoneCurve(
        logPasses,
        f.map((l, i) => (i ? l : EARLIER * f[1])),
        early.map((n, i) => n * growth[k][i]),
      ),
    ),
    logBreak: broken ? logPasses[logPasses.length - 1] : Infinity,
  };
}

/** An observation at a given clock: log-likelihood ℓ(f) of the model's value f, with its slope and curvature, and df/db. */
export interface Seen {
  readonly likelihood: number;
  readonly slope: number; // dℓ/df
  readonly weight: number; // −d²ℓ/df²
  readonly byClock: number; // df/db
}

/** Breaking is known between two readings only, and the model's moment of it is sharp: it is taken as blurred by so much in ln N. */
const BREAK_BLUR = 0.05;

/** The model's value that an observation speaks about: a length [m], or how far in ln N the beam is past its breaking. */
export function modelValue(o: Observation, {fronts, logBreak}: FrontCurves, clock: number): number {
  if (o.kind === "broken" || o.kind === "unbroken") return o.logPasses + clock - logBreak;
  return fronts[o.front].value(o.logPasses + clock);
}

/** Of a length about its front, by reading and by the crack's own wandering [m]. */
export function lengthDeviation(o: Extract<Observation, {kind: "length" | "shorter"}>, scatter: BeamScatter): number {
  return Math.hypot(o.error, o.front === 2 ? scatter.surface : scatter.lower);
}

export function seen(o: Observation, curves: FrontCurves, clock: number, scatter: BeamScatter): Seen {
  const f = modelValue(o, curves, clock);
  if (o.kind === "broken" || o.kind === "unbroken") {
    const sign = o.kind === "broken" ? 1 : -1;
    if (!Number.isFinite(f)) return {likelihood: sign > 0 ? NEVER : 0, slope: 0, weight: 0, byClock: 1};
    return {...bound(sign * f, BREAK_BLUR, sign), byClock: 1};
  }
  const byClock = curves.fronts[o.front].slope(o.logPasses + clock);
  const deviation = lengthDeviation(o, scatter);
  if (o.kind === "shorter") return {...bound(o.length - f, deviation, -1), byClock};
  const z = (o.length - f) / deviation;
  return {
    likelihood: -0.5 * z * z - ln(deviation * Math.sqrt(2 * Math.PI)),
    slope: z / deviation,
    weight: 1 / deviation ** 2,
    byClock,
  };
}

/** ln of the likelihood of a break that the model has not within its horizon. */
const NEVER = -1e4;

/** ln Φ(x/s) with its derivatives by f, x = sign·f + … */
function bound(x: number, s: number, sign: 1 | -1): Pick<Seen, "likelihood" | "slope" | "weight"> {
  const z = x / s;
  if (z < -30) {
    // Φ(z) ≈ φ(z)/|z|: the library's integral underflows farther out.
    return {
      likelihood: -0.5 * z * z - ln(-z * Math.sqrt(2 * Math.PI)),
      slope: (-sign * z) / s,
      weight: 1 / s ** 2,
    };
  }
  const cdf = normalCdf(z);
  const ratio = normalDensity(z) / cdf;
  return {likelihood: ln(cdf), slope: (sign * ratio) / s, weight: (ratio * (ratio + z)) / s ** 2};
}

/** The most likely clock of a beam whose upper effect is given. */
export interface BeamMode {
  readonly clock: number;
  readonly seen: readonly Seen[];
  readonly likelihood: number; // ln, of the readings at that clock and of the clock itself, constants left out
}

const LARGEST_ITERATIONS = 60;

/** Newton's method with Gauss–Newton curvature and halved steps. */
export function beamMode(
  observations: readonly Observation[],
  curves: FrontCurves,
  scatter: BeamScatter,
  start: number,
): BeamMode {
  const precision = 1 / scatter.beam ** 2;
  const at = (clock: number): BeamMode => {
    const all = observations.map(o => seen(o, curves, clock, scatter));
    const likelihood = all.reduce((sum, s) => sum + s.likelihood, 0) - 0.5 * precision * clock * clock;
    return {clock, seen: all, likelihood};
  };
  let here = at(start);
  for (let k = 0; k < LARGEST_ITERATIONS; k++) {
    let gradient = -precision * here.clock;
    let curvature = precision;
    for (const {slope, weight, byClock} of here.seen) {
      gradient += slope * byClock;
      curvature += weight * byClock * byClock;
    }
    // The clock never moves by more than a factor of e at once.
    let step = Math.min(1, Math.max(-1, gradient / curvature));
    let next = at(here.clock + step);
    while (next.likelihood < here.likelihood && Math.abs(step) > 1e-8) {
      step /= 2;
      next = at(here.clock + step);
    }
    if (!(next.likelihood > here.likelihood)) break;
    here = next;
    if (Math.abs(step) < 1e-7) break;
  }
  return here;
}

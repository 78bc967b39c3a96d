/** What a fit says of a beam that it may never have seen: its fronts and its life, with all that is uncertain drawn anew. */
import {exp} from "../numeric/index.ts";
import {chiSquareQuantile, factored, randomStream} from "../statistics/index.ts";
import {type BeamFit, exponentDirection} from "./beamFit.ts";
import {type BeamLaws, beamHistory, type LawAtStrain} from "./beamGrowth.ts";
import type {BeamCase, LawVector} from "./beamLaws.ts";
import {type BeamEffects, HORIZON, lengthDeviation} from "./beamLikelihood.ts";
import {breakage, observationsOf} from "./beamObservations.ts";
import {monotoneCurve} from "./curve.ts";
import {ownParameters} from "./growthFit.ts";

/** Quantiles 5, 50 and 95 % of the draws. */
export interface Spread {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

export interface BeamPrediction {
  readonly name: string;
  readonly life: Spread; // passes until the fronts meet; Infinity where they did not within the horizon
  readonly median: number; // life by the fitted laws and a beam without effects
  readonly passes: Float64Array; // ascending, for the fronts below
  readonly lower: {readonly low: Float64Array; readonly middle: Float64Array; readonly high: Float64Array}; // [m]
  readonly upper: {readonly low: Float64Array; readonly middle: Float64Array; readonly high: Float64Array}; // [m]
  readonly observed: {readonly after: number; readonly before: number | null}; // broke between; null: had not at the stop
  /** Whether some life that the readings allow lies between the low and the high one. */
  readonly within: boolean;
}

/** Fronts of a beam by the fitted laws and its own effects. */
export interface FittedFronts {
  readonly passes: Float64Array; // ascending from 0; ends where the beam breaks or its test was stopped
  readonly lower: Float64Array; // from the gap up [m]
  readonly upper: Float64Array; // from the surface down [m]
  readonly life: number; // passes until the fronts meet; Infinity when they did not within the horizon
  readonly residuals: readonly Residual[];
}

/** How far a length was read from the fitted front. */
export interface Residual {
  readonly front: "lower" | "upper";
  readonly passes: number;
  readonly fitted: number; // along its own front [m]
  readonly standard: number; // over its standard deviation [–]
}

interface Followed {
  readonly life: number; // passes until the fronts meet; Infinity when they did not within the horizon
  readonly fronts: readonly ((n: number) => number)[]; // interlayer, underside, surface [m]
  readonly lower: (n: number) => number; // as it is read: up to the highest tip, also of a crack that began above the interlayer
}

/** Fronts of one beam as functions of passes, effects included. */
function followed(
  {test, solution, cycles}: BeamCase,
  {overlay, interlayer}: BeamLaws,
  {clock, upper}: BeamEffects,
): Followed {
  const sooner = (law: LawAtStrain): LawAtStrain => ({...law, logRate: law.logRate + clock});
  const own = {overlay: sooner(overlay), interlayer: interlayer && sooner(interlayer)};
  const last = test.readings[test.readings.length - 1].passes;
  const {passes, fronts, growth, broken} = beamHistory(solution, cycles, own, HORIZON * last, exp(upper));
  const end = passes[passes.length - 1];
  const t = solution.interlayerThickness;
  const curves = fronts.map((f, k) => monotoneCurve(passes, f, growth[k]));
  const followedFronts = curves.map(
    c =>
      (n: number): number =>
        Math.max(0, c.value(Math.min(n, end))),
  );
  return {
    life: broken ? end : Infinity,
    fronts: followedFronts,
    lower: n => {
      const [within, above] = [followedFronts[0](n), followedFronts[1](n)];
      return within >= t * THROUGH || above >= test.detection ? t + above : within;
    },
  };
}

const THROUGH = 0.999; // of the interlayer: its front ends within an integration step of the whole

/** @param effects of this beam */
export function fittedFronts(one: BeamCase, fit: BeamFit, laws: LawVector, effects: BeamEffects): FittedFronts {
  const byExponent = exponentDirection(laws, one, fit.pivots);
  const own = ownParameters(fit.parameters, {byExponent}, effects.exponent);
  const {life, fronts, lower} = followed(one, laws.lawsOf(one.test, own), effects);
  const last = one.test.readings[one.test.readings.length - 1].passes;
  const end = Math.min(life, Math.max(last, 1));
  const passes = Float64Array.from({length: POINTS + 1}, (_, k) => (end * k) / POINTS);
  const residuals = observationsOf(one.test, fit.faceDeviation).flatMap((o): Residual[] => {
    if (o.kind !== "length") return [];
    const n = exp(o.logPasses);
    const fitted = fronts[o.front](n);
    const deviation = lengthDeviation(o, fit.scatter);
    return [{front: o.front === 2 ? "upper" : "lower", passes: n, fitted, standard: (o.length - fitted) / deviation}];
  });
  return {passes, lower: passes.map(lower), upper: passes.map(fronts[2]), life, residuals};
}

const DRAWS = 200;
const POINTS = 40;

/** @param seed of the draws */
export function predictBeam(one: BeamCase, fit: BeamFit, laws: LawVector, seed: number): BeamPrediction {
  const {test} = one;
  const {normal, uniform} = randomStream(seed);
  const size = fit.parameters.length;
  const {spread} = factored(fit.covariance, size);
  const last = test.readings[test.readings.length - 1].passes;
  const passes = Float64Array.from({length: POINTS}, (_, k) => (last * (k + 1)) / POINTS);
  const byExponent = exponentDirection(laws, one, fit.pivots);
  const follow = (parameters: Float64Array, effects: BeamEffects) => {
    const own = ownParameters(parameters, {byExponent}, effects.exponent);
    const {life, fronts, lower} = followed(one, laws.lawsOf(test, own), effects);
    return {life, lower: passes.map(lower), upper: passes.map(fronts[2])};
  };
  const none = follow(fit.parameters, {clock: 0, upper: 0, exponent: 0});
  const draws = Array.from({length: DRAWS}, () => {
    const z = Float64Array.from({length: size}, normal);
    const wider = Math.sqrt(fit.degrees / chiSquareQuantile(uniform(), fit.degrees)); // Student's t
    const moved = spread(z).map((d, k) => fit.parameters[k] + wider * d);
    const {beam, upper, exponent} = fit.scatter;
    return follow(moved, {
      clock: beam * wider * normal(),
      upper: upper * wider * normal(),
      exponent: exponent * wider * normal(),
    });
  });
  const life = spreadOf(draws.map(d => d.life));
  const bands = (which: "lower" | "upper") => {
    const at = [...passes.keys()].map(k => spreadOf(draws.map(d => d[which][k])));
    return {
      low: Float64Array.from(at, s => s.low),
      middle: Float64Array.from(at, s => s.middle),
      high: Float64Array.from(at, s => s.high),
    };
  };
  const observed = breakage(test);
  return {
    name: test.name,
    life,
    median: none.life,
    passes,
    lower: bands("lower"),
    upper: bands("upper"),
    observed,
    within: (observed.before ?? Infinity) >= life.low && observed.after <= life.high,
  };
}

function spreadOf(values: number[]): Spread {
  values.sort((p, q) => p - q);
  const at = (p: number): number => values[Math.round(p * (values.length - 1))];
  return {low: at(0.05), middle: at(0.5), high: at(0.95)};
}

/** What a fit says of a beam that it may never have seen: its fronts and its life, with all that is uncertain drawn anew. */
import {chiSquareQuantile, factored, randomStream} from "../statistics/index.ts";
import type {BeamFit} from "./beamFit.ts";
import {beamHistory} from "./beamGrowth.ts";
import {type BeamCase, type LawOrigin, lawVector} from "./beamLaws.ts";
import {breakage} from "./beamObservations.ts";
import {monotoneCurve} from "./curve.ts";

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

const DRAWS = 200;
const POINTS = 40;
const HORIZON = 100; // times the last reading

/** @param seed of the draws */
export function predictBeam(
  one: BeamCase,
  fit: BeamFit,
  origins: Readonly<Record<string, LawOrigin>>,
  all: readonly BeamCase[],
  seed: number,
): BeamPrediction {
  const laws = lawVector(
    all.map(c => c.test),
    origins,
  );
  const {test, solution, cycles} = one;
  const {normal, uniform} = randomStream(seed);
  const size = fit.parameters.length;
  const {spread} = factored(fit.covariance, size);
  const last = test.readings[test.readings.length - 1].passes;
  const passes = Float64Array.from({length: POINTS}, (_, k) => (last * (k + 1)) / POINTS);
  const t = solution.interlayerThickness;
  const follow = (parameters: Float64Array, clock: number, upper: number) => {
    const {overlay, interlayer} = laws.lawsOf(test, parameters);
    const sooner = <L extends {logRate: number}>(law: L): L => ({...law, logRate: law.logRate + clock});
    const own = {overlay: sooner(overlay), interlayer: interlayer && sooner(interlayer)};
    const history = beamHistory(solution, cycles, own, HORIZON * last, Math.exp(upper));
    const end = history.passes[history.passes.length - 1];
    const [a, b, c] = history.fronts.map(f => monotoneCurve(history.passes, f));
    const at = (n: number): number => Math.min(n, end);
    const lower = passes.map(n => (a.value(at(n)) >= t * 0.999 ? t + b.value(at(n)) : Math.max(a.value(at(n)), 0)));
    return {life: history.broken ? end : Infinity, lower, upper: passes.map(n => c.value(at(n)))};
  };
  const none = follow(fit.parameters, 0, 0);
  const draws = Array.from({length: DRAWS}, () => {
    const z = Float64Array.from({length: size}, normal);
    const wider = Math.sqrt(fit.degrees / chiSquareQuantile(uniform(), fit.degrees)); // Student's t
    const moved = spread(z).map((d, k) => fit.parameters[k] + wider * d);
    return follow(moved, fit.scatter.beam * wider * normal(), fit.scatter.upper * normal());
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

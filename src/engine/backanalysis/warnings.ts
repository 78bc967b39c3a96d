import {chiSquareQuantile} from "../statistics/index.ts";
import {loadTrend} from "./measured.ts";
import type {BowlResult, BowlWarning, Sensor} from "./types.ts";

/** Part of the plate's radius below which a layer hardly shows in the bowl [–]. */
const THIN = 0.5;
const WIDE = 3; // ends of an interval, one over the other [–]
const MISFIT = 0.95; // probability that residuals of the stated accuracy are smaller [–]
const LOAD_TREND = 0.05; // departure from proportion [–]
/** Rise of E₀ beyond its lowest value, over that of the fitted bowl, and in deviations of the two readings. */
const RISE = 1.1;
const RISE_DEVIATIONS = 2;

/** What to know before the moduli are believed. */
export function bowlWarnings(result: Omit<BowlResult, "warnings">): BowlWarning[] {
  const {test, layers, others, degrees, unknowns} = result;
  const found: BowlWarning[] = [];
  test.layers.forEach(({thickness, modulus}, layer) => {
    if (modulus.kind === "unknown" && thickness < THIN * test.radius)
      found.push({code: "thin-layer", layer, thickness});
  });
  layers.forEach(({atBound, interval}, layer) => {
    if (atBound) found.push({code: "at-bound", layer, side: atBound});
    const ratio = interval ? (interval.high ?? Infinity) / (interval.low ?? 0) : 0;
    if (ratio > WIDE) found.push({code: "wide-interval", layer, ratio});
  });
  if (others.length > 0) found.push({code: "other-solutions", count: others.length});
  if (degrees === 0 && unknowns.length > 0) found.push({code: "no-scatter"});
  const trend = loadTrend(test.drops);
  if (trend && Math.abs(trend.ratio - 1) > LOAD_TREND) found.push({code: "load-dependent", ...trend});
  return [...found, ...misfit(result), ...stiffBottom(result)];
}

/** Residuals larger than the stated accuracy lets expect; in long runs of one sign when the model is to blame. */
function misfit({sensors, scatter, degrees, unknowns}: Omit<BowlResult, "warnings">): BowlWarning[] {
  if (scatter === null || degrees * scatter ** 2 <= chiSquareQuantile(MISFIT, degrees)) return [];
  const scaled = sensors.map(s => (s.fitted - s.measured) / s.deviation);
  const worst = scaled.reduce((k, v, i) => (Math.abs(v) > Math.abs(scaled[k]) ? i : k), 0);
  const changes = scaled.filter((v, i) => i > 0 && v * scaled[i - 1] < 0).length;
  // Least squares with p unknowns leaves at least about p changes of sign; chance adds half of the rest.
  const systematic = changes <= unknowns.length + (sensors.length - 1 - unknowns.length) / 4;
  return [{code: "misfit", scatter, worst, systematic}];
}

/** A surface modulus that rises outward: something stiff below, or soil that is stiffer where it is stressed less. */
function stiffBottom({test, sensors}: Omit<BowlResult, "warnings">): BowlWarning[] {
  if (test.base !== "half-space" || sensors.length < 3) return [];
  const low = sensors.reduce((k, s, i) => (s.surfaceModulus < sensors[k].surfaceModulus ? i : k), 0);
  const [from, last] = [sensors[low], sensors[sensors.length - 1]];
  const rise = last.surfaceModulus / from.surfaceModulus;
  const own = last.fittedSurfaceModulus / from.fittedSurfaceModulus; // that of the layers alone
  const share = ({deviation, measured}: Sensor): number => deviation / measured;
  const noise = Math.exp(RISE_DEVIATIONS * Math.hypot(share(from), share(last)));
  return rise > Math.max(1, own) * Math.max(RISE, noise) ? [{code: "stiff-bottom", rise, from: from.offset}] : [];
}

/** Temperature bins of a study, and what every layer has in them. */
import {
  deriveBins,
  meansByBin,
  type PavementTemperatureRun,
  pavementTemperatures,
  type TemperatureShare,
} from "../climate/index.ts";
import {InputError} from "../errors.ts";
import type {Section} from "../section/index.ts";
import {trafficByHour} from "../traffic/index.ts";
import {heatKey} from "./heatKey.ts";
import type {Study, TemperatureBin} from "./types.ts";

/** Bins of a study, as given or from the control's temperatures. */
export interface StudyBins {
  readonly bins: readonly TemperatureBin[];
  /** By treatment: its temperatures, where they were needed; null else. */
  readonly runs: readonly (PavementTemperatureRun | null)[];
  readonly hours: {
    readonly shares: readonly TemperatureShare[];
    readonly halfWayOverlay: Float64Array; // of the control, by which hours fall into bins [°C]
    readonly traffic: Float64Array | null; // of each hour, relative [–]
  } | null; // null: the bins were given
}

/** The year's temperatures of a section; those of one `heatKey` are the same. */
export type TemperaturesOf = typeof pavementTemperatures;

/** @throws InputError */
export function studyBins(study: Study, temperaturesOf: TemperaturesOf = pavementTemperatures): StudyBins {
  const {treatments, weather, exchange, bins, traffic} = study;
  if (!("kind" in bins)) return {bins, runs: treatments.map(() => null), hours: null};
  if (!weather) throw new InputError("shape", "weather", null, "a record from which temperature bins can be derived");
  const known = new Map<string, PavementTemperatureRun>();
  const runs = treatments.map(({section}, k) => {
    const key = heatKey(section);
    const needed = k === 0 || known.has(key) || section.layers.some(l => l.material.modulus.length > 1);
    if (!needed) return null;
    const run = known.get(key) ?? temperaturesOf(section, weather, exchange);
    known.set(key, run);
    return run;
  });
  const {halfWayOverlay} = runs[0]!;
  const passing = trafficByHour(traffic.calendar, {...weather, count: weather.temperature.length});
  const shares = deriveBins(halfWayOverlay, bins.count, passing);
  return {
    bins: shares.map(({temperature, share}) => ({temperature, share})),
    runs,
    hours: {shares, halfWayOverlay, traffic: passing},
  };
}

/**
 * Mean temperature of each layer while the overlay is in each bin, by bin and layer [°C]: by day the top courses are warmer
 * than the middle of the overlay, and a thick base lags behind. In bins that were given every layer has the bin's.
 */
export function layerTemperatures(
  section: Section,
  {bins, hours}: StudyBins,
  run: PavementTemperatureRun | null,
): number[][] {
  if (!hours || !run) return bins.map(({temperature}) => section.layers.map(() => temperature));
  const {shares, halfWayOverlay, traffic} = hours;
  const byLayer = run.layerMean.map(values => meansByBin(shares, {halfWayOverlay, values, traffic}));
  return bins.map((_, b) => byLayer.map(means => means[b]));
}

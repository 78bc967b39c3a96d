/** Numbers behind the pictures of temperatures and of the cycles they make. */

import type {PavementTemperatures, TemperatureAtDepth} from "../../engine/climate/types.ts";
import type {Layer} from "../../engine/section/types.ts";
import {type cycleBins, type DayWindow, dailyRange, type TemperatureView} from "../charts/index.ts";
import {csvText} from "../csv.ts";

const HOURS = 24;

/** One row a day (a span of days where the record is longer than the picture has room for): lowest, mean and highest. */
export function temperatureCsv({weather, temperatures}: Omit<TemperatureView, "window">): string {
  const surface = dailyRange(temperatures.surface);
  const air = weather.kind === "air" ? dailyRange(weather.temperature) : null;
  const slab = dailyRange(temperatures.slabMean);
  const parts = [air, surface, slab];
  const names = ["air", "surface", "jointed_layer"];
  return csvText(
    ["day", ...names.flatMap(n => [`${n}_lowest_C`, `${n}_mean_C`, `${n}_highest_C`])],
    surface.map(({day}, i) => [
      day,
      ...parts.flatMap(spans => {
        const span = spans?.[i];
        return span ? [span.low, span.mean, span.high] : [null, null, null];
      }),
    ]),
  );
}

/** One row an hour, one column a depth. All hours of the record, or those of some days. */
export function depthTemperaturesCsv(
  atDepth: readonly TemperatureAtDepth[],
  layers: readonly Layer[],
  window: DayWindow = [0, Infinity],
): string {
  const hours = atDepth[0]?.temperature.length ?? 0;
  const first = Math.max(0, Math.floor(window[0] * HOURS));
  const past = Math.min(hours, Math.ceil(window[1] * HOURS));
  const heading = atDepth.map(({depth, layer, place}) =>
    place === "surface"
      ? "surface_C"
      : `${place} of ${layers[layer]!.name}, ${Number((depth * 1e3).toPrecision(6))} mm, C`,
  );
  const rows = Array.from({length: Math.max(0, past - first)}, (_, k) => {
    const hour = first + k;
    return [hour / HOURS, ...atDepth.map(d => d.temperature[hour]!)];
  });
  return csvText(["day", ...heading], rows);
}

/** One row a depth: lowest, mean and highest of the record. */
export function envelopeCsv({envelope}: Pick<PavementTemperatures, "envelope">): string {
  return csvText(
    ["depth_mm", "lowest_C", "mean_C", "highest_C"],
    Array.from(envelope.depth, (depth, i) => [
      depth * 1e3,
      envelope.lowest[i]!,
      envelope.mean[i]!,
      envelope.highest[i]!,
    ]),
  );
}

/** One row a class of range: how many thermal cycles a year has of it, and their share of the damage. */
export function cyclesCsv(bins: ReturnType<typeof cycleBins>): string {
  return csvText(
    ["range_from_microstrain", "range_to_microstrain", "cycles_per_year", "share_of_thermal_damage_percent"],
    bins.map(b => [b.low, b.high, b.perYear, b.damage]),
  );
}

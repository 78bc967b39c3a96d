/** Traffic, climate and settings of a study in lines for a terminal, in the units in which they were written. */
import type {Study} from "../engine/life/types.ts";
import type {Traffic} from "../engine/traffic/index.ts";
import type {StudyDocument} from "../schema/index.ts";

type TrafficDocument = StudyDocument["traffic"];

const HOURS_A_DAY = 24;

/** @param document with the loads of spectra in place */
export function trafficLines(traffic: Traffic, document: TrafficDocument): string[] {
  const {standard_axle: axle, standard_axles: standard, spectra, load_classes: classes, design_lane: lane} = document;
  const wheels = tyres(traffic.standardAxle.wheels.length);
  const rows: string[] = [];
  if (standard) {
    rows.push(countLine("standard axles", standard.passes_per_year, standard.growth_percent));
    rows.push(
      `    ${wheels} of ${axle.wheel_load_kN} kN at ${axle.pressure_MPa} MPa; ${wanderText({wander_mm: standard.wander_mm})}`,
    );
  }
  for (const spectrum of spectra) {
    const loads = (spectrum.loads ?? []).map(load => load.load_kN);
    const total = (spectrum.loads ?? []).reduce((sum, load) => sum + load.passes_per_year, 0);
    const range = loads.length === 1 ? `${loads[0]} kN` : `${Math.min(...loads)} to ${Math.max(...loads)} kN`;
    rows.push(countLine(spectrum.name ?? spectrum.group ?? "spectrum", total, spectrum.growth_percent));
    rows.push(`    ${loads.length} loads of ${range} on the group, ${spectrum.contact}; ${wanderText(spectrum)}`);
  }
  for (const load of classes) {
    const count = traffic.classes.find(c => c.name === load.name)?.wheels.length ?? 0;
    rows.push(countLine(load.name, load.passes_per_year, load.growth_percent));
    rows.push(`    ${tyres(count)} of ${load.wheel_load_kN} kN at ${load.pressure_MPa} MPa; ${wanderText(load)}`);
  }
  if (rows.length === 0) rows.push("none: lives come from temperature alone");
  if (lane.direction_percent < 100 || lane.lane_percent < 100)
    rows.push(
      `of these ${lane.direction_percent} % in this direction, and of them ${lane.lane_percent} % in this lane`,
    );
  if (document.by_hour_percent) rows.push("by hour of day as given");
  if (document.by_month_percent) rows.push("by month as given");
  if (document.speed_km_per_h !== undefined) rows.push(`at ${document.speed_km_per_h} km/h`);
  rows.push(`lives are also told in axles of ${wheels}, ${axle.wheel_load_kN} kN at ${axle.pressure_MPa} MPa each`);
  return rows.map(line => `  ${line}`);
}

function countLine(name: string, passes: number, growth: number): string {
  return `${name}: ${whole(passes)} passes a year, growing by ${growth} % a year`;
}

function wanderText({
  wander_mm,
  wander,
}: Pick<TrafficDocument["load_classes"][number], "wander_mm" | "wander">): string {
  if (wander_mm !== undefined) return `wander ${wander_mm} mm`;
  if (wander === undefined || typeof wander === "string") return `wander as usual on a ${wander ?? "road"}`;
  return "uniform_mm" in wander ? `wander even over ${wander.uniform_mm} mm` : "wander as measured";
}

export function climateLines(study: Study): string[] {
  const lines = [...recordLines(study.weather), ...binLines(study.bins)];
  const {neutralTemperature} = study;
  if (study.weather)
    lines.push(
      `free of strain at ${neutralTemperature === null ? "the mean of the record" : `${neutralTemperature} °C`}`,
    );
  return lines.map(line => `  ${line}`);
}

export function settingLines(document: StudyDocument): string[] {
  const curved = Object.values(document.materials).some(m => m.master_curve && m.relaxation_modulus_MPa === undefined);
  const {daily_loading_time_h: day, seasonal_loading_time_h: season, temperature_C: at} = document.thermal_loading;
  const where = at === undefined ? "the mean of the record" : `${at} °C`;
  const {costs} = document;
  return [
    ...(curved ? [`  temperature loads for ${day} h in a day and ${season} h in a season, at ${where}`] : []),
    `  analysis period of ${document.analysis_period_years} years`,
    `  accuracy of ${document.numerical.accuracy_percent} % in the tip strain`,
    ...(costs
      ? [
          `  costs in ${costs.currency} (${costs.price_date}) over ${costs.analysis_period_years ?? document.analysis_period_years} years at ${costs.discount_percent} % a year`,
        ]
      : []),
  ];
}

function recordLines(weather: Study["weather"]): string[] {
  if (!weather) return ["no record: nothing is computed about temperature"];
  const {temperature, solar, wind, dewPoint, cloud, kind, label} = weather;
  const sum = temperature.reduce((total, t) => total + t, 0);
  let [lowest, highest] = [Infinity, -Infinity]; // by a loop: a long record has more hours than a call can take arguments
  for (const t of temperature) {
    lowest = Math.min(lowest, t);
    highest = Math.max(highest, t);
  }
  const found = [solar && "sunshine", wind && "wind", dewPoint && "dew point", cloud && "cloud"].filter(Boolean);
  const also = [found.slice(0, -1).join(", "), found.at(-1)].filter(Boolean).join(" and ");
  return [
    label,
    `${whole(temperature.length)} hours of ${kind} temperature${also ? `, with ${also}` : ""}`,
    `mean ${degrees(sum / temperature.length)} °C, from ${degrees(lowest)} to ${degrees(highest)} °C; mean daily range ${degrees(meanDailyRange(temperature))} K`,
  ];
}

function binLines(bins: Study["bins"]): string[] {
  if ("kind" in bins) return [`${bins.count} bins of overlay temperature, derived from the record`];
  const each = bins.map(({temperature, share}) => `${degrees(temperature)} °C ${degrees(100 * share)} %`);
  return [`overlay temperatures and their share of traffic: ${each.join(", ")}`];
}

function meanDailyRange(temperature: Float64Array): number {
  const days = Math.floor(temperature.length / HOURS_A_DAY);
  let sum = 0;
  for (let day = 0; day < days; day++) {
    const hours = temperature.subarray(day * HOURS_A_DAY, (day + 1) * HOURS_A_DAY);
    sum += Math.max(...hours) - Math.min(...hours);
  }
  return sum / days;
}

function tyres(count: number): string {
  return count === 1 ? "one tyre" : `${count} tyres`;
}

function whole(value: number): string {
  return value.toLocaleString("en", {maximumFractionDigits: 2});
}

/** One digit after the point, a true minus. */
function degrees(value: number): string {
  return String(Number(value.toFixed(1))).replace("-", "−");
}

/** Traffic, climate and settings of a study in lines for a terminal, in the units in which they were written. */
import type {Study} from "../engine/life/types.ts";
import type {Traffic} from "../engine/traffic/index.ts";
import type {StudyDocument} from "../schema/index.ts";

type TrafficDocument = StudyDocument["traffic"];

const HOURS_A_DAY = 24;

/** @param document where the classes stand in the order of `traffic`, standard axles first */
export function trafficLines(traffic: Traffic, document: TrafficDocument): string[] {
  const {standard_axle: axle, standard_axles: standard, load_classes: classes} = document;
  const loads = [...(standard ? [axle] : []), ...classes];
  const counts = [...(standard ? [standard] : []), ...classes];
  const rows = traffic.classes.map(({name, wheels}, i) => {
    const {wheel_load_kN: load, pressure_MPa: pressure} = loads[i];
    const {passes_per_year: passes, growth_percent: growth, wander_mm: wander} = counts[i];
    return [
      `${name}: ${whole(passes)} passes a year, growing by ${growth} % a year`,
      `    ${tyres(wheels.length)} of ${load} kN at ${pressure} MPa; wander ${wander} mm`,
    ];
  });
  const {wheel_load_kN: load, pressure_MPa: pressure} = axle;
  const unit = `lives are also told in axles of ${tyres(traffic.standardAxle.wheels.length)}, ${load} kN at ${pressure} MPa each`;
  return [...(rows.length > 0 ? rows.flat() : ["none: lives come from temperature alone"]), unit].map(
    line => `  ${line}`,
  );
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
  return [
    `  analysis period of ${document.analysis_period_years} years`,
    `  accuracy of ${document.numerical.accuracy_percent} % in the tip strain`,
  ];
}

function recordLines(weather: Study["weather"]): string[] {
  if (!weather) return ["no record: nothing is computed about temperature"];
  const {temperature, solar, wind, kind, label} = weather;
  const sum = temperature.reduce((total, t) => total + t, 0);
  const extremes = [Math.min(...temperature), Math.max(...temperature)].map(degrees);
  const also = [solar ? "sunshine" : "", wind ? "wind" : ""].filter(Boolean).join(" and ");
  return [
    label,
    `${whole(temperature.length)} hours of ${kind} temperature${also ? `, with ${also}` : ""}`,
    `mean ${degrees(sum / temperature.length)} °C, from ${extremes[0]} to ${extremes[1]} °C; mean daily range ${degrees(meanDailyRange(temperature))} K`,
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

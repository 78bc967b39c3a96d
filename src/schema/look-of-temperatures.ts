import type {DocumentPath, Findings} from "./fault.ts";

/** Converts in place to °C. */
export function toCelsius(temperature: Float64Array, unit: "C" | "F" | "K"): void {
  for (let i = 0; i < temperature.length; i++) {
    if (unit === "F") temperature[i] = ((temperature[i] - 32) * 5) / 9;
    else if (unit === "K") temperature[i] -= 273.15;
  }
}

/** Highest believable temperature [°C]: the hottest air measured is below 57, dark surfaces reach about 80. */
const hottest = {air: 60, surface: 90} as const;
/** Lowest believable temperature in a populated place [°C]. */
const coldest = -70;
/** Highest believable mean of a record [°C]; the hottest places average about 35 in the air. */
const hottestMean = {air: 40, surface: 50} as const;

/** Reports temperatures that cannot be in the unit they are said to be in. */
export function looksWrong(
  temperature: Float64Array, // [°C], after conversion
  record: {readonly temperature_is: "air" | "surface"; readonly temperature_unit: "C" | "F" | "K"},
  at: {readonly path: DocumentPath; readonly columns: readonly string[]},
  findings: Findings,
): boolean {
  let low = Infinity;
  let high = -Infinity;
  let sum = 0;
  for (const value of temperature) {
    low = Math.min(low, value);
    high = Math.max(high, value);
    sum += value;
  }
  const mean = sum / temperature.length;
  const kind = record.temperature_is;
  if (low >= coldest && high <= hottest[kind] && mean <= hottestMean[kind]) {
    if (mean < -20)
      findings.warn([...at.path, "temperature_unit"], {
        problem: "the record is colder than any populated place",
        found: `a mean of ${mean.toFixed(1)} °C`,
        accepted: "the unit that the file is in",
      });
    return false;
  }
  const unit = record.temperature_unit;
  const meant = unit !== "C" ? "C" : mean > 200 ? "K" : high <= 200 && low > -80 ? "F" : null;
  findings.fault([...at.path, "columns", at.columns[0]], {
    problem: `these cannot be temperatures of the ${kind} in °${unit === "K" ? "C, converted from K" : unit === "F" ? "C, converted from °F" : "C"}`,
    found: `${low.toFixed(1)} to ${high.toFixed(1)} °C, mean ${mean.toFixed(1)} °C`,
    accepted: `${coldest} to ${hottest[kind]} °C, with a mean of at most ${hottestMean[kind]} °C`,
    suggestion:
      meant === "F"
        ? "by the look of them they are in °F: write temperature_unit: F"
        : meant === "K"
          ? "by the look of them they are in kelvin: write temperature_unit: K"
          : meant === "C"
            ? "perhaps the file is in °C: write temperature_unit: C"
            : null,
  });
  return true;
}

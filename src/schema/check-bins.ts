import type {WeatherRecord} from "../engine/climate/types.ts";
import {checkCoverage} from "./check-materials.ts";
import type {Findings} from "./fault.ts";
import type {Partially, StudyDocument} from "./study.ts";

/** Shares may miss 100 % by so much through rounding [%]; they are then scaled. */
const shareSlack = 0.5;
/** By how much the sun may warm an overlay above the mean air of a hot day [K]; only to estimate what tables need. */
const sunAllowance = 20;

/** Temperature bins, the modulus tables that they need, and what a missing record means. */
export function checkBins(document: Partially<StudyDocument>, weather: WeatherRecord | null, findings: Findings): void {
  const bins = document.temperature_bins;
  const told = findings.faulty(["climate"]) || findings.faulty(["temperature_bins"]);
  if (Array.isArray(bins)) {
    checkShares(bins, findings);
    const temperatures = bins.map(bin => bin?.temperature_C).filter(t => t !== undefined);
    if (temperatures.length > 0)
      checkCoverage(
        document,
        {coldest: Math.min(...temperatures), hottest: Math.max(...temperatures), certain: true},
        findings,
      );
  } else if (document.climate === undefined && !told)
    findings.fault(["temperature_bins"], {
      problem: "without a climate there is nothing to derive temperature bins from",
      accepted: "a list of temperature_C and share_percent, or a climate",
    });
  if (document.climate === undefined && !told) {
    findings.warn(["climate"], {
      problem: "without a record, damage by temperature is not computed",
      accepted: "climate with an hourly or daily record",
    });
    if (document.neutral_temperature_C !== undefined)
      findings.warn(["neutral_temperature_C"], {
        problem: "without a record the neutral temperature has no effect",
        accepted: "a climate, or no neutral_temperature_C",
      });
  }
  if (weather && !Array.isArray(bins)) checkCoverage(document, {...spanOf(weather), certain: false}, findings);
}

function checkShares(
  bins: readonly ({readonly share_percent?: number | undefined} | undefined)[],
  findings: Findings,
): void {
  const shares = bins.map(bin => bin?.share_percent);
  if (shares.includes(undefined)) return;
  const total = (shares as number[]).reduce((sum, share) => sum + share, 0);
  if (Math.abs(total - 100) <= shareSlack) return;
  findings.fault(["temperature_bins"], {
    problem: "the shares of the bins do not add up to the whole year",
    found: `a sum of ${Number(total.toPrecision(6))} %`,
    accepted: "100 %",
    suggestion: Math.abs(total - 1) < 0.01 ? "the shares look like fractions: write them in percent" : null,
  });
}

/** Range of the day's mean temperature: an estimate of what derived bins will span. */
function spanOf(weather: WeatherRecord): {coldest: number; hottest: number} {
  let coldest = Infinity;
  let hottest = -Infinity;
  for (let start = 0; start + 24 <= weather.temperature.length; start += 24) {
    let sum = 0;
    for (let i = start; i < start + 24; i++) sum += weather.temperature[i];
    coldest = Math.min(coldest, sum / 24);
    hottest = Math.max(hottest, sum / 24);
  }
  return {coldest, hottest: hottest + (weather.solar ? sunAllowance : 0)};
}

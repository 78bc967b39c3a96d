/** What master curves need of the rest of the document. */
import {InputError} from "../engine/errors.ts";
import {loadingFrequency} from "../engine/viscoelastic/index.ts";
import {materialUses} from "./check-materials.ts";
import type {DocumentPath, Findings} from "./fault.ts";
import {fromKmPerHour, fromMm} from "./si.ts";
import {curveTemperatures} from "./stiffness.ts";
import type {Partially, StudyDocument} from "./study.ts";
import {treatedSection} from "./treatments.ts";

/** Where the loading time is known, as `loadingFrequency` takes it. */
const knownLoading = "1 to 200 km/h and middles of layers down to 1 m";

/**
 * Traffic, bins and thermal loading against the master curves in use.
 *
 * @param thermalGiven whether the document itself says how long temperature loads
 */
export function checkCurveUse(document: Partially<StudyDocument>, thermalGiven: boolean, findings: Findings): void {
  const materials = new Map(Object.entries(document.materials ?? {}));
  const uses = materialUses(document).filter(({name}) => materials.get(name)?.master_curve !== undefined);
  const relaxing = uses.some(({name}) => materials.get(name)?.relaxation_modulus_MPa === undefined);
  checkThermalLoading(document.thermal_loading, thermalGiven && !relaxing, findings);
  const traffic = document.traffic;
  const given = [traffic?.speed_km_per_h, traffic?.loading_frequency_Hz].filter(v => v !== undefined).length;
  const told = ["speed_km_per_h", "loading_frequency_Hz"].some(key => findings.faulty(["traffic", key]));
  if (uses.length === 0) return;
  if (given === 0 && !told && traffic)
    findings.fault(["traffic", "speed_km_per_h"], {
      problem: `the loading frequency of ${uses[0].name}, which has a master curve, cannot be told`,
      accepted: "speed_km_per_h, from which it follows by depth, or loading_frequency_Hz",
    });
  if (given === 2)
    findings.fault(["traffic", "loading_frequency_Hz"], {
      problem: "the loading frequency is given twice, by itself and by the speed",
      accepted: "either speed_km_per_h or loading_frequency_Hz",
    });
  const speed = traffic?.speed_km_per_h;
  if (speed !== undefined)
    guarded(["traffic", "speed_km_per_h"], findings, () => loadingFrequency({speed: fromKmPerHour(speed), depth: 0}));
  const bins = document.temperature_bins;
  if (!Array.isArray(bins)) return;
  const {coldest, hottest} = curveTemperatures;
  for (const [i, bin] of (bins as readonly ({temperature_C?: number} | undefined)[]).entries())
    if (bin?.temperature_C !== undefined && !(bin.temperature_C >= coldest && bin.temperature_C <= hottest))
      findings.fault(["temperature_bins", i, "temperature_C"], {
        problem: "master curves are not used at this temperature",
        accepted: `${coldest} to ${hottest} °C`,
      });
}

function checkThermalLoading(
  loading: Partially<StudyDocument["thermal_loading"]> | undefined,
  idle: boolean,
  findings: Findings,
): void {
  const {daily_loading_time_h: daily, seasonal_loading_time_h: seasonal} = loading ?? {};
  if (daily !== undefined && seasonal !== undefined && seasonal < daily)
    findings.fault(["thermal_loading", "seasonal_loading_time_h"], {
      problem: "the seasons load for a shorter time than the days",
      accepted: `at least ${daily} h, the daily loading time`,
    });
  if (idle)
    findings.warn(["thermal_loading"], {
      problem: "no relaxation modulus is taken from a master curve, so this has no effect",
      accepted: "a master_curve without relaxation_modulus_MPa, or no thermal_loading",
    });
}

/** Depths at which a speed is to give a loading frequency. */
export function checkCurveDepths(document: StudyDocument, findings: Findings): void {
  const speed = document.traffic.speed_km_per_h;
  if (speed === undefined) return;
  document.treatments.forEach((treatment, t) => {
    let depth = 0; // [mm]
    for (const layer of treatedSection(document.section, treatment).layers) {
      const middle = fromMm(depth + layer.thickness_mm / 2);
      depth += layer.thickness_mm;
      if (document.materials[layer.material].master_curve === undefined) continue;
      const at = ["treatments", t];
      guarded(at, findings, () => loadingFrequency({speed: fromKmPerHour(speed), depth: middle}), layer.name);
    }
  });
}

function guarded(path: DocumentPath, findings: Findings, make: () => unknown, layer?: string): void {
  try {
    make();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    findings.fault(path, {
      problem: `the loading frequency${layer === undefined ? "" : ` of ${layer}`} cannot be told from the speed: the loading time is not known there`,
      accepted: `${knownLoading}, or loading_frequency_Hz in the place of the speed`,
    });
  }
}

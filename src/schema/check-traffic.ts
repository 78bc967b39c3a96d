import {uniqueNames} from "./check-section.ts";
import type {DocumentPath, Findings} from "./fault.ts";
import {checkClassCount, checkSpectrum, spectrumName} from "./spectra.ts";
import type {Partially, StudyDocument, TrafficDocument} from "./study.ts";
import {checkWander} from "./wander.ts";
import {contactRectangle_mm, wheelCentres_mm} from "./wheels.ts";

type Load = Partially<TrafficDocument["standard_axle"]>;

/** Loads and counts. */
export function checkTraffic(document: Partially<StudyDocument>, findings: Findings): void {
  const traffic = document.traffic;
  if (!traffic) return;
  if (traffic.standard_axle) checkLoad(traffic.standard_axle, ["traffic", "standard_axle"], findings);
  const classes = traffic.load_classes ?? [];
  uniqueNames(classes, ["traffic", "load_classes"], "load class", findings);
  for (const [i, load] of classes.entries()) {
    if (!load) continue;
    const path = ["traffic", "load_classes", i];
    checkLoad(load, path, findings);
    checkGrowthLook(load.growth_percent, path, findings);
    checkWander(load, path, findings);
    if (load.wander_mm === undefined && load.wander === undefined && !findings.faulty([...path, "wander_mm"]))
      findings.fault(path, {
        problem: "how far the passes wander is not given",
        accepted: "wander_mm, or wander: road, taxiway, runway, or a spread of your own",
      });
    if (load.name === standardAxleClass && traffic.standard_axles)
      findings.fault([...path, "name"], {
        problem: "this name is that of the traffic in standard axles",
        accepted: "another name",
      });
  }
  checkGrowthLook(traffic.standard_axles?.growth_percent, ["traffic", "standard_axles"], findings);
  checkSpectra(traffic, findings);
  for (const key of ["by_hour_percent", "by_month_percent"] as const) checkShares(traffic[key], key, findings);
  if (traffic.by_month_percent && document.climate && !hasDates(document.climate))
    findings.fault(["traffic", "by_month_percent"], {
      problem: "the record has no dates, so its months are not known",
      accepted: "columns with the date in the climate's file",
    });
  checkTotal(traffic, findings);
}

function checkSpectra(traffic: Partially<TrafficDocument>, findings: Findings): void {
  const spectra = traffic.spectra ?? [];
  const path = ["traffic", "spectra"];
  uniqueNames(
    spectra.map(s => s && {name: spectrumName(s)}),
    path,
    "spectrum",
    findings,
  );
  for (const [i, spectrum] of spectra.entries()) {
    if (!spectrum) continue;
    checkWheels(spectrum, [...path, i], findings);
    checkSpectrum(spectrum, [...path, i], findings);
    checkGrowthLook(spectrum.growth_percent, [...path, i], findings);
  }
  checkClassCount(traffic, findings);
}

/** Shares may miss 100 % by so much through rounding [%]; they are then scaled. */
const shareSlack_percent = 0.5;

function checkShares(
  shares: readonly (number | undefined)[] | undefined,
  key: "by_hour_percent" | "by_month_percent",
  findings: Findings,
): void {
  if (!shares || findings.faulty(["traffic", key])) return;
  const total = shares.reduce<number>((sum, share) => sum + (share ?? 0), 0);
  if (Math.abs(total - 100) <= shareSlack_percent) return;
  findings.fault(["traffic", key], {
    problem: "the shares do not add up to all passes",
    found: `a sum of ${Number(total.toPrecision(6))} %`,
    accepted: "100 %",
    suggestion: Math.abs(total - 1) < 0.01 ? "the shares look like fractions: write them in percent" : null,
  });
}

function hasDates({hourly, daily}: Partially<NonNullable<StudyDocument["climate"]>>): boolean {
  return [hourly?.columns?.timestamp, hourly?.columns?.date, daily?.columns?.date].some(name => name !== undefined);
}

/** Name of the class that stands for traffic given in standard axles. */
export const standardAxleClass = "standard axles";

function checkTotal(traffic: Partially<TrafficDocument>, findings: Findings): void {
  const counts: (number | undefined)[] = (traffic.load_classes ?? []).map(load => load?.passes_per_year);
  if (traffic.standard_axles) counts.push(traffic.standard_axles.passes_per_year);
  for (const spectrum of traffic.spectra ?? [])
    counts.push(...(spectrum?.loads?.map(load => load?.passes_per_year) ?? [undefined]));
  const faulty = findings.faulty(["traffic"]);
  if (counts.some(count => count === undefined || count > 0) || (counts.length === 0 && faulty)) return;
  findings.fault(["traffic"], {
    problem: "there is no traffic, and a life in years cannot be told without",
    found:
      counts.length === 0
        ? "neither standard_axles nor spectra nor load_classes"
        : "0 passes a year in all classes together",
    accepted: "standard_axles, spectra or load_classes with passes_per_year > 0",
  });
}

function checkGrowthLook(percent: number | undefined, path: DocumentPath, findings: Findings): void {
  if (percent === undefined || percent <= 0 || percent >= 0.2) return;
  findings.warn([...path, "growth_percent"], {
    problem: "the growth looks like a fraction",
    accepted: "percent a year",
    suggestion: `write ${Number((percent * 100).toPrecision(6))} if ${percent} was meant as a fraction`,
  });
}

function checkLoad(load: Load, path: DocumentPath, findings: Findings): void {
  checkWheels(load, path, findings);
  checkOverlap(load, path, findings);
}

/** Where the wheels are, told once and wholly. */
function checkWheels(load: Load, path: DocumentPath, findings: Findings): void {
  const arrangement = load.arrangement;
  const given = (["wheels", "arrangement", "group"] as const).filter(key => load[key] !== undefined);
  if (given.length > 1)
    findings.fault([...path, given[0]], {
      problem: "the wheels are given twice",
      found: given.join(" and "),
      accepted: "one of group, arrangement and wheels",
    });
  const told = ["wheels", "arrangement", "group"].some(key => findings.faulty([...path, key]));
  if (given.length === 0 && !told)
    findings.fault(path, {problem: "where the wheels are is not given", accepted: "group, arrangement or wheels"});
  if (arrangement && (arrangement.axles ?? 1) > 1 && arrangement.axle_spacing_mm === undefined && !told)
    findings.fault([...path, "arrangement", "axle_spacing_mm"], {
      problem: "several axles need their spacing",
      accepted: "a number > 0 [mm]",
    });
  if (arrangement && (arrangement.tyres_per_side ?? 1) > 1 && arrangement.tyre_spacing_mm === undefined && !told)
    findings.fault([...path, "arrangement", "tyre_spacing_mm"], {
      problem: "several tyres need their spacing",
      accepted: "a number > 0 [mm]",
    });
}

/** Two tyres cannot stand on the same spot. */
function checkOverlap(load: Load, path: DocumentPath, findings: Findings): void {
  const {wheel_load_kN, pressure_MPa} = load;
  const centres = wheelCentres_mm(load);
  if (wheel_load_kN === undefined || pressure_MPa === undefined || !centres) return;
  const patch = contactRectangle_mm({wheel_load_kN, pressure_MPa, contact_width_mm: load.contact_width_mm});
  for (let i = 1; i < centres.length; i++)
    for (let j = 0; j < i; j++) {
      const apart = [Math.abs(centres[i].x - centres[j].x), Math.abs(centres[i].y - centres[j].y)];
      if (apart[0] >= patch.length * 0.999 || apart[1] >= patch.width * 0.999) continue;
      findings.fault([...path, load.wheels ? "wheels" : load.group ? "group" : "arrangement"], {
        problem: `wheels ${j + 1} and ${i + 1} overlap`,
        found: `${apart[0]} mm apart in x and ${apart[1]} mm in y`,
        accepted: `contact patches of ${patch.length.toFixed(0)} mm (x) by ${patch.width.toFixed(0)} mm (y) side by side`,
        suggestion: "are the distances in mm?",
      });
      return;
    }
}

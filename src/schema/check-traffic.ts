import {uniqueNames} from "./check-section.ts";
import type {DocumentPath, Findings} from "./fault.ts";
import type {Partially, StudyDocument, TrafficDocument} from "./study.ts";
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
    if (load.name === standardAxleClass && traffic.standard_axles)
      findings.fault([...path, "name"], {
        problem: "this name is that of the traffic in standard axles",
        accepted: "another name",
      });
  }
  checkGrowthLook(traffic.standard_axles?.growth_percent, ["traffic", "standard_axles"], findings);
  checkTotal(traffic, findings);
}

/** Name of the class that stands for traffic given in standard axles. */
export const standardAxleClass = "standard axles";

function checkTotal(traffic: Partially<TrafficDocument>, findings: Findings): void {
  const counts: (number | undefined)[] = (traffic.load_classes ?? []).map(load => load?.passes_per_year);
  if (traffic.standard_axles) counts.push(traffic.standard_axles.passes_per_year);
  const faulty = findings.faulty(["traffic"]);
  if (counts.some(count => count === undefined || count > 0) || (counts.length === 0 && faulty)) return;
  findings.fault(["traffic"], {
    problem: "there is no traffic, and a life in years cannot be told without",
    found: counts.length === 0 ? "neither standard_axles nor load_classes" : "0 passes a year in all classes together",
    accepted: "standard_axles or load_classes with passes_per_year > 0",
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
  const arrangement = load.arrangement;
  if (load.wheels && arrangement)
    findings.fault([...path, "wheels"], {
      problem: "the wheels are given twice",
      accepted: "either wheels or arrangement",
    });
  const told = findings.faulty([...path, "wheels"]) || findings.faulty([...path, "arrangement"]);
  if (!load.wheels && !arrangement && !told)
    findings.fault(path, {problem: "where the wheels are is not given", accepted: "wheels or arrangement"});
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
  checkOverlap(load, path, findings);
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
      findings.fault([...path, load.wheels ? "wheels" : "arrangement"], {
        problem: `wheels ${j + 1} and ${i + 1} overlap`,
        found: `${apart[0]} mm apart in x and ${apart[1]} mm in y`,
        accepted: `contact patches of ${patch.length.toFixed(0)} mm (x) by ${patch.width.toFixed(0)} mm (y) side by side`,
        suggestion: "are the distances in mm?",
      });
      return;
    }
}

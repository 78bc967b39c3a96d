/** Axle load spectra: their files read, their loads checked, each load a class of its own. */
import type {DocumentPath, Findings} from "./fault.ts";
import {mostClasses} from "./spectrum-fields.ts";
import type {Partially, StudyDocument, TrafficDocument} from "./study.ts";
import {linesText, numberColumn, type ReadCsv, readTable, type Table} from "./table.ts";
import {checkWander} from "./wander.ts";
import {wheelGroups} from "./wheel-groups.ts";
import {contactRectangle_mm, type LoadDocument, wheelCentres_mm} from "./wheels.ts";

export type SpectrumDocument = TrafficDocument["spectra"][number];
export type SpectrumLoads = NonNullable<SpectrumDocument["loads"]>;
type Loose = Partially<SpectrumDocument>;

/** Highest contact pressure [MPa] and load [kN] of a tyre, as in the fields. */
const most = {pressure_MPa: 3, wheel_load_kN: 500};

/** The loads of spectra that name a file, by the spectrum's place. What is wrong with one is told at the spectrum. */
export function readSpectra(
  {traffic}: Partially<StudyDocument>,
  readCsv: ReadCsv,
  findings: Findings,
): ReadonlyMap<number, SpectrumLoads> {
  const read = new Map<number, SpectrumLoads>();
  for (const [i, spectrum] of (traffic?.spectra ?? []).entries()) {
    const path = ["traffic", "spectra", i];
    if (!spectrum) continue;
    if (spectrum.loads && spectrum.file !== undefined)
      findings.fault([...path, "file"], {problem: "the loads are given twice", accepted: "either loads or file"});
    else if (spectrum.file !== undefined) {
      const loads = loadsOf(spectrum.file, spectrum.columns, path, {readCsv, findings});
      if (loads) read.set(i, loads);
    } else if (spectrum.columns)
      findings.fault([...path, "columns"], {problem: "there is no file that has these columns", accepted: "file, too"});
    else if (!spectrum.loads && !findings.faulty([...path, "loads"]))
      findings.fault(path, {problem: "the spectrum has no loads", accepted: "loads, or file"});
  }
  return read;
}

function loadsOf(
  file: string,
  columns: Loose["columns"],
  path: DocumentPath,
  {readCsv, findings}: {readonly readCsv: ReadCsv; readonly findings: Findings},
): SpectrumLoads | null {
  const names = {
    load_kN: columns?.load_kN ?? "load_kN",
    passes_per_year: columns?.passes_per_year ?? "passes_per_year",
  };
  const table = readTable({file, headerLine: 1, columns: names}, path, readCsv, findings);
  if (!table) return null;
  const load = numberColumn(table, "load_kN", path, findings);
  const passes = numberColumn(table, "passes_per_year", path, findings);
  if (!load || !passes) return null;
  const fits = [
    refuse(table, load.values, {role: "load_kN", fits: v => v > 0, accepted: "loads > 0 [kN]"}, path, findings),
    refuse(table, passes.values, {role: "passes_per_year", fits: v => v >= 0, accepted: "counts ≥ 0"}, path, findings),
  ];
  if (!fits.every(Boolean)) return null;
  return Array.from(load.values, (load_kN, i) => ({load_kN, passes_per_year: passes.values[i]}));
}

/** False where values do not fit or are missing, which the findings then tell with their lines. */
function refuse(
  table: Table,
  values: Float64Array,
  {role, fits, accepted}: {readonly role: string; readonly fits: (v: number) => boolean; readonly accepted: string},
  path: DocumentPath,
  findings: Findings,
): boolean {
  const bad = [...values.keys()].filter(i => !fits(values[i])); // NaN, where nothing was recorded, fits nothing
  if (bad.length === 0) return true;
  const lines = linesText(bad.map(i => table.lines[i]));
  const first = values[bad[0]];
  findings.fault([...path, "columns", role], {
    problem: `values that cannot be in ${lines} of the file`,
    found: `${Number.isNaN(first) ? "nothing" : first} in line ${table.lines[bad[0]]}`,
    accepted,
  });
  return false;
}

/** The document with the loads of its files in place. */
export function withSpectra<D extends Partially<StudyDocument>>(
  document: D,
  read: ReadonlyMap<number, SpectrumLoads>,
): D {
  if (!document.traffic?.spectra || read.size === 0) return document;
  const spectra = document.traffic.spectra.map((s, i) => (read.has(i) ? {...s, loads: read.get(i)} : s));
  return {...document, traffic: {...document.traffic, spectra}};
}

/** Name by which a spectrum is told. */
export const spectrumName = (spectrum: Loose): string => spectrum.name ?? spectrum.group ?? "spectrum";

/** Wheels at the load for which the contact patch is given; null when it is not (well) given. */
export function referenceWheels(spectrum: Loose): LoadDocument | null {
  const usual = spectrum.group === undefined ? undefined : wheelGroups[spectrum.group];
  const wheel_load_kN = spectrum.wheel_load_kN ?? usual?.wheel_load_kN;
  const pressure_MPa = spectrum.pressure_MPa ?? usual?.pressure_MPa;
  if (wheel_load_kN === undefined || pressure_MPa === undefined) return null;
  const own = spectrum.pressure_MPa !== undefined || spectrum.wheel_load_kN !== undefined;
  const usualWidth = usual && "contact_width_mm" in usual && !own ? usual.contact_width_mm : undefined;
  const contact_width_mm = spectrum.contact_width_mm ?? usualWidth;
  const {arrangement, wheels, group} = spectrum as SpectrumDocument;
  return {wheel_load_kN, pressure_MPa, contact_width_mm, arrangement, wheels, group};
}

/** A wheel under one load of a spectrum: its own load, and the patch that it stands on [mm]. */
export function wheelUnder(
  reference: LoadDocument,
  wheels: number,
  load_kN: number,
  contact: SpectrumDocument["contact"],
) {
  const wheel_load_kN = load_kN / wheels;
  const patch =
    contact === "fixed area" ? contactRectangle_mm(reference) : contactRectangle_mm({...reference, wheel_load_kN});
  return {wheel_load_kN, patch, pressure_MPa: (wheel_load_kN * 1000) / (patch.length * patch.width)};
}

/** Loads of a spectrum that make sense for its wheels, each once. */
export function checkSpectrum(spectrum: Loose, path: DocumentPath, findings: Findings): void {
  checkWander(spectrum, path, findings);
  const reference = referenceWheels(spectrum);
  if (!reference && spectrum.group === undefined && !findings.faulty(path))
    findings.fault(path, {
      problem: "the tyres of the spectrum are not given",
      accepted: "group; or wheel_load_kN and pressure_MPa beside arrangement or wheels",
    });
  const unclear = (["wheels", "arrangement", "group"] as const).some(key => findings.faulty([...path, key]));
  const centres = reference && !unclear ? wheelCentres_mm(reference) : null;
  const seen = new Map<number, number>();
  for (const [k, load] of (spectrum.loads ?? []).entries()) {
    if (load?.load_kN === undefined) continue;
    const at = spectrum.file === undefined ? [...path, "loads", k] : [...path, "file"];
    const before = seen.get(load.load_kN);
    if (before !== undefined)
      findings.fault(at, {
        problem: `the load ${load.load_kN} kN stands twice, as numbers ${before + 1} and ${k + 1}`,
        accepted: "every load once",
      });
    seen.set(load.load_kN, k);
    if (!reference || !centres) continue;
    const wheel = wheelUnder(reference, centres.length, load.load_kN, spectrum.contact ?? "fixed area");
    if (wheel.wheel_load_kN <= most.wheel_load_kN && wheel.pressure_MPa <= most.pressure_MPa) continue;
    findings.fault(at, {
      problem: `under ${load.load_kN} kN a tyre would carry ${wheel.wheel_load_kN.toFixed(0)} kN at ${wheel.pressure_MPa.toFixed(2)} MPa`,
      accepted: `at most ${most.wheel_load_kN} kN and ${most.pressure_MPa} MPa`,
      suggestion: "load_kN is that of the whole group; is it in kN?",
    });
  }
}

/** Load classes that spectra stand for. */
export function classCount(traffic: Partially<TrafficDocument>): number {
  const spectra = (traffic.spectra ?? []).reduce((sum, s) => sum + (s?.loads?.length ?? 0), 0);
  return spectra + (traffic.load_classes ?? []).length;
}

export function checkClassCount(traffic: Partially<TrafficDocument>, findings: Findings): void {
  const count = classCount(traffic);
  if (count > mostClasses)
    findings.fault(["traffic", "spectra"], {
      problem: "there are too many load classes",
      found: `${count} in all spectra and load_classes`,
      accepted: `at most ${mostClasses}`,
    });
}

import type {WeatherRecord} from "../engine/climate/types.ts";
import type {Study} from "../engine/life/types.ts";
import type {RiskPlan} from "../engine/uncertainty/types.ts";
import {checkBins} from "./check-bins.ts";
import {checkCosts} from "./check-costs.ts";
import {checkMaterials} from "./check-materials.ts";
import {checkSection} from "./check-section.ts";
import {checkCurveDepths, checkCurveUse} from "./check-stiffness.ts";
import {checkTraffic} from "./check-traffic.ts";
import {climateFields} from "./climate-fields.ts";
import {toStudy} from "./convert.ts";
import {checkEstimates, withEstimates} from "./estimated-moduli.ts";
import type {Fault, Findings} from "./fault.ts";
import {collectFindings, valueAt} from "./findings.ts";
import type {LawDocument} from "./law-file.ts";
import {readLaws, withLaw} from "./laws.ts";
import {parseSource, type Source} from "./source.ts";
import {readSpectra, withSpectra} from "./spectra.ts";
import {readCurves} from "./stiffness.ts";
import {checkStructure} from "./structure.ts";
import {type Partially, type StudyDocument, studySchema} from "./study.ts";
import type {ReadCsv} from "./table.ts";
import {checkTreatments} from "./treatments.ts";
import {toRiskPlan} from "./uncertainty.ts";
import {readWeather} from "./weather.ts";

/** What the report shows of the input. */
export interface StudyInputs {
  readonly fileName: string;
  readonly document: StudyDocument; // with all defaults filled in
  readonly sources: readonly {readonly material: string; readonly source: string}[];
}

export type ReadOutcome =
  | {
      readonly kind: "study";
      readonly study: Study;
      readonly inputs: StudyInputs;
      readonly risk: RiskPlan; // how sure the inputs are
      readonly warnings: readonly Fault[];
    }
  | {readonly kind: "faults"; readonly faults: readonly Fault[]; readonly warnings: readonly Fault[]};

export interface ReadingOptions {
  readonly fileName: string; // for messages and the report
  readonly readCsv: ReadCsv; // fetches the text of a file named in the document; must not throw
  readonly readLaw?: ReadCsv; // the same for law files; default: readCsv
}

/**
 * Reads a study document, YAML or JSON. Every fault is listed at once; nothing is thrown for bad input.
 *
 * @param text the document
 */
export function readStudy(text: string, options: ReadingOptions): ReadOutcome {
  return readSource(parseSource(text), readerOf(options));
}

/** How the files of a study are read. */
export interface Reader extends Required<ReadingOptions> {
  readonly curves: typeof readCurves;
  readonly climate: typeof climateOf;
}

export function readerOf(options: ReadingOptions): Reader {
  return {readLaw: options.readCsv, ...options, curves: readCurves, climate: climateOf};
}

/** A reader whose temperature record is changed after it is read. */
export function withWeather(reader: Reader, change: (record: WeatherRecord) => WeatherRecord): Reader {
  return {
    ...reader,
    climate: (raw, readCsv, findings) => {
      const record = reader.climate(raw, readCsv, findings);
      return record && change(record);
    },
  };
}

export function readSource(
  source: Source,
  {fileName, readCsv, readLaw, curves: curvesOf, climate}: Reader,
): ReadOutcome {
  const findings = collectFindings(source);
  if (source.broken) return {kind: "faults", faults: findings.faults, warnings: []};

  const structured = checkStructure(source.raw, studySchema, findings);
  const laws = readLaws(structured.partial, readLaw, findings);
  checkEstimates(structured.partial, findings);
  const spectra = readSpectra(structured.partial, readCsv, findings);
  const partial = withSpectra(withEstimates(withLaws(structured.partial, laws)), spectra);
  const whole = structured.whole && withSpectra(withEstimates(withLaws(structured.whole, laws)), spectra);
  checkMaterials(partial, findings);
  checkSection(partial, findings);
  checkTreatments(partial, findings);
  checkTraffic(partial, findings);
  checkCosts(partial, findings);
  const curves = curvesOf(source.raw, readCsv, findings);
  checkCurveUse(partial, valueAt(source.raw, ["thermal_loading"]) !== undefined, findings);
  const weather = climate(source.raw, readCsv, findings);
  checkBins(partial, weather, findings);
  if (whole && findings.faults.length === 0) checkCurveDepths(whole, findings);

  const risk = whole && findings.faults.length === 0 ? toRiskPlan(whole, source.raw, laws, findings) : null;
  if (!whole || !risk || findings.faults.length > 0)
    return {kind: "faults", faults: findings.faults, warnings: findings.warnings};
  return {
    kind: "study",
    study: toStudy(whole, {weather, curves}),
    inputs: {fileName, document: whole, sources: sourcesOf(whole)},
    risk,
    warnings: findings.warnings,
  };
}

function withLaws<D extends Partially<StudyDocument>>(document: D, laws: ReadonlyMap<string, LawDocument>): D {
  const materials = Object.entries(document.materials ?? {});
  return {...document, materials: Object.fromEntries(materials.map(([n, m]) => [n, m && withLaw(m, laws.get(n))]))};
}

/** The record, read even when other parts of the document are faulty. */
function climateOf(raw: unknown, readCsv: ReadCsv, findings: Findings) {
  const climate = climateFields.safeParse(valueAt(raw, ["climate"]));
  return climate.success ? readWeather(climate.data, readCsv, findings) : null;
}

function sourcesOf(document: StudyDocument): StudyInputs["sources"] {
  const materials = Object.entries(document.materials).map(([name, material]) => ({
    material: name,
    source: material.source ?? "not stated",
  }));
  return materials;
}

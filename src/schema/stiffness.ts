/** Master curves of a study: fitted to tests, given by parameters, or estimated from the mix. */
import {InputError} from "../engine/errors.ts";
import {
  type BinderViscosity,
  type ComplexModulusPoint,
  estimatedCurve,
  fitMasterCurve,
  type MasterCurve,
  type MasterCurveFit,
  type PronySeries,
  pronySeries,
  shiftFactor,
} from "../engine/viscoelastic/index.ts";
import type {DocumentPath, Fault, Findings} from "./fault.ts";
import {collectFindings, valueAt} from "./findings.ts";
import {fromKJPerMol, fromLgMPa, fromMPa, fromPercent, fromTenthMm} from "./si.ts";
import {
  curveModels,
  type EstimateDocument,
  type MasterCurveDocument,
  masterCurveFields,
  type ParametersDocument,
  type TestsDocument,
  testsFields,
} from "./stiffness-fields.ts";
import {readTests} from "./stiffness-tests.ts";
import type {ReadCsv} from "./table.ts";

/** A curve with what it came from. */
export interface ReadCurve {
  readonly origin: "tests" | "parameters" | "estimate";
  readonly file: string | null;
  readonly curve: MasterCurve;
  readonly fit: MasterCurveFit | null;
  readonly points: readonly ComplexModulusPoint[];
  readonly prony: PronySeries;
}

/** Temperatures at which wheels are computed with a master curve [°C]. */
export const curveTemperatures = {coldest: -40, hottest: 80} as const;

/** The curves by material name, read even when other parts of the document are faulty. */
export function readCurves(raw: unknown, readCsv: ReadCsv, findings: Findings): ReadonlyMap<string, ReadCurve> {
  const curves = new Map<string, ReadCurve>();
  const materials = valueAt(raw, ["materials"]);
  if (typeof materials !== "object" || materials === null) return curves;
  for (const name of Object.keys(materials)) {
    const path = ["materials", name, "master_curve"];
    const document = masterCurveFields.safeParse(valueAt(raw, path));
    if (!document.success) continue; // not there, or told already
    const curve = readCurve(document.data, path, readCsv, findings);
    if (curve) curves.set(name, curve);
  }
  return curves;
}

function readCurve(
  document: MasterCurveDocument,
  path: DocumentPath,
  readCsv: ReadCsv,
  findings: Findings,
): ReadCurve | null {
  if (!oneOf(document, ["tests", "parameters", "estimate"], path, findings)) return null;
  const {tests, parameters, estimate} = document;
  if (tests) return fittedCurve(tests, [...path, "tests"], readCsv, findings);
  if (parameters) {
    const at = [...path, "parameters"];
    const curve = givenCurve(parameters, at, findings);
    return curve && finished({origin: "parameters", file: null, curve, fit: null, points: []}, at, findings);
  }
  return estimatedOf(estimate!, [...path, "estimate"], findings);
}

/** Whether exactly one of the fields is there; if not, that is a fault. */
function oneOf<T extends object>(
  document: T,
  keys: readonly (keyof T & string)[],
  path: DocumentPath,
  findings: Findings,
): boolean {
  const given = keys.filter(key => document[key] !== undefined);
  if (given.length === 1) return true;
  findings.fault(path, {
    problem: given.length === 0 ? "nothing is given here" : "this is given in more than one way",
    found: given.length === 0 ? "none of the ways to give it" : given.join(" and "),
    accepted: `one of ${keys.join(", ")}`,
  });
  return false;
}

/** The curve that fits the readings of a file best; null when something is wrong with them, which the findings then tell. */
export function fittedCurve(
  tests: TestsDocument,
  path: DocumentPath,
  readCsv: ReadCsv,
  findings: Findings,
): ReadCurve | null {
  const points = readTests(tests, path, readCsv, findings);
  if (!points) return null;
  const phases = points.some(p => p.phase !== null);
  const model = tests.model ?? (phases ? "2S2P1D" : "sigmoid");
  return guarded(path, findings, () => {
    const options = {model, shift: tests.shift, referenceTemperature: tests.reference_temperature_C};
    const fit = fitMasterCurve(points, options);
    for (const problem of fit.warnings) findings.warn([...path, "file"], {problem: sentence(problem), accepted: MORE});
    return finished({origin: "tests", file: tests.file, curve: fit.curve, fit, points}, path, findings);
  });
}

const MORE =
  "readings that tell the curve: more temperatures and frequencies, those amiss looked into, or another model";

/** As problems are written: without the full stop. */
const sentence = (text: string): string => text.replace(/\.$/, "");

function givenCurve(parameters: ParametersDocument, path: DocumentPath, findings: Findings): MasterCurve | null {
  const oneModel = oneOf(parameters, curveModels, path, findings);
  const oneShift = oneOf(parameters.shift, ["WLF", "Arrhenius"], [...path, "shift"], findings);
  if (!oneModel || !oneShift) return null;
  const model = givenModel(parameters, path, findings);
  if (!model) return null;
  const {WLF, Arrhenius} = parameters.shift;
  return {
    model,
    shift: WLF
      ? {kind: "WLF", c1: WLF.c1, c2: WLF.c2_K}
      : {kind: "Arrhenius", activationEnergy: fromKJPerMol(Arrhenius!.activation_energy_kJ_per_mol)},
    referenceTemperature: parameters.reference_temperature_C,
    measured: null,
  };
}

function givenModel(
  parameters: ParametersDocument,
  path: DocumentPath,
  findings: Findings,
): MasterCurve["model"] | null {
  const {sigmoid} = parameters;
  if (sigmoid)
    return {
      kind: "sigmoid",
      lowest: fromLgMPa(sigmoid.lowest_lg_MPa),
      span: sigmoid.span,
      location: sigmoid.location,
      slope: sigmoid.slope,
    };
  const name = parameters["2S2P1D"] ? "2S2P1D" : "Huet-Sayegh";
  const springs = parameters[name]!;
  const before = findings.faults.length;
  if (springs.k >= springs.h)
    findings.fault([...path, name, "k"], {problem: "k is not less than h", accepted: `less than ${springs.h}, h`});
  if (springs.static_modulus_MPa >= springs.glassy_modulus_MPa)
    findings.fault([...path, name, "static_modulus_MPa"], {
      problem: "the static modulus is not below the glassy one",
      accepted: `less than ${springs.glassy_modulus_MPa} MPa`,
    });
  if (findings.faults.length > before) return null;
  return {
    kind: "2S2P1D",
    staticModulus: fromMPa(springs.static_modulus_MPa),
    glassyModulus: fromMPa(springs.glassy_modulus_MPa),
    delta: springs.delta,
    k: springs.k,
    h: springs.h,
    beta: "beta" in springs ? (springs.beta as number) : Infinity,
    time: springs.time_s,
  };
}

function estimatedOf(mix: EstimateDocument, path: DocumentPath, findings: Findings): ReadCurve | null {
  const binder = binderOf(mix.binder, [...path, "binder"], findings);
  if (!binder) return null;
  return guarded(path, findings, () => {
    const {curve, warnings} = estimatedCurve({
      retained19: fromPercent(mix.retained_19_mm_percent),
      retained9_5: fromPercent(mix.retained_9_5_mm_percent),
      retained4_75: fromPercent(mix.retained_4_75_mm_percent),
      passing0_075: fromPercent(mix.passing_0_075_mm_percent),
      airVoids: fromPercent(mix.air_voids_percent),
      effectiveBinder: fromPercent(mix.effective_binder_percent),
      binder,
      referenceTemperature: mix.reference_temperature_C,
    });
    for (const problem of warnings)
      findings.warn(path, {problem: sentence(problem), accepted: "a usual mix, or tests of it"});
    return finished({origin: "estimate", file: null, curve, fit: null, points: []}, path, findings);
  });
}

function binderOf(binder: EstimateDocument["binder"], path: DocumentPath, findings: Findings): BinderViscosity | null {
  const {penetration_tenth_mm: penetration, softening_point_C: softeningPoint} = binder;
  const {viscosity_A: intercept, viscosity_VTS: susceptibility} = binder;
  const [byTests, byLine] = [
    [penetration, softeningPoint],
    [intercept, susceptibility],
  ].map(pair => pair.filter(v => v !== undefined));
  if (penetration !== undefined && softeningPoint !== undefined && byLine.length === 0)
    return {kind: "penetration", penetration: fromTenthMm(penetration), softeningPoint};
  if (intercept !== undefined && susceptibility !== undefined && byTests.length === 0)
    return {kind: "line", intercept, susceptibility};
  findings.fault(path, {
    problem: "the binder is not given in one of the two ways",
    accepted: "penetration_tenth_mm and softening_point_C, or viscosity_A and viscosity_VTS",
  });
  return null;
}

/** With its Prony series; null when the curve says nothing at some temperature that may be asked for. */
function finished(curve: Omit<ReadCurve, "prony">, path: DocumentPath, findings: Findings): ReadCurve | null {
  return guarded(path, findings, () => {
    for (const temperature of Object.values(curveTemperatures)) shiftFactor(curve.curve, temperature);
    return {...curve, prony: pronySeries(curve.curve)};
  });
}

/** What the engine refuses is a fault of the document. */
function guarded(path: DocumentPath, findings: Findings, make: () => ReadCurve | null): ReadCurve | null {
  try {
    return make();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    findings.fault(path, {
      problem: `no curve comes of this: ${error.path} is ${error.got}`,
      accepted: error.need,
    });
    return null;
  }
}

export type StiffnessOutcome =
  | {readonly kind: "curve"; readonly read: ReadCurve; readonly warnings: readonly Fault[]}
  | {readonly kind: "faults"; readonly faults: readonly Fault[]; readonly warnings: readonly Fault[]};

/** What is fitted to a file of tests when no study says it. */
export interface StiffnessChoices {
  readonly model?: TestsDocument["model"]; // default: by the phase
  readonly shift?: TestsDocument["shift"];
  readonly reference_temperature_C?: number;
}

/** Reads a table of complex modulus tests by itself and fits a curve. Every fault is listed at once. */
export function readStiffness(text: string, file: string, choices: StiffnessChoices = {}): StiffnessOutcome {
  const given = Object.fromEntries(Object.entries(choices).filter(([, value]) => value !== undefined));
  const tests = testsFields.parse({file, ...given});
  const nowhere = {line: null, column: null, quote: null};
  const findings = collectFindings({raw: tests, broken: false, faults: [], place: () => nowhere});
  const read = fittedCurve(tests, [], () => text, findings);
  const {faults, warnings} = findings;
  return read ? {kind: "curve", read, warnings} : {kind: "faults", faults, warnings};
}

import type {DocumentPath, Findings} from "./fault.ts";
import type {MaterialKind} from "./material-fields.ts";
import {nearest} from "./nearest.ts";
import type {MaterialDocument, Partially, StudyDocument} from "./study.ts";

type Loose = Partially<MaterialDocument>;

/** Kinds whose modulus hardly depends on loading time: relaxation_modulus_MPa may be left out. */
const timeless: ReadonlySet<MaterialKind | undefined> = new Set(["concrete", "cement-bound", "granular", "soil"]);
/** Kinds that do not pull together when they cool: expansion_per_C may be left out. */
const unbound: ReadonlySet<MaterialKind | undefined> = new Set(["granular", "soil"]);
/** Temperature at which wheel-speed and relaxation modulus are compared [°C]. */
const ordinaryTemperature_C = 15;

/** What the fields of each material must have to do with one another. */
export function checkMaterials(document: Partially<StudyDocument>, findings: Findings): void {
  for (const [name, material] of Object.entries(document.materials ?? {})) {
    if (!material) continue;
    const path = ["materials", name];
    checkModulus(material, path, findings);
    checkRelaxation(material, path, findings);
    checkGrowth(material, path, findings);
    const expansion = [...path, "expansion_per_C"];
    const needsExpansion = material.kind !== undefined && !unbound.has(material.kind);
    if (material.expansion_per_C === undefined && needsExpansion && !findings.faulty(expansion))
      missing(expansion, "a number ≥ 0 [1/°C], about 1e-5 for concrete, 2.5e-5 for asphalt", findings);
  }
  checkUse(document, findings);
}

function missing(path: DocumentPath, accepted: string, findings: Findings): void {
  findings.fault(path, {problem: "this field is missing", accepted});
}

function checkModulus(material: Loose, path: DocumentPath, findings: Findings): void {
  const single = material.modulus_MPa !== undefined;
  const table = material.modulus_by_temperature;
  if (single && table)
    findings.fault([...path, "modulus_MPa"], {
      problem: "the modulus is given twice, as a number and as a table",
      accepted: "either modulus_MPa or modulus_by_temperature",
    });
  const curve = material.master_curve !== undefined;
  if (curve && (single || table))
    findings.fault([...path, "master_curve"], {
      problem: "the modulus is given twice, by a master curve and otherwise",
      accepted: "one of master_curve, modulus_MPa and modulus_by_temperature",
    });
  const fields = ["modulus_MPa", "modulus_by_temperature", "master_curve", "modulus_from"];
  const told = fields.some(key => findings.faulty([...path, key]));
  if (!single && !table && !curve && !told)
    findings.fault(path, {
      problem: "the material has no modulus",
      accepted: "modulus_MPa, modulus_by_temperature or master_curve; for soil and granular modulus_from as well",
    });
  for (let i = 1; i < (table?.length ?? 0); i++) {
    const here = table?.[i]?.temperature_C;
    const before = table?.[i - 1]?.temperature_C;
    if (here !== undefined && before !== undefined && here <= before)
      findings.fault([...path, "modulus_by_temperature", i, "temperature_C"], {
        problem: "the temperatures of the table do not ascend",
        accepted: `more than ${before} °C, the row before`,
      });
    const soft = table?.[i]?.modulus_MPa;
    const stiff = table?.[i - 1]?.modulus_MPa;
    if (soft !== undefined && stiff !== undefined && soft > stiff)
      findings.warn([...path, "modulus_by_temperature", i, "modulus_MPa"], {
        problem: "the material gets stiffer with rising temperature",
        accepted: `at most ${stiff} MPa, the row before`,
      });
  }
}

function checkRelaxation(material: Loose, path: DocumentPath, findings: Findings): void {
  const relaxed = material.relaxation_modulus_MPa;
  const at = [...path, "relaxation_modulus_MPa"];
  const curve = material.master_curve !== undefined || findings.faulty([...path, "master_curve"]);
  const mayBeLeftOut = curve || (timeless.has(material.kind) && material.modulus_by_temperature === undefined);
  if (relaxed === undefined) {
    if (!findings.faulty(at) && material.kind !== undefined && !mayBeLeftOut)
      missing(at, "the modulus [MPa] at a loading time of hours, a small part of the one at wheel speed", findings);
    return;
  }
  const fast = modulusNear(material, ordinaryTemperature_C);
  if (fast === undefined) return;
  if (relaxed > fast || (relaxed === fast && material.kind !== undefined && !timeless.has(material.kind)))
    findings.warn(at, {
      problem: "the modulus at the loading time of a day is not below the modulus at wheel speed",
      accepted: `less than ${fast} MPa, the wheel-speed modulus near ${ordinaryTemperature_C} °C`,
      suggestion: "asphalt relaxes within hours to a fifth or less, a soft interlayer to a twentieth or less",
    });
}

function modulusNear(material: Loose, temperature: number): number | undefined {
  if (material.modulus_MPa !== undefined) return material.modulus_MPa;
  let best: number | undefined;
  let distance = Infinity;
  for (const row of material.modulus_by_temperature ?? []) {
    if (row?.temperature_C === undefined || row.modulus_MPa === undefined) continue;
    const d = Math.abs(row.temperature_C - temperature);
    if (d < distance) {
      distance = d;
      best = row.modulus_MPa;
    }
  }
  return best;
}

function checkGrowth(material: Loose, path: DocumentPath, findings: Findings): void {
  const law = material.crack_growth;
  if (!law) return;
  if (material.source === undefined && !findings.faulty([...path, "source"]))
    findings.fault([...path, "source"], {
      problem: "a material with a growth law says where its numbers come from",
      accepted: "a text; may say 'invented'",
    });
  const zoneTold = ["process_zone_mm", "aggregate_mm"].some(key => findings.faulty([...path, "crack_growth", key]));
  if (law.process_zone_mm === undefined && law.aggregate_mm === undefined && !zoneTold)
    findings.fault([...path, "crack_growth", "process_zone_mm"], {
      problem: "the process zone cannot be told: a growth law holds only with its own",
      accepted: "process_zone_mm, or aggregate_mm from which it follows (the larger of 5 mm and half of it)",
    });
}

/** Materials named by layers, with the places that name them. */
export function materialUses(document: Partially<StudyDocument>): {name: string; path: DocumentPath}[] {
  const uses: {name: string; path: DocumentPath}[] = [];
  const note = (name: string | undefined, path: DocumentPath) => {
    if (name !== undefined) uses.push({name, path});
  };
  for (const [i, layer] of (document.section?.layers ?? []).entries())
    note(layer?.material, ["section", "layers", i, "material"]);
  for (const [t, treatment] of (document.treatments ?? []).entries()) {
    const path = ["treatments", t, "changes"];
    note(treatment?.changes?.interlayer?.material, [...path, "interlayer", "material"]);
    for (const [i, layer] of (treatment?.changes?.layers ?? []).entries())
      note(layer?.material, [...path, "layers", i, "material"]);
  }
  return uses;
}

function checkUse(document: Partially<StudyDocument>, findings: Findings): void {
  const materials = document.materials;
  if (!materials) return;
  const uses = materialUses(document);
  for (const {name, path} of uses) {
    if (Object.hasOwn(materials, name) || findings.faulty(["materials", name])) continue;
    const meant = nearest(name, Object.keys(materials));
    findings.fault(path, {
      problem: "there is no material of this name",
      accepted: Object.keys(materials).join(", ") || "a name from `materials`, which is empty",
      suggestion: meant === null ? null : `did you mean ${meant}?`,
    });
  }
  const used = new Set(uses.map(({name}) => name));
  const complete = document.section?.layers !== undefined && document.treatments !== undefined;
  for (const name of Object.keys(materials))
    if (complete && !used.has(name))
      findings.warn(["materials", name], {
        problem: "no layer uses this material",
        accepted: "materials that are used",
      });
}

/** A span of overlay temperatures, and how sure it is that the engine will ask for all of it. */
export interface NeededSpan {
  readonly coldest: number; // [°C]
  readonly hottest: number; // [°C]
  readonly certain: boolean; // from listed bins; otherwise estimated from the record
}

/** Nothing is extrapolated: modulus tables of the materials in use must cover the temperatures of the bins. */
export function checkCoverage(document: Partially<StudyDocument>, span: NeededSpan, findings: Findings): void {
  const materials = document.materials ?? {};
  for (const name of new Set(materialUses(document).map(use => use.name))) {
    const rows = Object.hasOwn(materials, name) ? materials[name]?.modulus_by_temperature : undefined;
    const temperatures = (rows ?? []).map(row => row?.temperature_C).filter(t => t !== undefined);
    if (temperatures.length < 2) continue;
    const low = Math.min(...temperatures);
    const high = Math.max(...temperatures);
    if (low <= span.coldest && high >= span.hottest) continue;
    const needed = `a table from ${span.coldest.toFixed(1)} °C or less to ${span.hottest.toFixed(1)} °C or more`;
    const remark = {found: `a table from ${low} to ${high} °C`, accepted: needed};
    const path = ["materials", name, "modulus_by_temperature"];
    if (span.certain)
      findings.fault(path, {problem: "the table does not cover the bins, and nothing is extrapolated", ...remark});
    else
      findings.warn(path, {
        problem: "by the record, overlay temperatures may leave this table, and nothing is extrapolated",
        ...remark,
      });
  }
}

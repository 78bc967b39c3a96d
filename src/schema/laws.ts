/** Law files that a study's materials refer to, put in the place of crack_growth and fatigue_line. */
import type {DocumentPath, Findings} from "./fault.ts";
import {type LawDocument, lawFaultText, readLaw} from "./law-file.ts";
import type {MaterialDocument, Partially, StudyDocument} from "./study.ts";
import type {ReadCsv} from "./table.ts";

/** The laws by material name. What is wrong with one is told at the material. */
export function readLaws(
  {materials, section}: Partially<StudyDocument>,
  readFile: ReadCsv,
  findings: Findings,
): ReadonlyMap<string, LawDocument> {
  const laws = new Map<string, LawDocument>();
  for (const [name, material] of Object.entries(materials ?? {})) {
    if (!material) continue;
    const path = ["materials", name];
    if (material.law_file === undefined) {
      for (const key of ["law_shift", "process_zone_mm"] as const)
        if (material[key] !== undefined)
          findings.fault([...path, key], {
            problem: "this field belongs to a law_file, which is not given",
            accepted:
              key === "law_shift"
                ? "stiffness_shift within crack_growth or fatigue_line"
                : "process_zone_mm within crack_growth",
          });
      continue;
    }
    const law = lawOf(material.law_file, [...path, "law_file"], readFile, findings);
    if (!law) continue;
    checkLaw(law, material, path, findings);
    checkConvention(law, section, material.law_file, findings);
    laws.set(name, law);
  }
  return laws;
}

const SHOWN = 4; // faults of a law file told at the material

function lawOf(file: string, path: DocumentPath, readFile: ReadCsv, findings: Findings): LawDocument | null {
  const text = readFile(file);
  if (typeof text !== "string") {
    findings.fault(path, {
      problem: `the file cannot be read: ${text.problem}`,
      accepted: "a law file, its path relative to the study",
    });
    return null;
  }
  const outcome = readLaw(text);
  if (outcome.kind === "law") return outcome.law;
  const told = outcome.faults.slice(0, SHOWN).map(lawFaultText);
  const rest = outcome.faults.length - told.length;
  findings.fault(path, {
    problem: `this is no law file that can be used: ${told.join("; ")}${rest > 0 ? `; and ${rest} more` : ""}`,
    accepted: "a file written by the command `beams` or `fatigue` with --laws",
  });
  return null;
}

function checkLaw(
  law: LawDocument,
  material: Partially<MaterialDocument>,
  path: DocumentPath,
  findings: Findings,
): void {
  const {crack_growth: growth, fatigue_line: fatigue} = law;
  for (const key of ["crack_growth", "fatigue_line"] as const)
    if (law[key] && material[key] !== undefined)
      findings.fault([...path, key], {
        problem: `the law is given twice, here and in ${material.law_file}`,
        accepted: "either law_file or this field",
      });
  if (material.process_zone_mm !== undefined && growth && material.process_zone_mm !== growth.process_zone_mm)
    findings.fault([...path, "process_zone_mm"], {
      problem: "the growth law was found with another process zone, and holds with that one only",
      accepted: `${growth.process_zone_mm} mm, that of ${material.law_file}; or leave the field out`,
    });
  const shift = material.law_shift;
  if (shift?.fatigue_exponent && fatigue && fatigue.modulus_MPa === undefined)
    findings.fault([...path, "law_shift", "fatigue_exponent"], {
      problem: "the fatigue line cannot be shifted: its file does not say at which modulus it was found",
      accepted: "no shift, or a law file with the specimens' modulus",
    });
  if (growth && growth.found_by === "fatigue lines")
    findings.warn([...path, "law_file"], {
      problem: "this material did not crack in the laboratory beams: its growth law was moved from another material's",
      accepted: "a law fitted to cracks of its own",
    });
}

/** Laboratory and road must count shear alike: a law absorbs how it was counted when it was found. */
function checkConvention(
  {material, crack_growth: growth}: LawDocument,
  section: Partially<StudyDocument>["section"],
  file: string,
  findings: Findings,
): void {
  if (!growth) return;
  for (const key of ["shear_weight", "crack_interlock_MPa_per_mm"] as const)
    if (section?.[key] !== undefined && section[key] !== growth[key])
      findings.warn(["section", key], {
        problem: `the law of ${material} was found with ${growth[key]}`,
        accepted: `${growth[key]}, as in ${file}; or laws fitted anew`,
      });
}

/** A material with the laws of its file filled in; itself without one. */
export function withLaw<M extends Partially<MaterialDocument>>(material: M, law: LawDocument | undefined): M {
  if (!law) return material;
  const {crack_growth: g, fatigue_line: f, provenance} = law;
  const {law_shift: shift} = material;
  return {
    ...material,
    ...(g && {
      crack_growth: {
        A_mm_per_cycle: g.A_mm_per_cycle,
        n: g.n,
        process_zone_mm: g.process_zone_mm,
        ...(shift?.growth_exponent && {
          stiffness_shift: {reference_modulus_MPa: g.modulus_MPa, exponent: shift.growth_exponent},
        }),
      },
    }),
    ...(f && {
      fatigue_line: {
        strain_at_million_microstrain: f.strain_at_million_microstrain,
        exponent: f.exponent,
        ...(shift?.fatigue_exponent &&
          f.modulus_MPa !== undefined && {
            stiffness_shift: {reference_modulus_MPa: f.modulus_MPa, exponent: shift.fatigue_exponent},
          }),
      },
    }),
    source: [
      material.source,
      `Laws of ${material.law_file}${provenance.tested_by ? `, tested by ${provenance.tested_by}` : ""}, ${provenance.date}`,
    ]
      .filter(Boolean)
      .join(". "),
  };
}

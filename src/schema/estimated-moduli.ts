/** `modulus_from`: moduli of soils that nobody tested, filled in as modulus_MPa with a warning. */
import {
  type CbrRelation,
  type ModulusEstimate,
  modulusFromCbr,
  modulusFromReaction,
  type ReactionRelation,
} from "../engine/section/index.ts";
import type {DocumentPath, Findings} from "./fault.ts";
import {fromMPa} from "./si.ts";
import type {MaterialDocument, Partially, StudyDocument} from "./study.ts";

type Loose = Partially<MaterialDocument>;
type From = NonNullable<Loose["modulus_from"]>;

/** Kinds that the relations are for. */
const estimable: ReadonlySet<string> = new Set(["soil", "granular"]);
/** Relations for each of the two; the first is taken when none is named. */
const cbrRelations: readonly CbrRelation[] = ["power", "linear"];
const reactionRelations: readonly ReactionRelation[] = ["power", "plate"];

const FORMULA = {
  cbr: {power: "E = 17.6·CBR^0.64 MPa", linear: "E = 10·CBR MPa"},
  reaction: {
    power: "E = 20.15·k^1.284 in psi and psi/inch",
    plate: "E = k·π·a·(1 − ν²)/2 of a rigid plate 762 mm across",
  },
} as const;

interface Estimated {
  readonly modulus_MPa: number;
  readonly words: string; // "CBR 5 % by E = …"
  readonly range: string; // "CBR 2 to 12 %"
  readonly inside: boolean;
}

/** Checks every `modulus_from` and warns of it. */
export function checkEstimates({materials}: Partially<StudyDocument>, findings: Findings): void {
  for (const [name, material] of Object.entries(materials ?? {})) {
    if (!material?.modulus_from) continue;
    const path = ["materials", name, "modulus_from"];
    checkPlace(material, path, findings);
    const estimated = estimateOf(material);
    if (!estimated) continue;
    const {modulus_MPa, words, range, inside} = estimated;
    findings.warn(path, {
      problem: inside
        ? `the modulus, ${digits(modulus_MPa)} MPa, is an estimate from ${words}; single soils are off by a factor of two and more`
        : `the modulus, ${digits(modulus_MPa)} MPa, is estimated from ${words}, outside the range of the relation, ${range}`,
      accepted: `for ${range}; better a measured modulus_MPa, such as from a deflection bowl`,
    });
  }
}

function checkPlace(material: Loose, path: DocumentPath, findings: Findings): void {
  const from = material.modulus_from!;
  if (material.kind !== undefined && !estimable.has(material.kind))
    findings.fault(path, {
      problem: `the modulus of ${material.kind} does not follow from a test of soil`,
      accepted: "modulus_from of the kinds soil and granular only; here modulus_MPa",
    });
  for (const key of ["modulus_MPa", "modulus_by_temperature"] as const)
    if (material[key] !== undefined)
      findings.fault(path, {problem: `the modulus is given twice, here and by ${key}`, accepted: "one of the two"});
  const {cbr_percent: cbr, k_MPa_per_m: k, relation} = from;
  const told = ["cbr_percent", "k_MPa_per_m"].some(key => findings.faulty([...path, key]));
  if ((cbr === undefined) === (k === undefined) && !told)
    findings.fault(path, {
      problem: cbr === undefined ? "it is not said what from" : "there are two values to estimate it from",
      accepted: "either cbr_percent or k_MPa_per_m",
    });
  const own: readonly string[] = cbr === undefined ? reactionRelations : cbrRelations;
  if (relation !== undefined && (cbr === undefined) !== (k === undefined) && !own.includes(relation))
    findings.fault([...path, "relation"], {
      problem: `there is no such relation for ${cbr === undefined ? "k" : "the CBR"}`,
      accepted: own.join(", "),
    });
}

/** Null while what it needs is missing or faulty. */
function estimateOf({modulus_from, poisson}: Loose): Estimated | null {
  const {cbr_percent: cbr, k_MPa_per_m: k, relation = "power"} = modulus_from as From;
  if (cbr !== undefined && k === undefined) {
    const own = cbrRelations.find(r => r === relation);
    if (!own) return null;
    const found = modulusFromCbr(cbr, own);
    return said(found, `CBR ${cbr} % by ${FORMULA.cbr[own]}`, `CBR ${found.range.join(" to ")} %`);
  }
  if (k === undefined || cbr !== undefined || poisson === undefined) return null;
  const own = reactionRelations.find(r => r === relation);
  if (!own) return null;
  const found = modulusFromReaction(fromMPa(k), own, poisson);
  const range = found.range.map(v => v / 1e6).join(" to ");
  return said(found, `k ${k} MPa/m by ${FORMULA.reaction[own]}`, `k ${range} MPa/m`);
}

function said({modulus, inside}: ModulusEstimate, words: string, range: string): Estimated {
  return {modulus_MPa: modulus / 1e6, words, range, inside};
}

function digits(value: number): string {
  return String(Number(value.toPrecision(3)));
}

/** The document with estimated moduli filled in, and said in the material's source. */
export function withEstimates<D extends Partially<StudyDocument>>(document: D): D {
  const fill = (material: Loose): Loose => {
    const known = material.modulus_MPa !== undefined || material.modulus_by_temperature !== undefined;
    const estimated = material.modulus_from && !known ? estimateOf(material) : null;
    if (!estimated) return material;
    const note = `Modulus estimated from ${estimated.words}`;
    return {
      ...material,
      modulus_MPa: estimated.modulus_MPa,
      source: [note, material.source].filter(Boolean).join(". "),
    };
  };
  const materials = Object.entries(document.materials ?? {});
  return {...document, materials: Object.fromEntries(materials.map(([name, m]) => [name, m && fill(m)]))};
}

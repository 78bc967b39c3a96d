/**
 * The law file of one material: what a laboratory programme found, with how sure it is and where it comes from. Studies
 * refer to it by `law_file`. Unknown text in, a law or its faults out; and the other way.
 */
import {stringify} from "yaml";
import {z} from "zod";
import type {Fault} from "./fault.ts";
import {collectFindings} from "./findings.ts";
import {nameOf, quantity, words} from "./quantity.ts";
import {parseSource} from "./source.ts";
import {checkStructure} from "./structure.ts";

const positiveModulus = (description: string) => quantity("MPa", description, {above: 0, max: 500_000});

/** Variances may be tiny but not negative; zero says that nothing is known of them. */
const variance = (description: string) => quantity("–", description, {min: 0, max: 1000});

const growthFields = z.strictObject({
  A_mm_per_cycle: quantity("mm/cycle, ε in µε", "A of dc/dN = A·ε^n", {above: 0, max: 1}),
  n: quantity("–", "n of dc/dN = A·ε^n", {above: 0, max: 12}),
  process_zone_mm: quantity("mm", "d, with which A and n were found and without which they do not hold", {
    above: 0,
    max: 100,
  }),
  modulus_MPa: positiveModulus("E of the material in the tests"),
  shear_weight: quantity("–", "Weight of the shear terms in the tip strain with which A and n were found", {
    min: 0,
    max: 10,
  }),
  crack_interlock_MPa_per_mm: quantity("MPa/mm", "Interlock of crack faces with which A and n were found", {
    min: 0,
    max: 1e4,
  }),
  covariance: z
    .strictObject({
      ln_A: variance("Variance of ln A"),
      n: variance("Variance of n"),
      ln_A_n: quantity("–", "Covariance of ln A and n; the two go together", {min: -1000, max: 1000}),
    })
    .meta({description: "Of the estimates"}),
  degrees_of_freedom: quantity("–", "For intervals by Student's t", {above: 0, max: 1e6}),
  beam_scatter: quantity("–", "Standard deviation of ln(growth) from beam to beam", {min: 0, max: 10}),
  upper_scatter: quantity("–", "The same of growth from above against growth from below", {min: 0, max: 10}),
  found_by: z.enum(["beams", "fatigue lines"]).meta({
    description: "beams: fitted to crack readings; fatigue lines: moved from another material's law at equal strain",
  }),
});

const fatigueFields = z.strictObject({
  strain_at_million_microstrain: quantity("µε", "ε₆, strain amplitude for a million cycles", {above: 0, max: 20_000}),
  exponent: quantity("–", "k of N = 10⁶·(ε₆/ε)^k", {above: 0, max: 15}),
  modulus_MPa: positiveModulus("E of the specimens").optional(),
  temperature_C: quantity("°C", "Of the tests", {min: -60, max: 90}).optional(),
  frequency_Hz: quantity("Hz", "Of the tests", {above: 0, max: 1000}).optional(),
  covariance: z
    .strictObject({
      ln_strain_at_million: variance("Variance of ln ε₆"),
      exponent: variance("Variance of k"),
      ln_strain_exponent: quantity("–", "Covariance of ln ε₆ and k", {min: -1000, max: 1000}),
    })
    .meta({description: "Of the estimates"}),
  degrees_of_freedom: quantity("–", "For intervals by Student's t", {above: 0, max: 1e6}),
  lg_life_scatter: quantity("–", "Standard deviation of lg N about the line", {min: 0, max: 5}),
  specimens: quantity("–", "Number of specimens", {above: 0, max: 1e6}),
});

const lawSchema = z.strictObject({
  law_format: z.literal(1).meta({description: "Version of this format"}),
  material: nameOf("material"),
  crack_growth: growthFields.optional(),
  fatigue_line: fatigueFields.optional(),
  warnings: z.array(words("What to know before the law is believed")).max(100),
  provenance: z.strictObject({
    software: words("Program and version that wrote this file"),
    date: words("When it was written"),
    tested_by: words("Who tested").optional(),
    standard: words("By which standard").optional(),
    files: z
      .array(z.strictObject({file: words("Name"), sha256: z.string().regex(/^[0-9a-f]{64}$/)}))
      .max(1000)
      .meta({description: "Files that the law was found from, with their SHA-256"}),
  }),
});

export type LawDocument = z.output<typeof lawSchema>;

export type LawOutcome =
  | {readonly kind: "law"; readonly law: LawDocument}
  | {readonly kind: "faults"; readonly faults: readonly Fault[]};

/** Every fault is told at once; nothing is thrown. */
export function readLaw(text: string): LawOutcome {
  const source = parseSource(text);
  const findings = collectFindings(source);
  if (source.broken) return {kind: "faults", faults: findings.faults};
  const {whole} = checkStructure(source.raw, lawSchema, findings);
  const {crack_growth: growth, fatigue_line: fatigue} = whole ?? {};
  if (whole && !growth && !fatigue)
    findings.fault([], {problem: "the file holds no law", accepted: "crack_growth, fatigue_line, or both"});
  if (growth && growth.covariance.ln_A_n ** 2 > growth.covariance.ln_A * growth.covariance.n * (1 + 1e-6))
    findings.fault(["crack_growth", "covariance"], {
      problem: "these are no variances and covariance of one pair of numbers",
      accepted: "ln_A_n squared at most ln_A times n",
    });
  if (whole && !findings.faults.length) return {kind: "law", law: whole};
  return {kind: "faults", faults: findings.faults};
}

/** What a person reads above the numbers. */
const HEADER = ` A material's laws as found in the laboratory; studies refer to this file by \`law_file\`.
 A and n go together, with this process zone and no other. Better fit them anew than edit them.`;

export function lawText(law: LawDocument): string {
  const comment = HEADER.split("\n")
    .map(line => `#${line}`)
    .join("\n");
  return `${comment}\n${stringify(law, {lineWidth: 110})}`;
}

/** One fault of a law file in a sentence, for the study that refers to it. */
export function lawFaultText({path, line, problem}: Fault): string {
  return `${path ? `${path}: ` : ""}${problem}${line === null ? "" : ` (line ${line})`}`;
}

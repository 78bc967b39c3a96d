/** What tables of a laboratory programme do not say: process zones, choices, who tested. A small YAML file beside them. */
import {z} from "zod";
import {
  type BeamTest,
  type CalibrationRequest,
  type FatigueResult,
  relativeLaws,
} from "../../engine/laboratory/index.ts";
import type {Fault} from "../fault.ts";
import {collectFindings} from "../findings.ts";
import {usualZone_mm} from "../material-fields.ts";
import {count, nameOf, quantity, words} from "../quantity.ts";
import {fromMm, fromMPaPerMm, fromPercent} from "../si.ts";
import {parseSource} from "../source.ts";
import {checkStructure} from "../structure.ts";

export const programmeSchema = z.strictObject({
  programme_format: z.literal(1).meta({description: "Version of this format"}),
  name: nameOf("programme"),
  tested_by: words("Who tested; goes into the law files").optional(),
  standard: words("By which standard; goes into the law files").optional(),
  materials: z
    .record(
      z.string(),
      z.strictObject({
        aggregate_mm: quantity("mm", "Nominal aggregate size: the process zone is the larger of 5 mm and half of it", {
          above: 0,
          max: 100,
          typical: [2, 40],
        }).optional(),
        process_zone_mm: quantity("mm", "Process zone, instead of aggregate_mm", {
          above: 0,
          max: 100,
          typical: [2, 30],
        }).optional(),
      }),
    )
    .meta({description: "Materials that cracks run through, by the names in the tables"}),
  plane: z
    .enum(["stress", "strain"])
    .default("stress")
    .meta({description: "State of the beam as a whole: stress, free at its sides; strain, held between stiff walls"}),
  shear_weight: quantity("–", "Weight of the shear terms in the tip strain", {min: 0, max: 2}).default(1),
  crack_interlock_MPa_per_mm: quantity("MPa/mm", "Shear spring between the faces of a crack in the overlay", {
    min: 0,
    max: 1e4,
  }).default(0),
  exponent_prior: z
    .strictObject({
      mean: quantity("–", "Mean", {above: 0, max: 12}),
      standard_deviation: quantity("–", "Standard deviation", {above: 0, max: 10}),
    })
    .meta({
      description:
        "What is believed of every n before the tests, normal; for programmes too small to tell it. Published exponents are 3 to 6. Left out: nothing",
    })
    .optional(),
  fatigue: z
    .array(words("File"))
    .max(50)
    .default([])
    .meta({description: "Tables of bending fatigue tests on the same materials, relative to this file"}),
  reference: words("Material that the others are compared with. Left out: the first").optional(),
  confidence_percent: z
    .union([z.literal(90), z.literal(95)])
    .default(90)
    .meta({description: "Of all intervals"}),
  seed: count("Of the draws behind predictions", 0, 1e9).default(1),
  numerical: z
    .strictObject({
      accuracy_percent: quantity("%", "Numerical accuracy asked for in the tip strain", {min: 0.1, max: 20}).default(1),
    })
    .meta({description: "Numerical settings; there is no need to touch them"})
    .prefault({}),
});

export type ProgrammeDocument = z.output<typeof programmeSchema>;

export type ProgrammeOutcome =
  | {readonly kind: "programme"; readonly programme: ProgrammeDocument; readonly warnings: readonly Fault[]}
  | {readonly kind: "faults"; readonly faults: readonly Fault[]};

/** Every fault is told at once; nothing is thrown. */
export function readProgramme(text: string): ProgrammeOutcome {
  const source = parseSource(text);
  const findings = collectFindings(source);
  if (source.broken) return {kind: "faults", faults: findings.faults};
  const {whole} = checkStructure(source.raw, programmeSchema, findings);
  for (const [name, material] of Object.entries(whole?.materials ?? {})) {
    const path = ["materials", name];
    if (material.aggregate_mm !== undefined && material.process_zone_mm !== undefined)
      findings.fault([...path, "process_zone_mm"], {
        problem: "the process zone is given twice",
        accepted: "either aggregate_mm or process_zone_mm",
      });
    if (material.aggregate_mm === undefined && material.process_zone_mm === undefined)
      findings.fault(path, {problem: "the process zone cannot be told", accepted: "aggregate_mm, or process_zone_mm"});
  }
  if (!whole || findings.faults.length) return {kind: "faults", faults: findings.faults};
  return {kind: "programme", programme: whole, warnings: findings.warnings};
}

/** Materials that the beams need and the programme says nothing of. */
export function unknownMaterials({materials}: ProgrammeDocument, beams: readonly BeamTest[]): string[] {
  const needed = new Set(beams.flatMap(b => [b.overlay.material, ...(b.interlayer ? [b.interlayer.material] : [])]));
  return [...needed].filter(name => !Object.hasOwn(materials, name));
}

/** What the engine is to do with a programme's beams. */
export function calibrationRequest(
  programme: ProgrammeDocument,
  beams: readonly BeamTest[],
  fatigue: FatigueResult | null,
): CalibrationRequest {
  const {materials, plane, exponent_prior: prior} = programme;
  const zoneLength = Object.fromEntries(
    Object.entries(materials).map(([name, m]) => [
      name,
      fromMm(m.process_zone_mm ?? usualZone_mm(m.aggregate_mm!)), // one of the two: readProgramme
    ]),
  );
  return {
    tests: beams,
    choices: {
      plane,
      zoneLength,
      interlock: fromMPaPerMm(programme.crack_interlock_MPa_per_mm),
      accuracy: fromPercent(programme.numerical.accuracy_percent),
    },
    shearWeight: programme.shear_weight,
    relative: relativeLaws(beams, fatigue),
    exponentPrior: prior ? {mean: prior.mean, deviation: prior.standard_deviation} : null,
    level: levelOf(programme),
    seed: programme.seed,
  };
}

/** Of all intervals [–]. */
export function levelOf({confidence_percent}: ProgrammeDocument): number {
  return fromPercent(confidence_percent);
}

/** A programme file to be filled in. */
export function programmeTemplate(): string {
  return `# What the tables of beams and readings do not say. Goes beside them, as programme.yaml.
programme_format: 1
name: My programme
# tested_by: who tested; goes into the law files
# standard: by which standard

# Every material that a crack can run through, by its name in the tables. Its process zone is the larger of 5 mm and
# half the nominal aggregate size, unless process_zone_mm gives it. A law holds only with its own process zone.
materials:
  my overlay: {aggregate_mm: 16}
  my interlayer: {aggregate_mm: 8}

# Bending fatigue tests on the same materials, relative to this file. They give fatigue lines, and the law of an
# interlayer that does not crack in the beams.
# fatigue: [fatigue.csv]

# plane: stress # of the beam as a whole; strain when its sides are held
# confidence_percent: 90 # of all intervals; 90 or 95

# What is believed of every n before the tests. For programmes too small to tell it; published exponents are 3 to 6.
# exponent_prior: {mean: 4, standard_deviation: 1}
`;
}

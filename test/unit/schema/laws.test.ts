import {expect, test} from "vitest";
import {type LawDocument, lawText, readLaw, readStudy} from "../../../src/schema/index.ts";
import {csv, spoiled} from "./good-study.ts";

const law: LawDocument = {
  law_format: 1,
  material: "tested asphalt",
  crack_growth: {
    A_mm_per_cycle: 4e-16,
    n: 4.2,
    process_zone_mm: 8,
    modulus_MPa: 4100,
    shear_weight: 1,
    crack_interlock_MPa_per_mm: 0,
    covariance: {ln_A: 0.5, n: 0.01, ln_A_n: -0.065},
    degrees_of_freedom: 5,
    beam_scatter: 0.25,
    upper_scatter: 0.3,
    found_by: "beams",
  },
  fatigue_line: {
    strain_at_million_microstrain: 112,
    exponent: 5.3,
    modulus_MPa: 9800,
    temperature_C: 10,
    frequency_Hz: 25,
    covariance: {ln_strain_at_million: 4e-4, exponent: 0.04, ln_strain_exponent: 1e-3},
    degrees_of_freedom: 16,
    lg_life_scatter: 0.24,
    specimens: 18,
  },
  warnings: [],
  provenance: {software: "test", date: "25 November 2026", tested_by: "nobody", files: []},
};

const ownLaws = `    crack_growth: {A_mm_per_cycle: 1e-15, n: 4, process_zone_mm: 10}
    fatigue_line: {strain_at_million_microstrain: 100, exponent: 5}
    source: invented
`;
const byFile = (more = ""): string => spoiled([ownLaws, `    law_file: asphalt.yaml\n${more}`]);

function read(text: string, file: string | {readonly problem: string} = lawText(law)) {
  return readStudy(text, {fileName: "s.yaml", readCsv: name => (name === "asphalt.yaml" ? file : csv())});
}

function faultsOf(text: string, file?: string | {readonly problem: string}) {
  const outcome = read(text, file);
  return outcome.kind === "faults" ? outcome.faults : [];
}

test("a law file comes back as it was written", () => {
  expect(readLaw(lawText(law))).toEqual({kind: "law", law});
});

test("a study takes its laws from the file, with their own process zone and the study's shift", () => {
  const outcome = read(
    byFile("    law_shift: {growth_exponent: 2.9, fatigue_exponent: 0.5}\n    process_zone_mm: 8\n"),
  );
  if (outcome.kind === "faults") throw new Error(JSON.stringify(outcome.faults));
  const {material} = outcome.study.treatments[0].section.layers[0];
  // dc[mm] = A·(10⁶·ε)^n, so in metres and plain strains A·10⁻³·10^(6n)
  expect(material.growth).toEqual({
    coefficient: 4e-16 * 1e-3 * 1e6 ** 4.2,
    exponent: 4.2,
    zoneLength: 0.008,
    referenceModulus: 4100e6,
    stiffnessExponent: 2.9,
  });
  expect(material.fatigue).toEqual({
    strainAtMillion: 112e-6,
    exponent: 5.3,
    referenceModulus: 9800e6,
    stiffnessExponent: 0.5,
  });
  expect(material.source).toContain("tested by nobody");
});

test.each([
  ["another process zone", byFile("    process_zone_mm: 10\n"), "materials.asphalt.process_zone_mm"],
  [
    "the law given twice",
    spoiled(["    source: invented\n", "    source: invented\n    law_file: asphalt.yaml\n"]),
    "materials.asphalt.crack_growth",
  ],
  [
    "a shift without a file",
    spoiled(["    source: invented\n", "    source: invented\n    law_shift: {growth_exponent: 2}\n"]),
    "materials.asphalt.law_shift",
  ],
])("%s is refused", (_, text, path) => {
  expect(faultsOf(text).map(f => f.path)).toContain(path);
});

test.each<[string, string | {readonly problem: string}, RegExp]>([
  ["a missing file", {problem: "no such file"}, /cannot be read: no such file/],
  ["a table", csv(), /no law file that can be used/],
  ["a negative exponent", lawText(law).replace("n: 4.2", "n: -4.2"), /crack_growth\.n: .*\(line \d+\)/],
  ["a misspelt field", lawText(law).replace("beam_scatter", "beam_scater"), /beam_scater: there is no such field here/],
  ["a covariance that cannot be", lawText(law).replace("ln_A_n: -0.065", "ln_A_n: -1"), /no variances and covariance/],
  ["no law at all", lawText({...law, crack_growth: undefined, fatigue_line: undefined} as never), /holds no law/],
])("%s is told at the material", (_, file, problem) => {
  const faults = faultsOf(byFile(), file);
  expect(faults.map(f => f.path)).toEqual(expect.arrayContaining(["materials.asphalt.law_file"]));
  expect(faults.find(f => f.path === "materials.asphalt.law_file")?.problem).toMatch(problem);
});

test("another weight of shear than the law was found with draws a warning", () => {
  const outcome = read(byFile().replace("  base: rigid", "  shear_weight: 0.5\n  base: rigid"));
  expect(outcome.warnings.map(w => w.path)).toEqual(["section.shear_weight"]);
});

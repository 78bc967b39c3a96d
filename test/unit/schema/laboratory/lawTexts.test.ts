/** Laws of a laboratory among the files of a study. */
import {expect, test} from "vitest";
import {type LawDocument, readStudy} from "../../../../src/schema/index.ts";
import {lawTexts} from "../../../../src/schema/laboratory/index.ts";
import {readLaw} from "../../../../src/schema/law-file.ts";
import {csv, spoiled} from "../good-study.ts";

const LAW: LawDocument = {
  law_format: 1,
  material: "AC 16 (surf)",
  fatigue_line: {
    strain_at_million_microstrain: 130,
    exponent: 5.5,
    covariance: {ln_strain_at_million: 0.001, exponent: 0.02, ln_strain_exponent: 0},
    degrees_of_freedom: 16,
    lg_life_scatter: 0.2,
    specimens: 18,
  },
  warnings: [],
  provenance: {software: "test", date: "27 November 2026", files: []},
};

test("texts are law files; names are words, each once", () => {
  const named = (material: string): LawDocument => ({...LAW, material});
  const texts = lawTexts(["AC 16 (surf)", "AC-16 surf", "ac 16 surf", "Größe/ö", "///"].map(named));
  expect(texts.map(t => t.fileName)).toEqual([
    "ac-16-surf.yaml",
    "ac-16-surf-2.yaml",
    "ac-16-surf-3.yaml",
    "größe-ö.yaml",
    "material.yaml",
  ]);
  expect(readLaw(texts[0].text)).toEqual({kind: "law", law: LAW});
  expect(texts[0].replaces).toEqual(["fatigue_line"]);
});

test("a study's material takes its fatigue line from such a file, in the place of its own field", () => {
  const [law] = lawTexts([LAW]);
  const own = "    fatigue_line: {strain_at_million_microstrain: 100, exponent: 5}\n";
  const file = `laboratory/laws/${law.fileName}`;
  const read = (text: string) =>
    readStudy(text, {fileName: "s.yaml", readCsv: name => (name === file ? law.text : csv())});
  const outcome = read(spoiled([own, `    law_file: ${file}\n`]));
  if (outcome.kind !== "study") throw new Error(JSON.stringify(outcome.faults));
  const both = read(spoiled([own, `${own}    law_file: ${file}\n`]));
  expect(both.kind === "faults" && both.faults.map(f => f.path)).toEqual([`materials.asphalt.${law.replaces[0]}`]);
});

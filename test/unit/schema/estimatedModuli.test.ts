import {expect, test} from "vitest";
import {readStudy} from "../../../src/schema/index.ts";
import {csv, spoiled} from "./good-study.ts";

const ground = "    kind: soil\n    modulus_MPa: 90\n";
const from = (fields: string, kind = "soil", more = ""): string =>
  spoiled([ground, `    kind: ${kind}\n    modulus_from: ${fields}\n${more}`]);
const read = (text: string) => readStudy(text, {fileName: "s.yaml", readCsv: () => csv()});
const faultsOf = (text: string): string[] => {
  const outcome = read(text);
  return outcome.kind === "faults" ? outcome.faults.map(f => `${f.path}: ${f.problem}`) : [];
};

test("a soil by its CBR: the modulus, its source, and a warning that names relation and range", () => {
  const outcome = read(from("{cbr_percent: 5}"));
  if (outcome.kind === "faults") throw new Error(JSON.stringify(outcome.faults));
  const {material} = outcome.study.treatments[0].section.layers[2];
  expect(material.modulus[0].modulus / 1e6).toBeCloseTo(17.6 * 5 ** 0.64, 6);
  expect(material.relaxationModulus).toBe(material.modulus[0].modulus);
  expect(material).toMatchObject({estimated: true, source: expect.stringContaining("Modulus estimated from CBR 5 %")});
  const [warning] = outcome.warnings.filter(w => w.path === "materials.ground.modulus_from");
  expect(warning.problem).toMatch(/49\.3 MPa, is an estimate from CBR 5 % by E = 17\.6·CBR\^0\.64 MPa/);
  expect(warning.accepted).toContain("CBR 2 to 12 %");
});

test("by k, and outside the range", () => {
  const outcome = read(from("{k_MPa_per_m: 40, relation: plate}"));
  if (outcome.kind === "faults") throw new Error(JSON.stringify(outcome.faults));
  const {modulus} = outcome.study.treatments[0].section.layers[2].material;
  expect(modulus[0].modulus).toBeCloseTo((40e6 * Math.PI * 0.381 * (1 - 0.4 ** 2)) / 2, 3);
  const beyond = read(from("{cbr_percent: 30}"));
  expect(beyond.warnings.map(w => w.problem).join()).toContain("outside the range of the relation, CBR 2 to 12 %");
});

test("what cannot be is told, each once", () => {
  expect(faultsOf(from("{cbr_percent: 5}", "cement-bound", "    expansion_per_C: 1e-5\n"))).toEqual([
    "materials.ground.modulus_from: the modulus of cement-bound does not follow from a test of soil",
  ]);
  expect(faultsOf(from("{cbr_percent: 5}", "soil", "    modulus_MPa: 50\n"))).toEqual([
    "materials.ground.modulus_from: the modulus is given twice, here and by modulus_MPa",
  ]);
  expect(faultsOf(from("{cbr_percent: 5, k_MPa_per_m: 40}"))).toEqual([
    "materials.ground.modulus_from: there are two values to estimate it from",
  ]);
  expect(faultsOf(from("{}"))).toEqual(["materials.ground.modulus_from: it is not said what from"]);
  expect(faultsOf(from("{cbr_percent: 5, relation: plate}"))).toEqual([
    "materials.ground.modulus_from.relation: there is no such relation for the CBR",
  ]);
  expect(faultsOf(from("{cbr_percent: 0}"))).toEqual([expect.stringContaining("modulus_from.cbr_percent")]);
});

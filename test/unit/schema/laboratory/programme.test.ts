import {describe, expect, test} from "vitest";
import {calibrationRequest, levelOf, readProgramme, unknownMaterials} from "../../../../src/schema/laboratory/index.ts";
import {beamTest, INTERLAYER} from "../../laboratory/fixture.ts";

const text = `programme_format: 1
name: Some beams
materials:
  mix: {aggregate_mm: 22}
  soft: {process_zone_mm: 7}
  fine: {aggregate_mm: 8}
`;

/** Problems, each with its place. */
function told(changed: string): string[] {
  const outcome = readProgramme(changed);
  return outcome.kind === "faults" ? outcome.faults.map(f => `${f.path}: ${f.problem}`) : [];
}

function good(changed: string) {
  const outcome = readProgramme(changed);
  if (outcome.kind === "faults") throw new Error(JSON.stringify(outcome.faults));
  return outcome.programme;
}

describe("faults", () => {
  test("a zone that is given twice, or not at all", () => {
    const both = text.replace("{aggregate_mm: 22}", "{aggregate_mm: 22, process_zone_mm: 9}");
    expect(told(both)).toEqual([expect.stringContaining("the process zone is given twice")]);
    const none = text.replace("{process_zone_mm: 7}", "{}");
    expect(told(none)).toEqual([expect.stringContaining("the process zone cannot be told")]);
  });

  test("a field that there is not is named, and so is every other fault", () => {
    const faults = told(`${text}referense: mix\nshear_weight: -1\n`);
    expect(faults).toHaveLength(2);
    expect(faults.join("\n")).toMatch(/referense.*there is no such field here/);
    expect(faults.join("\n")).toMatch(/shear_weight.*outside the range/);
  });

  test("text that is no YAML, and a programme without materials", () => {
    expect(told("name: [").length).toBeGreaterThan(0);
    expect(told("programme_format: 1\nname: a\n").join()).toContain("materials");
  });
});

test("what the engine is to do, in SI: process zones as given or half the aggregate, at least 5 mm", () => {
  const request = calibrationRequest(good(text), [beamTest()], null);
  expect(request.choices).toEqual({
    plane: "stress",
    zoneLength: {mix: 0.011, soft: 0.007, fine: 0.005},
    interlock: 0,
    accuracy: 0.01,
  });
  expect(request).toMatchObject({shearWeight: 1, exponentPrior: null, level: 0.9, relative: {}, seed: 1});
});

test("choices that are told", () => {
  const programme = good(`${text}plane: strain
shear_weight: 0.5
crack_interlock_MPa_per_mm: 2
exponent_prior: {mean: 4, standard_deviation: 1}
confidence_percent: 95
seed: 7
numerical: {accuracy_percent: 4}
`);
  expect(levelOf(programme)).toBe(0.95);
  expect(calibrationRequest(programme, [], null)).toMatchObject({
    choices: {plane: "strain", interlock: 2e9, accuracy: 0.04},
    shearWeight: 0.5,
    exponentPrior: {mean: 4, deviation: 1},
    level: 0.95,
    seed: 7,
  });
});

test("materials of beams that the programme says nothing of", () => {
  const beams = [beamTest({interlayer: INTERLAYER}), beamTest({overlay: {...beamTest().overlay, material: "other"}})];
  expect(unknownMaterials(good(text), beams)).toEqual(["other"]);
});

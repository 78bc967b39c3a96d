import {expect, test} from "vitest";
import {studyVariations} from "../../../src/schema/index.ts";
import {csv, goodText} from "./good-study.ts";

const variations = () => {
  let reads = 0;
  const made = studyVariations(goodText, {
    fileName: "study.yaml",
    readCsv: () => {
      reads++;
      return csv();
    },
  });
  return {...made, reads: () => reads};
};

test("paths go by names or numbers, and say what is there when they miss", () => {
  const {find} = variations();
  expect(find("section.layers.overlay.thickness_mm")).toMatchObject({
    value: 80,
    path: ["section", "layers", 0, "thickness_mm"],
  });
  expect(find("section.layers.2.thickness_mm")).toMatchObject({value: 1500});
  expect(find("treatments.with interlayer.changes.interlayer.thickness_mm")).toMatchObject({value: 10});
  expect(find("section.layers.overlay.thicknes_mm")).toEqual({
    kind: "none",
    problem: "section.layers.0 has no thicknes_mm; it has name, role, material, thickness_mm",
    suggestion: "did you mean thickness_mm?",
  });
  expect(find("section.joint.spacing_m.x")).toMatchObject({kind: "none"});
});

test("a study with values replaced, its record read once; the study itself stays", () => {
  const made = variations();
  const found = made.find("section.layers.overlay.thickness_mm");
  const path = found.kind === "path" ? found.path : [];
  const thickness = (value: unknown) => {
    const outcome = made.vary([{path, value}]);
    return outcome.kind === "study" ? outcome.study.treatments[0].section.layers[0].thickness : outcome.faults;
  };
  expect(thickness(60)).toBe(0.06);
  expect(thickness(100)).toBe(0.1);
  expect(made.base.kind === "study" && made.base.study.treatments[0].section.layers[0].thickness).toBe(0.08);
  expect(thickness(-5)).toMatchObject([{path: "section.layers[0].thickness_mm"}]);
  expect(made.reads()).toBe(1);
});

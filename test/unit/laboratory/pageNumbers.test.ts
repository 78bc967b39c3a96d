/** Numbers behind the page's laboratory charts, against the specimens and beams that they are of. */
import {parse} from "csv-parse/sync";
import {expect, test} from "vitest";
import {calibrate, fatigueResult, type Specimen} from "../../../src/engine/laboratory/index.ts";
import {
  comparisonCsv,
  fatigueCsv,
  frontsCsv,
  historyCsv,
  lawCsv,
  predictionCsv,
  residualCsv,
} from "../../../src/web/views/laboratory/csv.ts";
import {smallRequest} from "./smallProgramme.ts";

const rowsOf = (text: string): Record<string, string>[] => parse(text, {columns: true});

const specimen = (name: string, material: string, strain: number, cycles: number): Specimen => ({
  name,
  material,
  shape: null,
  temperature: 20,
  frequency: 25,
  amplitude: {kind: "strain", strain},
  cycles,
  runOut: false,
  initialModulus: null,
  phase: null,
  history: null,
  setAside: null,
});

test("specimens, lines and lives compared", () => {
  const of = (material: string, factor: number) =>
    [1e-4, 1.5e-4, 2e-4].flatMap((strain, i) =>
      [0.9, 1.2].map((scatter, k) =>
        specimen(`${material} ${i}${k}`, material, strain, Math.round(factor * scatter * 1e6 * (1e-4 / strain) ** 5)),
      ),
    );
  const specimens = [...of("a, b", 1), ...of("c", 2)];
  specimens[0] = {...specimens[0], setAside: '"cracked"'};
  const result = fatigueResult({name: "p", specimens}, 0.9);
  const rows = rowsOf(fatigueCsv(result));
  const points = rows.filter(r => r.specimen !== "line");
  expect(
    points.map(r => [r.material, r.specimen, Number(r["strain amplitude [µε]"]), Number(r.cycles), r["set aside"]]),
  ).toEqual(
    specimens.map(s => [
      s.material,
      s.name,
      s.amplitude.kind === "strain" ? s.amplitude.strain * 1e6 : 0,
      s.cycles,
      s.setAside ?? "",
    ]),
  );
  for (const r of rows.filter(r => r.specimen === "line")) {
    const edges = ["one more specimen from", "line from", "cycles", "line to", "one more specimen to"].map(k =>
      Number(r[k]),
    );
    expect(edges).toEqual(edges.toSorted((p, q) => p - q));
  }
  // Twice the cycles at every strain, but for scatter that is the same and the one specimen left out.
  for (const r of rowsOf(comparisonCsv(result))) {
    expect(Number(r.from)).toBeLessThan(2);
    expect(Number(r.to)).toBeGreaterThan(2);
  }
});

test("a history is in cycles and MPa", () => {
  const history = {cycles: Float64Array.of(100, 200), modulus: Float64Array.of(9e9, 8e9)};
  const one = {...specimen("A", "m", 1e-4, 1000), history: history as unknown as Specimen["history"]};
  expect(historyCsv([one, specimen("B", "m", 1e-4, 1)])).toBe(
    "specimen,cycle,stiffness modulus [MPa]\r\nA,100,9000\r\nA,200,8000\r\n",
  );
});

test("fronts, predictions, residuals and laws of beams", () => {
  const calibration = calibrate(smallRequest());
  const {tests} = calibration.request;
  const fronts = rowsOf(frontsCsv(calibration));
  expect(new Set(fronts.map(r => r.beam))).toEqual(new Set(tests.map(t => t.name))); // the one set aside too
  expect(fronts.filter(r => r.beam === "slipped").every(r => r.source === "read")).toBe(true);
  const deepest = Math.max(...tests.map(t => t.overlay.thickness + (t.interlayer?.thickness ?? 0))) * 1e3; // mm
  for (const r of fronts) {
    expect(Number(r["length [mm]"])).toBeGreaterThanOrEqual(0);
    expect(Number(r["length [mm]"])).toBeLessThanOrEqual(deepest * 1.1); // readings err by some mm
  }
  const used = tests.filter(t => t.setAside === null).map(t => t.name);
  expect(rowsOf(predictionCsv(calibration)).map(r => r.beam)).toEqual(used);
  expect(used).toEqual(expect.arrayContaining(rowsOf(residualCsv(calibration)).map(r => r.beam)));
  for (const r of rowsOf(lawCsv(calibration))) {
    expect(r.material).toBe("dense asphalt");
    expect(Number(r.from)).toBeLessThan(Number(r.to));
  }
});

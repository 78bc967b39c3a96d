import fc from "fast-check";
import {expect, test} from "vitest";
import {
  type Cell,
  formatLaboratoryFaults,
  formatUnderstanding,
  openHistory,
  type RawFile,
  readBeamTables,
  readFatigueTable,
} from "../../../../src/schema/laboratory/index.ts";
import {beamHeader, beamRow, fatigueHeader, fatigueText, readingsText, workbookFile} from "./tables.ts";

/** Cells of a CSV text without quotation marks. */
const cellsOf = (text: string): string[][] =>
  text
    .trimEnd()
    .split("\n")
    .map(line => line.split(","));

const anyCell: fc.Arbitrary<Cell> = fc.oneof(
  fc.string(),
  fc.double(),
  fc.boolean(),
  fc.constant(null),
  fc.constant({error: "#REF!"}),
  fc.date({noInvalidDate: false}),
  fc.constantFrom(
    ">",
    ">3e6",
    "1,234",
    "1.234",
    "-",
    "#N/A",
    "1e400",
    "through",
    "__proto__",
    "constructor",
    "strain [µε]",
    "\u0000",
    "K1",
  ),
);

const damage = fc.array(fc.record({row: fc.nat(8), column: fc.nat(30), cell: anyCell}), {maxLength: 6});

function damaged(text: string, changes: readonly {row: number; column: number; cell: Cell}[], width: number): Cell[][] {
  const rows: Cell[][] = cellsOf(text);
  for (const {row, column, cell} of changes) {
    while (rows.length <= row) rows.push([]);
    rows[row][column % width] = cell;
  }
  return rows.map(row => Array.from(row, cell => cell ?? null));
}

test("any damage to a table of specimens: every row loads or is refused, nothing is out of range", () => {
  fc.assert(
    fc.property(damage, changes => {
      const {programme, refused, faults, understanding} = readFatigueTable(
        workbookFile({S: damaged(fatigueText, changes, fatigueHeader.split(",").length + 1)}),
        "p",
      );
      expect(programme.specimens.length + refused.length).toBe(understanding?.rows ?? 0);
      for (const {reasons} of refused) expect(reasons.length).toBeGreaterThan(0);
      if (refused.length > 0) expect(faults.length).toBeGreaterThan(0);
      for (const {amplitude, cycles, temperature} of programme.specimens) {
        expect(amplitude.kind === "strain" ? amplitude.strain : amplitude.displacement).toBeGreaterThan(0);
        if (cycles !== null) expect(Number.isInteger(cycles) && cycles >= 1 && cycles <= 1e10).toBe(true);
        if (temperature !== null) expect(Math.abs(temperature)).toBeLessThanOrEqual(80);
      }
      formatLaboratoryFaults(faults);
      if (understanding) formatUnderstanding(understanding);
    }),
    {numRuns: 1500, seed: 22},
  );
});

test("any damage to tables of beams and readings: every beam loads or is refused", () => {
  fc.assert(
    fc.property(damage, damage, (ofBeams, ofReadings) => {
      const {beams, refused, faults} = readBeamTables([
        workbookFile({
          Beams: damaged(`${beamHeader}\n${beamRow}\n`, ofBeams, beamHeader.split(",").length + 1),
          Readings: damaged(readingsText.replaceAll("W2", "W1 "), ofReadings, 7),
        }),
      ]);
      if (beams.length === 0 || refused.length > 0) expect(faults.length).toBeGreaterThan(0);
      for (const {readings, overlay} of beams) {
        expect(overlay.thickness).toBeGreaterThan(0);
        const passes = readings.map(reading => reading.passes);
        expect(passes.every((value, i) => i === 0 || value > passes[i - 1])).toBe(true);
      }
      formatLaboratoryFaults(faults);
    }),
    {numRuns: 600, seed: 23},
  );
});

test("any cells at all", () => {
  const rows = fc.array(fc.array(anyCell, {maxLength: 8}), {maxLength: 6});
  fc.assert(
    fc.property(rows, rows, (first, second) => {
      const file: RawFile = workbookFile({A: first, B: second});
      readFatigueTable(file, "p");
      readBeamTables([file]);
      const reader = openHistory(file, []);
      for (const row of reader?.rows ?? []) reader?.read(row);
    }),
    {numRuns: 500, seed: 24},
  );
});

test("a long table of faults takes no longer than its length", () => {
  const rows = Array.from({length: 20_000}, () => ["same", "m", 20, 25, -1, 0, "?"]);
  const started = performance.now();
  const {refused} = readFatigueTable(workbookFile({S: [fatigueHeader.split(","), ...rows]}), "p");
  expect(refused).toHaveLength(20_000);
  expect(performance.now() - started).toBeLessThan(20_000); // a square of it would take minutes; usual: a second
});

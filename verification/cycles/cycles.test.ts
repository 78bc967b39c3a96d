import {readFileSync} from "node:fs";
import {parse} from "csv-parse/sync";
import {expect, test} from "vitest";
import {rainflow, rainflowDamage, repeatingRainflow} from "../../src/engine/crack/index.ts";
import {verificationTable} from "../table.ts";

const {compare, heading, page} = verificationTable(
  "cycles",
  "Counting cycles, and the record that is shipped",
  "Counts are exact: ranges and means of the examples are small whole or half numbers.",
);

const EXAMPLE = Float64Array.of(-2, 1, -3, 5, -1, 3, -4, 4, -2);

interface Cycle {
  readonly range: number;
  readonly mean: number;
  readonly count: number;
}

function counted(count: typeof rainflow): Cycle[] {
  const cycles: Cycle[] = [];
  count(EXAMPLE, (range, mean, number) => cycles.push({range, mean, count: number}));
  return cycles;
}

function compareCycles(source: string, expected: readonly Cycle[], computed: readonly Cycle[]): void {
  expect(computed).toHaveLength(expected.length);
  expected.forEach((cycle, i) => {
    for (const part of ["range", "mean", "count"] as const) {
      compare({
        name: `cycle ${i + 1}: ${part}`,
        source,
        standing: "memory",
        unit: "–",
        expected: cycle[part],
        computed: computed[i][part],
        tolerance: 0,
        absolute: true,
      });
    }
  });
}

test("example of the standard, a history that happens once", () => {
  heading("ASTM E1049-85, rainflow counting: −2, 1, −3, 5, −1, 3, −4, 4, −2");
  const expected = [
    {range: 3, mean: -0.5, count: 0.5},
    {range: 4, mean: -1, count: 0.5},
    {range: 4, mean: 1, count: 1},
    {range: 8, mean: 1, count: 0.5},
    {range: 9, mean: 0.5, count: 0.5},
    {range: 8, mean: 0, count: 0.5},
    {range: 6, mean: 1, count: 0.5},
  ];
  compareCycles("ASTM E1049-85, 5.4.4 and Fig. 6, counted again by hand", expected, counted(rainflow));
  compare({
    name: "Σ count·range⁴",
    source: "sum over the counts above: (3⁴ + 4⁴ + 2·4⁴ + 2·8⁴ + 9⁴ + 6⁴)/2",
    standing: "derived",
    unit: "–",
    expected: (81 + 256 + 512 + 8192 + 6561 + 1296) / 2,
    computed: rainflowDamage(EXAMPLE, EXAMPLE.length, 4, new Float64Array(EXAMPLE.length)),
    tolerance: 1e-14,
  });
});

test("example of the standard, a history that repeats", () => {
  heading("ASTM E1049-85, the same history repeating: whole cycles only");
  const expected = [
    {range: 4, mean: 1, count: 1}, // E-F
    {range: 3, mean: -0.5, count: 1}, // A-B
    {range: 7, mean: 0.5, count: 1}, // H-C
    {range: 9, mean: 0.5, count: 1}, // D-G
  ];
  compareCycles("ASTM E1049-85, 5.4.5 and Fig. 7, counted again by hand", expected, counted(repeatingRainflow));
});

test("the record", () => {
  heading("examples/climate/greensboro_tmy3.csv");
  const file = new URL("../../examples/climate/greensboro_tmy3.csv", import.meta.url);
  const rows: Record<string, string>[] = parse(readFileSync(file), {columns: true});
  const air = rows.map(row => Number(row.tair_C));
  const sum = (values: readonly number[]) => values.reduce((total, x) => total + x, 0);
  const days = Array.from({length: rows.length / 24}, (_, d) => air.slice(24 * d, 24 * (d + 1)));
  const facts = [
    ["hours", "h", 8760, rows.length, 0],
    ["mean air temperature", "°C", 14.4218, sum(air) / air.length, 5e-5],
    ["lowest air temperature", "°C", -16.7, Math.min(...air), 0],
    ["highest air temperature", "°C", 35.6, Math.max(...air), 0],
    ["global horizontal irradiation", "kWh/m²", 1566.2, sum(rows.map(row => Number(row.ghi))) / 1000, 0.05],
    [
      "mean daily range of air temperature",
      "K",
      10.705,
      sum(days.map(day => Math.max(...day) - Math.min(...day))) / days.length,
      5e-4,
    ],
  ] as const;
  for (const [name, unit, expected, computed, tolerance] of facts) {
    const source = "the file of NREL TMY3, station 723170, added up by another program";
    compare({name, source, standing: "derived", unit, expected, computed, tolerance, absolute: true});
  }
});

page();

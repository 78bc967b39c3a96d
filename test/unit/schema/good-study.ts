import {type ReadOutcome, readStudy} from "../../../src/schema/index.ts";

/** A small correct study, as text with known lines, and ways to spoil it. */
export const goodText = `format: 1
name: Test road
materials:
  asphalt:
    kind: asphalt
    modulus_by_temperature:
      - {temperature_C: -20, modulus_MPa: 20000}
      - {temperature_C: 20, modulus_MPa: 3500}
      - {temperature_C: 60, modulus_MPa: 250}
    relaxation_modulus_MPa: 700
    poisson: 0.35
    expansion_per_C: 25e-6
    crack_growth: {A_mm_per_cycle: 1e-15, n: 4, process_zone_mm: 10}
    fatigue_line: {strain_at_million_microstrain: 100, exponent: 5}
    source: invented
  soft:
    kind: interlayer
    modulus_MPa: 400
    relaxation_modulus_MPa: 10
    poisson: 0.4
    expansion_per_C: 25e-6
    crack_growth: {A_mm_per_cycle: 3e-18, n: 4, aggregate_mm: 8}
    source: invented
  cemented:
    kind: cement-bound
    modulus_MPa: 9000
    poisson: 0.2
    expansion_per_C: 10e-6
  ground:
    kind: soil
    modulus_MPa: 90
    poisson: 0.4
section:
  layers:
    - {name: overlay, role: overlay, material: asphalt, thickness_mm: 80}
    - {name: base, role: jointed, material: cemented, thickness_mm: 200}
    - {name: ground, role: foundation, material: ground, thickness_mm: 1500}
  joint:
    spacing_m: 4.5
    width_mm: 0.1
    load_transfer: {efficiency_percent: 40}
  base: rigid
  slab_friction: bonded
treatments:
  - name: plain
  - name: with interlayer
    changes:
      interlayer: {material: soft, thickness_mm: 10, within_overlay: true}
traffic:
  standard_axles: {passes_per_year: 60000, growth_percent: 2}
  load_classes:
    - name: gear
      wheel_load_kN: 200
      pressure_MPa: 1.4
      wheels: [{x_mm: 0, y_mm: 0}, {x_mm: 0, y_mm: 1400}]
      passes_per_year: 1000
      wander_mm: 770
climate:
  hourly:
    file: year.csv
    columns: {temperature: t, timestamp: when}
    temperature_is: air
    label: made up
analysis_period_years: 20
`;

/** The good text with one piece replaced. */
export function spoiled(...replacements: readonly (readonly [from: string, to: string])[]): string {
  let text = goodText;
  for (const [from, to] of replacements) {
    if (!text.includes(from)) throw new Error(`not in the good study: ${from}`);
    text = text.replace(from, () => to);
  }
  return text;
}

/** A line number of a text, from 1. */
export function lineOf(text: string, piece: string): number {
  return text.slice(0, text.indexOf(piece)).split("\n").length;
}

/** Temperature of an hour of the made-up year [°C]: seasons of ±10 K and days of ±5 K about 12 °C. */
export function madeUpTemperature(hour: number): number {
  const year = -10 * Math.cos((2 * Math.PI * hour) / 8760);
  const day = -5 * Math.cos((2 * Math.PI * ((hour % 24) - 3)) / 24);
  return 12 + year + day;
}

/** A record as CSV text; `change` may alter or drop (null) a row. */
export function csv(
  hours = 8760,
  change: (row: [when: string, t: string], hour: number) => readonly string[] | null = row => row,
): string {
  const rows = ["when,t"];
  for (let hour = 0; hour < hours; hour++) {
    const when = new Date(Date.UTC(2023, 0, 1, hour)).toISOString().slice(0, 16).replace("T", " ");
    const row = change([when, madeUpTemperature(hour).toFixed(2)], hour);
    if (row) rows.push(row.join(","));
  }
  return `${rows.join("\n")}\n`;
}

const year = csv();

export function read(text: string, record: string | {readonly problem: string} = year): ReadOutcome {
  return readStudy(text, {fileName: "study.yaml", readCsv: () => record});
}

/** The study, or a test failure that shows the faults. */
export function study(text: string, record?: string) {
  const outcome = read(text, record);
  if (outcome.kind === "faults") throw new Error(JSON.stringify(outcome.faults, null, 1));
  return outcome;
}

/** The faults, or a test failure. */
export function faults(text: string, record?: string | {readonly problem: string}) {
  const outcome = read(text, record);
  if (outcome.kind !== "faults") throw new Error("no fault was found");
  return outcome.faults;
}

/** A study that is solved in a second or two, with everything that the views show; all values invented. */

import {MATERIALS} from "./studies.ts";

/** The study's text and the record that it names. */
export const smallFiles = (): readonly {readonly name: string; readonly text: string}[] => [
  {name: "small.yaml", text: SMALL},
  {name: "days.csv", text: days()},
];

/** Constant moduli, one temperature of traffic, the coarsest mesh: few sections are solved. */
const SMALL = `format: 1
name: Small road
materials:
${MATERIALS}
section:
  layers:
    - {name: overlay, role: overlay, material: asphalt, thickness_mm: 60}
    - {name: base, role: jointed, material: cracked base, thickness_mm: 200}
    - {name: ground, role: foundation, material: soil, thickness_mm: 1500}
  joint: {spacing_m: 4.5, width_mm: 0.3, load_transfer: {efficiency_percent: 50}}
  base: rigid
  slab_friction: bonded
treatments:
  - name: Plain overlay
  - name: With interlayer
    changes:
      interlayer: {material: soft mix, thickness_mm: 10, within_overlay: true}
traffic:
  standard_axles: {passes_per_year: 600000, growth_percent: 2}
climate:
  daily:
    file: days.csv
    columns: {date: date, minimum: low, maximum: high}
    date_format: YYYY-MM-DD
    record: typical_year
    temperature_is: air
    label: invented
temperature_bins:
  - {temperature_C: 15, share_percent: 100}
analysis_period_years: 20
numerical: {accuracy_percent: 5}
costs:
  currency: EUR
  price_date: invented
  discount_percent: 3
  analysis_period_years: 40
  longest_life_years: 30
  materials:
    asphalt: {price_per_tonne: 85}
    soft mix: {price_per_tonne: 170}
  operations: {laying_per_m2: 1, planing_per_m2: 1}
uncertainty:
  standard_error_percent: 20
  most_samples: 64
  most_solutions: 8
  inputs:
    - {scale: passes, lognormal: {cv_percent: 20}}
    - {field: section.layers.overlay.thickness_mm, normal: {deviation: 5}}
`;

/** A year of days, coldest in the middle of January. */
function days(): string {
  const rows = Array.from({length: 365}, (_, k) => {
    const mean = 12 - 12 * Math.cos((2 * Math.PI * (k - 15)) / 365); // [°C]
    const date = new Date(Date.UTC(2025, 0, 1 + k)).toISOString().slice(0, 10);
    return `${date},${(mean - 5).toFixed(1)},${(mean + 6).toFixed(1)}`;
  });
  return ["date,low,high", ...rows, ""].join("\n");
}

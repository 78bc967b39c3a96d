import type {Workbook} from "./workbook.ts";

/** A road to begin with; all values invented, of usual size. */
export function blankWorkbook(): Workbook {
  return {name: "my-road.yaml", text: BLANK, files: {}};
}

const BLANK = `format: 1
name: New study
materials:
  asphalt:
    kind: asphalt
    modulus_by_temperature: # at wheel speed
      - {temperature_C: -20, modulus_MPa: 20000}
      - {temperature_C: 20, modulus_MPa: 3500}
      - {temperature_C: 60, modulus_MPa: 250}
    relaxation_modulus_MPa: 700 # when the load lasts hours
    poisson: 0.35
    expansion_per_C: 25e-6
    crack_growth: {A_mm_per_cycle: 7.1e-16, n: 4, process_zone_mm: 10}
    fatigue_line: {strain_at_million_microstrain: 100, exponent: 5}
    source: invented
  soft mix:
    kind: interlayer
    modulus_MPa: 400
    relaxation_modulus_MPa: 10
    poisson: 0.4
    expansion_per_C: 25e-6
    crack_growth: {A_mm_per_cycle: 2.4e-18, n: 4, process_zone_mm: 5}
    source: invented
  cracked base: {kind: cement-bound, modulus_MPa: 9000, poisson: 0.2, expansion_per_C: 10e-6, source: invented}
  soil: {kind: soil, modulus_MPa: 90, poisson: 0.4, source: invented}
section:
  layers:
    - {name: overlay, role: overlay, material: asphalt, thickness_mm: 80}
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
  standard_axles: {passes_per_year: 60000, growth_percent: 2}
temperature_bins:
  - {temperature_C: 5, share_percent: 35}
  - {temperature_C: 18, share_percent: 40}
  - {temperature_C: 32, share_percent: 25}
analysis_period_years: 20
`;

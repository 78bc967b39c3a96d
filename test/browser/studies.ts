/** Studies for tests of the page that are solved in a second or two: no record, few treatments, one modulus. All invented. */

/** Entries of `materials` that other studies for tests share. */
export const MATERIALS = `  asphalt:
    kind: asphalt
    modulus_MPa: 3500
    relaxation_modulus_MPa: 700
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
  soil: {kind: soil, modulus_MPa: 90, poisson: 0.4, source: invented}`;

/** One treatment; comments in every kind of place. */
export const QUICK = `# A road for tests of the page. Every number is invented.
format: 1
name: Quick road
materials:
  asphalt:
    kind: asphalt
    modulus_MPa: 3500 # at 20 °C
    relaxation_modulus_MPa: 700
    poisson: 0.35
    expansion_per_C: 25e-6
    crack_growth: {A_mm_per_cycle: 7.1e-16, n: 4, process_zone_mm: 10}
    fatigue_line: {strain_at_million_microstrain: 100, exponent: 5}
    source: invented
  cracked base: {kind: cement-bound, modulus_MPa: 9000, poisson: 0.2, expansion_per_C: 10e-6, source: invented}
  soil: {kind: soil, modulus_MPa: 90, poisson: 0.4, source: invented}

# From the surface down.
section:
  layers:
    - {name: overlay, role: overlay, material: asphalt, thickness_mm: 80} # as laid
    - {name: base, role: jointed, material: cracked base, thickness_mm: 200}
    - {name: ground, role: foundation, material: soil, thickness_mm: 1500}
  joint: {spacing_m: 4.5, width_mm: 0.3, load_transfer: {efficiency_percent: 50}}
  base: rigid
  slab_friction: bonded
treatments:
  - name: Plain overlay
traffic:
  standard_axles: {passes_per_year: 2000000, growth_percent: 2} # one lane
temperature_bins:
  - {temperature_C: 20, share_percent: 100}
analysis_period_years: 20
numerical: {accuracy_percent: 5}
`;

/** The same by another name, to be told apart. */
export const OTHER = QUICK.replace("Quick road", "Other road").replace(
  "passes_per_year: 2000000",
  "passes_per_year: 3000000",
);

/** A thicker overlay beside it. */
export const TWO = QUICK.replace(
  "  - name: Plain overlay\n",
  "  - name: Plain overlay\n  - name: Thicker overlay\n    changes: {overlay_thickness_mm: 95}\n",
);

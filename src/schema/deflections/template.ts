/** A bowl document to be filled in. */
export function bowlTemplate(): string {
  return `# One test with a falling weight: moduli are found by \`seamwright bowl\`.
bowl_format: 1
name: My road, first point
# source: who measured, when, with what

plate: {diameter_mm: 300}
offsets_mm: [0, 200, 300, 450, 600, 900, 1200, 1500, 1800] # sensors from the plate's centre

# Peak values. Several drops at one place tell the repeatability; different loads tell whether the section is linear.
drops:
  - {load_kN: 50, deflections_um: [400, 350, 310, 260, 215, 150, 110, 85, 70]}

# sensors: {accuracy_percent: 2, accuracy_um: 2} # standard deviation of a reading; the larger of the two counts

# From the surface down. A modulus is known (modulus_MPa) or to be found within a range. Thicknesses must be those at the
# place of the test: an error of 10 % in a bound layer's is one of 30 % in its modulus.
layers:
  - {name: asphalt, thickness_mm: 150, poisson: 0.35, modulus_range_MPa: {low: 500, high: 20000}, temperature_C: 20}
  - {name: granular base, thickness_mm: 300, poisson: 0.35, modulus_range_MPa: {low: 50, high: 2000}}
  - {name: soil, poisson: 0.4, modulus_range_MPa: {low: 10, high: 500}}

# base: {rigid_at_mm: 4000} # rock, or a water table that acts like it; left out: half-space
# confidence_percent: 90 # of all intervals; 90 or 95
`;
}

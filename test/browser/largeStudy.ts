/** A study of many treatments and layers; all values invented. */
import {MATERIALS} from "./studies.ts";

const TREATMENTS = 50;

/** One wearing and two binder courses, two parts of a jointed layer, five of the foundation: ten layers. */
const LAYERS = [
  {name: "wearing course", role: "overlay", material: "asphalt", thickness: 40},
  {name: "binder course", role: "overlay", material: "asphalt", thickness: 50},
  {name: "levelling course", role: "overlay", material: "asphalt", thickness: 30},
  {name: "old base", role: "jointed", material: "cracked base", thickness: 150},
  {name: "older base", role: "jointed", material: "cracked base", thickness: 150},
  {name: "subbase", role: "foundation", material: "gravel", thickness: 150},
  {name: "frost blanket", role: "foundation", material: "gravel", thickness: 200},
  {name: "capping", role: "foundation", material: "gravel", thickness: 250},
  {name: "made ground", role: "foundation", material: "soil", thickness: 500},
  {name: "ground", role: "foundation", material: "soil", thickness: 1500},
] as const;

export const LARGE = {treatments: TREATMENTS, layers: LAYERS.length} as const;

/** Every treatment has another thickness, every other one an interlayer. */
function treatment(k: number): string {
  if (k === 0) return "  - name: Plain overlay";
  const interlayer = k % 2 === 1 ? "{material: soft mix, thickness_mm: 10, within_overlay: true}" : null;
  return [
    `  - name: Treatment ${k}`,
    "    changes:",
    `      layers: [{name: wearing course, thickness_mm: ${40 + k}}]`,
    ...(interlayer ? [`      interlayer: ${interlayer}`] : []),
  ].join("\n");
}

export function largeText(): string {
  const layers = LAYERS.map(
    ({name, role, material, thickness}) =>
      `    - {name: ${name}, role: ${role}, material: ${material}, thickness_mm: ${thickness}}`,
  );
  return `format: 1
name: Fifty treatments
materials:
${MATERIALS}
  gravel: {kind: granular, modulus_MPa: 200, poisson: 0.35, source: invented}
section:
  layers:
${layers.join("\n")}
  joint: {spacing_m: 4.5, width_mm: 0.3, load_transfer: {efficiency_percent: 50}}
  base: rigid
  slab_friction: bonded
treatments:
${Array.from({length: TREATMENTS}, (_, k) => treatment(k)).join("\n")}
traffic:
  standard_axles: {passes_per_year: 600000, growth_percent: 2}
temperature_bins:
  - {temperature_C: 15, share_percent: 100}
analysis_period_years: 20
numerical: {accuracy_percent: 5}
`;
}

/** Spoilings of the good study in what is said of bonds, reinforcement and deflection tests. */
import type {FaultCase} from "./fault-cases.ts";

const LAYER = {
  overlay: "{name: overlay, role: overlay, material: asphalt, thickness_mm: 80}",
  base: "{name: base, role: jointed, material: cemented, thickness_mm: 200}",
  ground: "{name: ground, role: foundation, material: ground, thickness_mm: 1500}",
};

const bonded = (name: keyof typeof LAYER, bond: string) => LAYER[name].replace("}", `, bond_below: ${bond}}`);

const INTERLAYER = "      interlayer: {material: soft, thickness_mm: 10, within_overlay: true}";
const GRID = "name: grid, stiffness_kN_per_m: 4000, bond_length_mm: 50";
const reinforced = (fields: string) => `${INTERLAYER}\n      reinforcement: {${GRID}${fields}}`;
const AT = "treatments[1].changes.reinforcement";

const EFFICIENCY = "{efficiency_percent: 40}";
const PLACES =
  "plate_diameter_mm: 300, load_kN: 50, plate_centre_mm: 160, loaded_sensor_mm: 160, unloaded_sensor_mm: 150";
const POSITIONS = "approach: {loaded_um: 300, unloaded_um: 150}, leave: {loaded_um: 310, unloaded_um: 170}";
/** On several lines, as the quotation of a fault is cut to some length. */
const tested = (fields: string) =>
  `{deflection_test: {${fields.replace(/, (?=plate_diameter|approach|leave)/g, ",\n        ")}}}`;
const TEST = "section.joint.load_transfer.deflection_test";

/** A good deflection test, in place of the efficiency. */
export const goodTest = [EFFICIENCY, tested(`tested_on: jointed_layer, ${PLACES}, ${POSITIONS}`)] as const;

export const conditionFaultCases: readonly FaultCase[] = [
  {
    what: "bond below the lowest layer",
    from: LAYER.ground,
    to: bonded("ground", "none"),
    path: "section.layers[2].bond_below",
    says: /no layer below/,
  },
  {
    what: "bond below the jointed layer",
    from: LAYER.base,
    to: bonded("base", "none"),
    path: "section.layers[1].bond_below",
    says: /slab_friction/,
  },
  {
    what: "misspelt bond",
    from: LAYER.overlay,
    to: bonded("overlay", "ful"),
    path: "section.layers[0].bond_below",
    says: /not one of/,
  },
  {
    what: "negative bond",
    from: LAYER.overlay,
    to: bonded("overlay", "{stiffness_MPa_per_mm: -1}"),
    path: "section.layers[0].bond_below.stiffness_MPa_per_mm",
  },
  {
    what: "bond of a treatment below the lowest layer",
    from: INTERLAYER,
    to: `${INTERLAYER}\n      layers: [{name: ground, bond_below: none}]`,
    path: "treatments[1].changes.layers[0].bond_below",
    says: /no layer below/,
    at: "bond_below",
  },
  {
    what: "reinforcement at no place",
    from: INTERLAYER,
    to: reinforced(""),
    path: AT,
    says: /not said where/,
    at: "reinforcement",
  },
  {
    what: "reinforcement at two places",
    from: INTERLAYER,
    to: reinforced(", depth_mm: 70, position: below overlay"),
    path: AT,
    says: /twice/,
    at: "reinforcement",
  },
  {
    what: "reinforcement below the crack path",
    from: INTERLAYER,
    to: reinforced(", depth_mm: 90"),
    path: `${AT}.depth_mm`,
    says: /no crack grows/,
    at: "reinforcement",
  },
  {
    what: "reinforcement above an interlayer that is not there",
    from: INTERLAYER,
    to: `      reinforcement: {${GRID}, position: above interlayer}`,
    path: `${AT}.position`,
    says: /no interlayer/,
  },
  {
    what: "reinforcement higher than the overlay",
    from: INTERLAYER,
    to: reinforced(", position: below overlay, height_mm: 90"),
    path: `${AT}.height_mm`,
    says: /spread/,
    at: "reinforcement",
  },
  {
    what: "load transfer by efficiency and test",
    from: EFFICIENCY,
    to: tested(`tested_on: jointed_layer, ${PLACES}, ${POSITIONS}`).replace("{", "{efficiency_percent: 40, "),
    path: "section.joint.load_transfer",
    says: /twice/,
    at: "deflection_test",
  },
  {
    what: "test without deflections",
    from: EFFICIENCY,
    to: tested(`tested_on: jointed_layer, ${PLACES}`),
    path: TEST,
    says: /no deflections/,
    at: "deflection_test",
  },
  {
    what: "unloaded side deflects more",
    from: EFFICIENCY,
    to: tested(`tested_on: jointed_layer, ${PLACES}, approach: {loaded_um: 300, unloaded_um: 310}`),
    path: `${TEST}.approach.unloaded_um`,
    says: /as if there were no joint/,
    at: "approach: {",
  },
  {
    what: "plate on the joint",
    from: EFFICIENCY,
    to: tested(`tested_on: jointed_layer, ${PLACES.replace("centre_mm: 160", "centre_mm: 100")}, ${POSITIONS}`),
    path: `${TEST}.plate_centre_mm`,
    says: /stands on the joint/,
    at: "plate_centre_mm",
  },
  {
    what: "sensor over the joint",
    from: `    width_mm: 0.1\n    load_transfer: ${EFFICIENCY}`,
    to: `    width_mm: 20\n    load_transfer: ${tested(`tested_on: jointed_layer, ${PLACES.replace("unloaded_sensor_mm: 150", "unloaded_sensor_mm: 5")}, ${POSITIONS}`)}`,
    path: `${TEST}.unloaded_sensor_mm`,
    says: /open joint/,
    at: "unloaded_sensor_mm",
  },
  {
    what: "temperature of the surface tested not told",
    from: EFFICIENCY,
    to: tested(`tested_on: existing_surface, ${PLACES}, ${POSITIONS}`),
    path: `${TEST}.temperature_C`,
    says: /asphalt depends/,
    at: "deflection_test",
  },
  {
    what: "temperature of the test outside the table",
    from: EFFICIENCY,
    to: tested(`tested_on: existing_surface, temperature_C: 70, ${PLACES}, ${POSITIONS}`),
    path: `${TEST}.temperature_C`,
    says: /outside the table/,
    at: "deflection_test",
  },
  {
    what: "existing surface of a treatment",
    from: INTERLAYER,
    to: `${INTERLAYER}\n      joint: {load_transfer: ${tested(`tested_on: existing_surface, temperature_C: 20, ${PLACES}, ${POSITIONS}`)}}`,
    path: "treatments[1].changes.joint.load_transfer.deflection_test.tested_on",
    says: /no existing surface/,
    at: "tested_on",
  },
];

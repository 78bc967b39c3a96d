import type {Joint, Layer, LayerRole, Material, Section} from "../../../src/engine/section/index.ts";

export function material(name: string, modulus: number, poisson: number): Material {
  return {
    name,
    modulus: [{temperature: 20, modulus}],
    relaxationModulus: modulus / 5,
    seasonalRelaxationModulus: modulus / 5,
    masterCurve: null,
    poisson,
    expansion: 1e-5,
    conductivity: 1.5,
    density: 2300,
    heatCapacity: 900,
    growth: {coefficient: 1e8, exponent: 4, zoneLength: 0.01, referenceModulus: null, stiffnessExponent: 0},
    fatigue: null,
    source: "made up for the tests",
  };
}

export function layer(role: LayerRole, thickness: number, modulus: number, poisson = 0.3): Layer {
  return {name: role, role, material: material(role, modulus, poisson), thickness};
}

export const JOINT: Joint = {
  spacing: 4,
  width: 0,
  unbondedStrip: 0,
  transfer: {kind: "spring", stiffness: 0},
  facesTouch: false,
  cutDepth: 0.3,
};

/** 80 mm of asphalt, an interlayer of 10 mm, a cement-bound base of 200 mm, 1.2 m of soil on a rigid base. */
export function section(change: Partial<Section> = {}, joint: Partial<Joint> = {}): Section {
  return {
    layers: [
      layer("overlay", 0.08, 3.5e9, 0.35),
      layer("interlayer", 0.01, 4e8, 0.4),
      layer("jointed", 0.2, 9e9, 0.2),
      layer("foundation", 1.2, 9e7, 0.4),
    ],
    joint: {...JOINT, ...joint},
    slabFriction: Infinity,
    base: {kind: "rigid"},
    crackInterlock: 0,
    shearWeight: 1,
    ...change,
  };
}

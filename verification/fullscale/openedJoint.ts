/** An overlay over a joint that opens and closes by a given width: tip strain against crack length, and cycles to grow. */
import {equivalentIntensity} from "../../src/engine/crack/index.ts";
import {probe} from "../../src/engine/life/index.ts";
import type {Layer, LayerRole, Material, Section} from "../../src/engine/section/index.ts";

const ASPHALT_POISSON = 0.35;
/** Only moves the joint: everything is told by its opening. */
const SLAB_EXPANSION = 10e-6; // [1/K]

/** What the test does not tell of the overlay, or only roughly. */
export interface Choice {
  readonly thickness: number; // [m]
  readonly modulus: number; // [Pa]
  readonly zoneLength: number; // d [m]
  readonly unbondedStrip: number; // on either side of the joint [m]
}

interface Elastic {
  readonly thickness: number; // [m]
  readonly modulus: number; // [Pa]
  readonly poisson: number;
}

/** @param zoneLength null: no crack runs here */
function layer(role: LayerRole, {thickness, modulus, poisson}: Elastic, zoneLength: number | null): Layer {
  const material: Material = {
    name: role,
    modulus: [{temperature: 0, modulus}],
    relaxationModulus: modulus,
    seasonalRelaxationModulus: modulus,
    masterCurve: null,
    poisson,
    expansion: role === "jointed" ? SLAB_EXPANSION : 0,
    conductivity: 1.4,
    density: 2350,
    heatCapacity: 920,
    // Of the law only the process zone is used here.
    growth:
      zoneLength === null
        ? null
        : {coefficient: 0, exponent: 1, zoneLength, referenceModulus: null, stiffnessExponent: 0},
    fatigue: null,
    source: "see docs/verification/full-scale.md",
  };
  return {name: role, role, thickness, material};
}

const SLAB: Elastic = {thickness: 0.305, modulus: 28e9, poisson: 0.18};
const FOUNDATION: Elastic = {thickness: 2, modulus: 1e8, poisson: 0.4};

/** Asphalt on slabs of 305 mm that slide without friction: they are pushed and pulled. */
function section({thickness, modulus, zoneLength, unbondedStrip}: Choice): Section {
  return {
    layers: [
      layer("overlay", {thickness, modulus, poisson: ASPHALT_POISSON}, zoneLength),
      layer("jointed", SLAB, null),
      layer("foundation", FOUNDATION, null),
    ],
    joint: {
      spacing: 4.572, // 15 ft
      width: 3e-3,
      unbondedStrip,
      transfer: {kind: "spring", stiffness: 0},
      facesTouch: false,
      cutDepth: 0,
    },
    slabFriction: 0,
    base: {kind: "rigid"},
    crackInterlock: 0,
    shearWeight: 1,
  };
}

/** Tip strain by unit of joint opening at a crack's lengths from the underside. */
export interface OpenedJoint {
  readonly choice: Choice;
  readonly lengths: readonly number[]; // ascending from 0 [m]
  readonly strain: readonly number[]; // [1/m]
}

export function openedJoint(choice: Choice, lengths: readonly number[]): OpenedJoint {
  const own = section(choice);
  const strain = lengths.map(underside => {
    const {thermal} = probe(own, {
      moduli: own.layers.map(l => l.material.relaxationModulus),
      wheel: {load: 1e3, length: 0.1, width: 0.1}, // none is set down
      x: [],
      y: [],
      cracks: {interlayer: 0, underside, surface: 0},
      contact: "open",
      transfer: null,
      accuracy: 0.02,
    });
    const {tips, jointOpening} = thermal.find(t => t.cause === "slab mean")!;
    return tips.underside!.strain / jointOpening; // both are changed in sign by warming
  });
  return {choice, lengths, strain};
}

/** Stress intensity that a tip strain stands for, in the unit of the growth laws of the literature [MPa√mm]. */
export function intensity(strain: number, {modulus, zoneLength}: Choice): number {
  return equivalentIntensity(strain, modulus / (1 - ASPHALT_POISSON ** 2), zoneLength) / (1e6 * Math.sqrt(1e-3));
}

/** dc/dN = A·ΔK^n [mm, MPa√mm]. */
export interface Paris {
  readonly logCoefficient: number; // lg A
  readonly exponent: number;
}

/** Cycles in which the crack grows through all lengths: strain between them as its logarithm goes, straight. */
export function cyclesToGrow({choice, lengths, strain}: OpenedJoint, opening: number, law: Paris): number {
  const PARTS = 50;
  let cycles = 0;
  for (let k = 0; k + 1 < lengths.length; k++) {
    for (let i = 0; i < PARTS; i++) {
      const t = (i + 0.5) / PARTS;
      const own = Math.exp((1 - t) * Math.log(strain[k]) + t * Math.log(strain[k + 1]));
      const rate = 10 ** law.logCoefficient * intensity(own * opening, choice) ** law.exponent; // [mm]
      cycles += (1e3 * (lengths[k + 1] - lengths[k])) / PARTS / rate;
    }
  }
  return cycles;
}

/** @source Medani & Molenaar 2000, from memory; S the mix's stiffness [MPa] */
export function medani(exponent: number, stiffness: number): Paris {
  const n = exponent;
  return {logCoefficient: -2.89 - 0.308 * n - 0.739 * n ** 0.273 * Math.log10(stiffness), exponent};
}

/** @source Molenaar 1983, from memory; S the mix's stiffness [MPa], σ its tensile strength [MPa] */
export function molenaar(exponent: number, stiffness: number, strength: number): Paris {
  return {logCoefficient: 4.389 - 2.52 * Math.log10(stiffness * strength * exponent), exponent};
}

/** Invented sections whose bowls are computed and taken apart again. */
import type {BowlLayer, BowlTest} from "../../src/engine/backanalysis/index.ts";
import {surfaceModel} from "../../src/engine/layered/index.ts";

export const OFFSETS = [0, 0.2, 0.3, 0.45, 0.6, 0.9, 1.2, 1.5, 1.8]; // [m]
export const RADIUS = 0.15; // [m]
export const PRESSURE = 707e3; // 50 kN on the plate [Pa]

export interface InventedSection {
  readonly name: string;
  readonly base: BowlTest["base"];
  readonly layers: readonly (Omit<BowlLayer, "modulus"> & {readonly truth: number /* [Pa] */})[];
}

const asphalt = {name: "asphalt", thickness: 0.12, poisson: 0.35, truth: 5e9};
const soil = {name: "soil", thickness: Infinity, poisson: 0.4, truth: 7e7};

export const FLEXIBLE: InventedSection = {
  name: "asphalt, base, soil",
  base: "half-space",
  layers: [asphalt, {name: "base", thickness: 0.35, poisson: 0.35, truth: 2.5e8}, soil],
};

export const FOUR_LAYERS: InventedSection = {
  name: "asphalt, base, subbase, soil",
  base: "half-space",
  layers: [
    asphalt,
    {name: "base", thickness: 0.2, poisson: 0.35, truth: 3.5e8},
    {name: "subbase", thickness: 0.25, poisson: 0.35, truth: 1.5e8},
    soil,
  ],
};

/** The thin asphalt hardly shows: the Jacobian's intervals would hold the base in 67 of 100 bowls only. */
export const THIN: InventedSection = {
  name: "thin asphalt, cement-bound base, soil",
  base: "half-space",
  layers: [
    {...asphalt, thickness: 0.06},
    {name: "base", thickness: 0.2, poisson: 0.2, truth: 9e9},
    {...soil, truth: 9e7},
  ],
};

export const ON_ROCK: InventedSection = {
  name: "asphalt, base, 2 m of soil on rock",
  base: "rigid",
  layers: [...FLEXIBLE.layers.slice(0, 2), {...soil, thickness: 2}],
};

/** Deflections under the plate [m]. */
export function bowlOf({layers, base}: InventedSection): number[] {
  const model = surfaceModel({layers, base: {kind: base}, radius: RADIUS, offsets: OFFSETS});
  return Array.from(model.deflections(layers.map(l => l.truth)), w => w * PRESSURE);
}

/** A test of the section, every modulus unknown within a factor of ten to either side, the start off by 0.6. */
export function testOf({layers, base}: InventedSection, deflections: readonly number[]): BowlTest {
  return {
    radius: RADIUS,
    offsets: OFFSETS,
    drops: [{pressure: PRESSURE, deflections}],
    accuracy: {relative: 0.02, absolute: 0},
    layers: layers.map(({truth, ...layer}) => ({
      ...layer,
      modulus: {kind: "unknown", start: 0.6 * truth, low: truth / 10, high: truth * 10},
    })),
    base,
    probability: 0.9,
  };
}

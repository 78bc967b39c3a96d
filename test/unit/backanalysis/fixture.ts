/** Invented bowls, computed by the multilayer solution. */
import type {BowlLayer, BowlTest, LayerModulus} from "../../../src/engine/backanalysis/index.ts";
import {surfaceModel} from "../../../src/engine/layered/index.ts";

export const OFFSETS = [0, 0.2, 0.3, 0.45, 0.6, 0.9, 1.2, 1.5, 1.8];
export const PRESSURE = 707e3; // 50 kN on a plate of 300 mm

/** Unknown, searched a factor to either side; the start is not the truth. */
export function unknown(truth: number, factor = 10): LayerModulus {
  return {kind: "unknown", start: truth * 0.6, low: truth / factor, high: truth * factor};
}

export const ROAD = {
  moduli: [5e9, 2.5e8, 7e7],
  layers: [
    {name: "asphalt", thickness: 0.12, poisson: 0.35, modulus: unknown(5e9)},
    {name: "granular base", thickness: 0.35, poisson: 0.35, modulus: unknown(2.5e8)},
    {name: "soil", thickness: Infinity, poisson: 0.4, modulus: unknown(7e7)},
  ],
} as const;

export function bowlOf(
  layers: readonly BowlLayer[],
  moduli: readonly number[],
  {base = "half-space", offsets = OFFSETS}: {base?: BowlTest["base"]; offsets?: readonly number[]} = {},
): number[] {
  const model = surfaceModel({layers, base: {kind: base}, radius: 0.15, offsets});
  return Array.from(model.deflections(moduli), w => w * PRESSURE);
}

export function testOf(
  layers: readonly BowlLayer[],
  deflections: readonly number[],
  more: Partial<BowlTest> = {},
): BowlTest {
  return {
    radius: 0.15,
    offsets: OFFSETS,
    drops: [{pressure: PRESSURE, deflections}],
    accuracy: {relative: 0.02, absolute: 2e-6},
    layers,
    base: "half-space",
    probability: 0.9,
    ...more,
  };
}

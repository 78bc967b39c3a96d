import type {Section} from "../section/index.ts";

/** Sections of one key conduct heat alike and have the same temperatures. */
export function heatKey({layers}: Section): string {
  return JSON.stringify(
    layers.map(({role, thickness, material: m}) => [role, thickness, m.conductivity, m.density, m.heatCapacity]),
  );
}

/** Reinforcement across the crack plane: one spring on the mean opening over a stretch of the path, alike for every wavenumber. */
import {InputError, requireNonNegative, requirePositive} from "../errors.ts";
import {interfaceDepths, isPath, type Reinforcement, type Section} from "../section/index.ts";
import type {LineModel} from "./line.ts";
import {addPressure} from "./loads.ts";

/** A spring on Σ wₖ·Uₖ over nodes of the path; on the half x ≥ 0. */
export interface Tie {
  readonly nodes: Int32Array; // of the path, ascending
  readonly weights: Float64Array; // of U, together 1 [–]
  readonly stiffness: number; // EA/L_b: half the opening pulls with EA·(2U)/(2·L_b) [Pa]
}

/**
 * Upper and lower end of the stretch over which a reinforcement pulls [m]: its height about its depth, moved to lie within the
 * path, and wholly in the layer above where it lies on an interface that is not fully bonded.
 *
 * @throws InputError "domain" when it lies outside the path or is higher than that
 */
export function tieStretch(section: Section, {depth, height}: Reinforcement): readonly [number, number] {
  const {layers} = section;
  const depths = interfaceDepths(layers);
  const bottom = depths[layers.filter(l => isPath(l.role)).length];
  if (!(depth > 0 && depth <= bottom + NEAR))
    throw new InputError("domain", "reinforcement.depth", depth, `> 0, ≤ ${bottom}, overlay and interlayer [m]`);
  if (!(height > 0 && height <= bottom))
    throw new InputError("domain", "reinforcement.height", height, `> 0, ≤ ${bottom} [m]`);
  const sliding = layers.some((l, k) => (l.bondBelow ?? Infinity) < Infinity && Math.abs(depths[k + 1] - depth) < NEAR);
  const lower = Math.max(height, Math.min(bottom, sliding ? depth : depth + height / 2));
  return [lower - height, lower];
}

/** Depths nearer than this are one [m]. */
const NEAR = 1e-9;

/** @returns null without reinforcement, and of one without stiffness */
export function tieOf(model: LineModel, section: Section): Tie | null {
  const {reinforcement} = section;
  if (!reinforcement) return null;
  const {stiffness, bondLength} = reinforcement;
  requireNonNegative("reinforcement.stiffness", stiffness, "N/m");
  requirePositive("reinforcement.bondLength", bondLength, "m");
  if (stiffness === 0) return null;
  const [from, to] = tieStretch(section, reinforcement);
  const {path, mesh} = model;
  const weights = new Float64Array(path.length);
  mesh.pathLayers.forEach((layer, e) => {
    if (layer < 0) return;
    const own = path.slice(2 * e, 2 * e + 3).map(({z}) => ({x: z}));
    addPressure(own, from, to, 1 / (to - from), weights.subarray(2 * e, 2 * e + 3));
  });
  const nodes = Int32Array.from([...weights.keys()].filter(k => weights[k] !== 0));
  return {nodes, weights: Float64Array.from(nodes, k => weights[k]), stiffness: stiffness / bondLength};
}

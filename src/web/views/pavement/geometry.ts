/** The section as it is drawn: to scale, the foundation cut short. Lengths in m, from the surface down. */
import type {LayerRole, Section} from "../../../engine/section/types.ts";

export interface DrawnLayer {
  readonly name: string;
  readonly role: LayerRole;
  readonly material: string;
  readonly thickness: number; // [m]
  readonly top: number; // [m]
  readonly bottom: number; // as drawn [m]
  readonly isCut: boolean; // drawn shorter than it is
  readonly isAlternate: boolean; // the second of two neighbours of one role: another tone
}

const FOUNDATION_SHOWN = 0.3; // of what lies above it [–]
const LEAST_FOUNDATION = 0.1; // [m]

/** Depth down to which a section is drawn [m]. */
export function drawnDepth({layers}: Section): number {
  const above = layers.reduce((sum, l) => sum + (l.role === "foundation" ? 0 : l.thickness), 0);
  const below = layers.reduce((sum, l) => sum + (l.role === "foundation" ? l.thickness : 0), 0);
  return above + Math.min(below, Math.max(FOUNDATION_SHOWN * above, LEAST_FOUNDATION));
}

/** @param thicknesses  by layer name, of layers that are being dragged [m] */
export function drawnLayers(section: Section, thicknesses: Readonly<Record<string, number>> = {}): DrawnLayer[] {
  const floor = drawnDepth(section);
  const foundation = section.layers.filter(l => l.role === "foundation").length;
  let top = 0;
  let left = foundation; // foundation layers still to come
  return section.layers.map((layer, k) => {
    const thickness = thicknesses[layer.name] ?? layer.thickness;
    let drawn = thickness;
    if (layer.role === "foundation") {
      drawn = Math.min(thickness, Math.max((floor - top) / left, LEAST_FOUNDATION / foundation));
      left--;
    }
    const before = section.layers[k - 1];
    const row = {
      name: layer.name,
      role: layer.role,
      material: layer.material.name,
      thickness,
      top,
      bottom: top + drawn,
      isCut: drawn < thickness - 1e-9,
      isAlternate: before?.role === layer.role && k % 2 === 1,
    };
    top = row.bottom;
    return row;
  });
}

export function depthOf(
  layers: readonly DrawnLayer[],
  role: LayerRole,
): {readonly top: number; readonly bottom: number} | null {
  const own = layers.filter(l => l.role === role);
  return own.length > 0 ? {top: own[0].top, bottom: own.at(-1)!.bottom} : null;
}

/** A crack as it looks: from one depth to another, wandering a little about the joint's plane. In px. */
export function crackPath(from: number, to: number, scale: number): string {
  const length = Math.abs(to - from) * scale;
  const steps = Math.max(2, Math.round(length / 5));
  const wander = Math.min(2.2, length / 12);
  const points = Array.from({length: steps + 1}, (_, k) => {
    const z = from + ((to - from) * k) / steps;
    const off = k === 0 ? 0 : wander * (Math.sin(9.7 * k) + 0.5 * Math.sin(4.1 * k + 1));
    return `${off.toFixed(1)} ${(z * scale).toFixed(1)}`;
  });
  return `M${points.join("L")}`;
}

/** From a layer's label to the next [px]. */
export const LABEL_GAP = 33;

/** Height that the labels of so many layers need, whatever the layers themselves do [px]. */
export function drawnHeight(layers: number): number {
  return LABEL_GAP * layers;
}

/** Labels moved apart, so that none is nearer than `gap` to the one above. In px. */
export function spreadLabels(middles: readonly number[], gap: number, most: number): number[] {
  const down: number[] = [];
  for (const y of middles) down.push(Math.max(y, (down.at(-1) ?? Number.NEGATIVE_INFINITY) + gap));
  const over = Math.max(0, (down.at(-1) ?? 0) - most);
  const placed = [...down];
  for (let k = placed.length - 1, limit = (down.at(-1) ?? 0) - over; k >= 0; k--, limit -= gap) {
    placed[k] = Math.min(placed[k], limit);
    limit = placed[k];
  }
  return placed;
}

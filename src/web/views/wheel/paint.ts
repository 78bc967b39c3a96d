/** Paints a field of strains or stresses onto a canvas: cells where they have moved to, coloured by their value. */
import type {JointField} from "../../../engine/life/index.ts";
import {divergingColour} from "../../../report/charts/index.ts";

export type Quantity = "strainXx" | "shearXz" | "largestStrain" | "stressXx" | "stressXz";

export interface QuantityWords {
  readonly text: string;
  readonly unit: "µε" | "MPa";
  readonly size: number; // of the unit [SI]
  readonly note: string;
}

export const QUANTITIES: Readonly<Record<Quantity, QuantityWords>> = {
  strainXx: {
    text: "Strain along the lane",
    unit: "µε",
    size: 1e-6,
    note: "Orange: shortened. Blue: lengthened, as where bending opens a crack.",
  },
  shearXz: {
    text: "Shear strain",
    unit: "µε",
    size: 1e-6,
    note: "Changes sign as the wheel passes the joint: orange one way, blue the other.",
  },
  largestStrain: {
    text: "Largest strain, any direction",
    unit: "µε",
    size: 1e-6,
    note: "Largest principal strain in the plane.",
  },
  stressXx: {text: "Stress along the lane", unit: "MPa", size: 1e6, note: "Orange: compression. Blue: tension."},
  stressXz: {text: "Shear stress", unit: "MPa", size: 1e6, note: "Orange one way, blue the other."},
};

/** Values of every cell, and movements of every corner, with the axle anywhere between two positions. */
export interface Moment {
  readonly values: Float32Array;
  readonly u: Float32Array; // [m]
  readonly w: Float32Array; // [m]
}

/** Linear between the neighbouring positions. */
export function momentAt(field: JointField, quantity: Quantity, x: number): Moment {
  const {positions} = field;
  let k = 0;
  while (k < positions.length - 2 && positions[k + 1] <= x) k++;
  const share = Math.min(1, Math.max(0, (x - positions[k]) / (positions[k + 1] - positions[k])));
  const mixed = (all: Float32Array): Float32Array => {
    const size = all.length / positions.length;
    const out = new Float32Array(size);
    const [a, b] = [k * size, (k + 1) * size];
    for (let i = 0; i < size; i++) out[i] = all[a + i] + share * (all[b + i] - all[a + i]);
    return out;
  };
  return {values: mixed(field[quantity]), u: mixed(field.u), w: mixed(field.w)};
}

/** What colours span: so that all but a few of the values, at all positions, are told apart [SI]. */
export function usualLimit(field: JointField, quantity: Quantity, isBound: (layer: number) => boolean): number {
  const all = field[quantity];
  const cells = field.layer.length;
  const sizes: number[] = [];
  for (let k = 0; k < all.length; k++)
    if (field.layer[k % cells] >= 0 && isBound(field.layer[k % cells])) sizes.push(Math.abs(all[k]));
  sizes.sort((a, b) => a - b);
  return sizes[Math.floor(0.99 * (sizes.length - 1))] || 1e-12;
}

const COLOURS = 129; // steps from one end to the other
const PALETTE = Array.from({length: COLOURS}, (_, k) => divergingColour((2 * k) / (COLOURS - 1) - 1));

export function colourOf(part: number): string {
  return PALETTE[Math.round(((Math.min(1, Math.max(-1, part)) + 1) / 2) * (COLOURS - 1))];
}

export interface Painting {
  readonly scale: number; // [px/m]
  readonly sky: number; // above the surface [px]
  readonly magnified: number; // movements by so much [–]
  readonly limit: number; // of colours [SI]
}

export function paintField(
  context: CanvasRenderingContext2D,
  {layer, corners, cornerX, cornerZ}: JointField,
  {values, u, w}: Moment,
  {scale, sky, magnified, limit}: Painting,
): void {
  const middle = context.canvas.width / devicePixelRatio / 2;
  const px = (c: number): number => middle + (cornerX[c] + magnified * u[c]) * scale;
  const py = (c: number): number => sky + (cornerZ[c] + magnified * w[c]) * scale;
  for (let cell = 0; cell < layer.length; cell++) {
    if (layer[cell] < 0) continue;
    context.beginPath();
    for (let k = 0; k < 4; k++) {
      const c = corners[4 * cell + k];
      if (k === 0) context.moveTo(px(c), py(c));
      else context.lineTo(px(c), py(c));
    }
    context.closePath();
    context.fillStyle = colourOf(values[cell] / limit);
    context.strokeStyle = context.fillStyle;
    context.lineWidth = 0.6; // no seams between cells
    context.fill();
    context.stroke();
  }
}

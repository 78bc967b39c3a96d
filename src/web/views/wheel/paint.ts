/** Paints a field of strains or stresses onto a canvas: cells where they have moved to, coloured by their value. */
import type {JointField} from "../../../engine/life/index.ts";
import {divergingColour} from "../../../report/charts/index.ts";

export type Quantity = "strainXx" | "shearXz" | "largestStrain" | "stressXx" | "stressXz";

export interface QuantityWords {
  readonly text: string;
  readonly kind: "strain" | "stress";
  readonly note: string;
}

export const QUANTITIES: Readonly<Record<Quantity, QuantityWords>> = {
  strainXx: {
    text: "Strain along the lane",
    kind: "strain",
    note: "Orange: shortened. Blue: lengthened, as where bending opens a crack.",
  },
  shearXz: {
    text: "Shear strain",
    kind: "strain",
    note: "Changes sign as the wheel passes the joint: orange one way, blue the other.",
  },
  largestStrain: {
    text: "Largest strain, any direction",
    kind: "strain",
    note: "Largest principal strain in the plane.",
  },
  stressXx: {text: "Stress along the lane", kind: "stress", note: "Orange: compression. Blue: tension."},
  stressXz: {text: "Shear stress", kind: "stress", note: "Orange one way, blue the other."},
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

/** A value at each corner: the mean of the cells of one layer that meet there, so that steps between layers and at cracks stay. */
export function cornerValues({layer, corners, cornerX}: JointField, values: Float32Array): Float32Array {
  const sums = new Map<number, {sum: number; count: number}>();
  const out = new Float32Array(corners.length);
  const key = (cell: number, k: number): number => corners[4 * cell + k] + layer[cell] * cornerX.length;
  for (let cell = 0; cell < layer.length; cell++) {
    if (layer[cell] < 0) continue;
    for (let k = 0; k < 4; k++) {
      const known = sums.get(key(cell, k)) ?? {sum: 0, count: 0};
      known.sum += values[cell];
      known.count++;
      sums.set(key(cell, k), known);
    }
  }
  for (let cell = 0; cell < layer.length; cell++) {
    if (layer[cell] < 0) continue;
    for (let k = 0; k < 4; k++) {
      const {sum, count} = sums.get(key(cell, k))!;
      out[4 * cell + k] = sum / count;
    }
  }
  return out;
}

export interface Painting {
  readonly scale: number; // [px/m]
  readonly sky: number; // above the surface [px]
  readonly magnified: number; // movements by so much [–]
  readonly limit: number; // of colours [SI]
}

const FINEST = 7; // of a part of a cell that gets a colour of its own [px]
const MOST_PARTS = 6; // of a cell, along either side

/** A piece of the picture: four corners and the colour of its value. */
interface Piece {
  readonly x: readonly [number, number, number, number]; // [px], from the joint
  readonly y: readonly [number, number, number, number]; // [px]
  readonly colour: string;
}

/** Cells cut so finely that colours run smoothly. */
export function* piecesOf(
  field: JointField,
  {values, u, w}: Moment,
  {scale, sky, magnified, limit}: Painting,
): Generator<Piece> {
  const {layer, corners, cornerX, cornerZ} = field;
  const smooth = cornerValues(field, values);
  const [px, py, v] = [new Float64Array(4), new Float64Array(4), new Float64Array(4)];
  for (let cell = 0; cell < layer.length; cell++) {
    if (layer[cell] < 0) continue;
    for (let k = 0; k < 4; k++) {
      const c = corners[4 * cell + k];
      px[k] = (cornerX[c] + magnified * u[c]) * scale;
      py[k] = sky + (cornerZ[c] + magnified * w[c]) * scale;
      v[k] = smooth[4 * cell + k];
    }
    const across = parts(Math.abs(px[1] - px[0]));
    const down = parts(Math.abs(py[3] - py[0]));
    for (let i = 0; i < across; i++)
      for (let j = 0; j < down; j++) {
        const [s0, s1, t0, t1] = [i / across, (i + 1) / across, j / down, (j + 1) / down];
        const around = (c: Float64Array): Piece["x"] => [
          within(c, s0, t0),
          within(c, s1, t0),
          within(c, s1, t1),
          within(c, s0, t1),
        ];
        yield {x: around(px), y: around(py), colour: colourOf(within(v, (s0 + s1) / 2, (t0 + t1) / 2) / limit)};
      }
  }
}

export const SEAM = 1.1; // edges in the colour of their piece hide the seams between them [px]

/** @param middle  where the joint stands [px] */
export function paintField(
  context: CanvasRenderingContext2D,
  middle: number,
  field: JointField,
  moment: Moment,
  painting: Painting,
): void {
  context.lineWidth = SEAM;
  for (const {x, y, colour} of piecesOf(field, moment, painting)) {
    context.fillStyle = colour;
    context.strokeStyle = colour;
    context.beginPath();
    context.moveTo(middle + x[0], y[0]);
    for (let k = 1; k < 4; k++) context.lineTo(middle + x[k], y[k]);
    context.closePath();
    context.fill();
    context.stroke();
  }
}

const parts = (size: number): number => Math.min(MOST_PARTS, Math.max(1, Math.round(size / FINEST)));

/** Bilinear between corners: upper left, upper right, lower right, lower left. */
function within(c: Float64Array, s: number, t: number): number {
  return (1 - t) * ((1 - s) * c[0] + s * c[1]) + t * ((1 - s) * c[3] + s * c[2]);
}

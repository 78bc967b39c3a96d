/** The wheels of an axle in one plane y: which solved wheels make up the axle at each of its positions. */
import {InputError} from "../errors.ts";
import {inverseWeights, type Patch, type Strip, type Wavenumbers} from "../response/index.ts";
import type {Wheel} from "../traffic/index.ts";

/** Wheels one beside the other, of one length. */
export interface WheelRow {
  readonly x: number; // from the axle's reference [m]
  readonly length: number; // [m]
  readonly even: Float64Array; // by wavenumber, see `inverseWeights`
  readonly odd: Float64Array;
}

/** One wheel row at one position of the axle: a solved wheel, or its mirror image. */
export interface RowPlace {
  readonly row: number;
  readonly load: number; // column: wheels of all patches, one patch after the other
  readonly side: 1 | -1;
}

export interface AxlePlan {
  readonly rows: readonly WheelRow[];
  readonly patches: readonly Patch[];
  readonly places: readonly (readonly RowPlace[])[]; // what has to be solved: positions that mirror each other share one
  readonly positions: readonly {readonly place: number; readonly side: 1 | -1}[]; // by position of the axle
}

/** Places nearer than this are one [m]. */
const NEAR = 1e-9;

/**
 * @param y  of the plane, in the axle's own coordinates [m]
 * @throws InputError "shape" without wheels
 */
export function axlePlan(wheels: readonly Wheel[], y: number, positions: Float64Array, waves: Wavenumbers): AxlePlan {
  if (!wheels.length) throw new InputError("shape", "wheels.length", 0, "≥ 1");
  const found: {x: number; length: number; strips: Strip[]}[] = [];
  for (const wheel of wheels) {
    const strip = {centre: wheel.y - y, width: wheel.width, pressure: wheel.load / (wheel.length * wheel.width)};
    const row = found.find(r => Math.abs(r.x - wheel.x) < NEAR && Math.abs(r.length - wheel.length) < NEAR);
    if (row) row.strips.push(strip);
    else found.push({x: wheel.x, length: wheel.length, strips: [strip]});
  }
  const lengths = [...new Set(found.map(r => r.length))].sort((p, q) => p - q);
  const round = (x: number): number => Math.round(x / NEAR) * NEAR;
  const patches = lengths.map((length): Patch => {
    const centres = found
      .filter(r => r.length === length)
      .flatMap(r => Array.from(positions, p => round(Math.abs(p + r.x))));
    return {length, centres: Float64Array.from(new Set(centres)).sort()};
  });
  const first = patches.map((_, k) => patches.slice(0, k).reduce((sum, p) => sum + p.centres.length, 0));
  const placesOf = (p: number): RowPlace[] =>
    found.map(({x, length}, row): RowPlace => {
      const patch = lengths.indexOf(length);
      const at = patches[patch].centres.indexOf(round(Math.abs(p + x)));
      return {row, load: first[patch] + at, side: p + x < 0 ? -1 : 1};
    });
  // Rows alike in all but x may change places in a mirror image.
  const alike = found.map(r => JSON.stringify([r.length, r.strips]));
  const keyOf = (rows: readonly RowPlace[], mirror: 1 | -1): string =>
    rows
      .map(({row, load, side}) => `${alike[row]} ${load} ${side * mirror}`)
      .sort()
      .join(";");
  const known = new Map<string, number>();
  const places: (readonly RowPlace[])[] = [];
  const along = Array.from(positions, p => {
    const rows = placesOf(p);
    const same = known.get(keyOf(rows, 1));
    if (same !== undefined) return {place: same, side: 1 as const};
    const mirrored = known.get(keyOf(rows, -1));
    if (mirrored !== undefined) return {place: mirrored, side: -1 as const};
    const place = places.push(rows) - 1;
    known.set(keyOf(rows, 1), place);
    return {place, side: 1 as const};
  });
  return {
    rows: found.map(({x, length, strips}) => ({x, length, ...inverseWeights(waves, Float64Array.of(0), strips)})),
    patches,
    places,
    positions: along,
  };
}

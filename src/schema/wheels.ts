import type {Partially, TrafficDocument} from "./study.ts";
import {wheelGroups} from "./wheel-groups.ts";

export type LoadDocument = TrafficDocument["standard_axle"];

/** Contact patch of a tyre [mm]. */
export interface Patch {
  readonly length: number; // along x
  readonly width: number; // along y
}

/**
 * Rectangle of uniform pressure for a tyre [mm].
 *
 *   A = load / pressure;  width given: length = A / width;  else A = 0.5227·L², 0.8712·L long and 0.6·L wide
 *
 * @source Y. H. Huang, Pavement Analysis and Design, chapter 1 (tyre contact on concrete pavements)
 */
export function contactRectangle_mm(load: {
  readonly wheel_load_kN: number;
  readonly pressure_MPa: number;
  readonly contact_width_mm?: number | undefined;
}): Patch {
  const area = (load.wheel_load_kN * 1000) / load.pressure_MPa; // N / (N/mm²)
  if (load.contact_width_mm !== undefined) return {length: area / load.contact_width_mm, width: load.contact_width_mm};
  const width = 0.6 * Math.sqrt(area / 0.5227);
  return {length: area / width, width}; // 0.8712·0.6 = 0.52272, so the area is kept rather than the second factor
}

/** Centres of the wheels [mm], about the middle of a regular arrangement. Null: not (well) given. */
export function wheelCentres_mm(
  load: Partially<Pick<LoadDocument, "wheels" | "arrangement" | "group">>,
): readonly {readonly x: number; readonly y: number}[] | null {
  if (load.wheels) {
    const centres = load.wheels.map(wheel => ({x: wheel?.x_mm ?? Number.NaN, y: wheel?.y_mm ?? Number.NaN}));
    return centres.every(({x, y}) => Number.isFinite(x) && Number.isFinite(y)) ? centres : null;
  }
  const a: Partially<LoadDocument["arrangement"]> =
    load.arrangement ?? (load.group === undefined ? undefined : wheelGroups[load.group].arrangement);
  if (!a) return null;
  const xs = row(a.axles ?? 1, a.axle_spacing_mm);
  const tyres = row(a.tyres_per_side ?? 1, a.tyre_spacing_mm);
  if (!xs || !tyres) return null;
  const sides = a.track_mm === undefined ? [0] : [-a.track_mm / 2, a.track_mm / 2];
  return xs.flatMap(x => sides.flatMap(side => tyres.map(y => ({x, y: side + y}))));
}

/** Equally spaced positions about 0; null when the spacing is needed and missing. */
function row(count: number, spacing: number | undefined): number[] | null {
  if (count === 1) return [0];
  if (spacing === undefined) return null;
  return Array.from({length: count}, (_, i) => (i - (count - 1) / 2) * spacing);
}

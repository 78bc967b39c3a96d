/** Lines of equal value on an even grid: where they cross its edges, and where their labels go. */

/** Values by row and column; NaN where there is none. */
export type ValueGrid = readonly (readonly number[])[];

export interface GridPoint {
  readonly column: number; // from 0, between columns too
  readonly row: number;
}

/** Crossings of a level with the edges of the grid, by linear interpolation along each edge. */
export function crossings(values: ValueGrid, level: number): GridPoint[] {
  const points: GridPoint[] = [];
  const between = (a: number, b: number): number | null => {
    if (!(a < level !== b < level) || Number.isNaN(a) || Number.isNaN(b)) return null;
    return (level - a) / (b - a);
  };
  values.forEach((row, r) => {
    row.forEach((value, c) => {
      const right = c + 1 < row.length ? between(value, row[c + 1]!) : null;
      const down = r + 1 < values.length ? between(value, values[r + 1]![c]!) : null;
      if (right !== null) points.push({column: c + right, row: r});
      if (down !== null) points.push({column: c, row: r + down});
    });
  });
  return points;
}

export interface Pixel {
  readonly x: number; // [px]
  readonly y: number;
}

/** Room that a label needs around its middle [px]. */
export interface Room {
  readonly width: number;
  readonly height: number;
}

/**
 * Of the candidates the one farthest from what is taken already, all of whose room lies in the frame; null where none is clear.
 *
 * @param taken middles of what is there
 * @param frame [px]
 */
export function clearest(
  candidates: readonly Pixel[],
  taken: readonly Pixel[],
  {
    frame,
    room,
  }: {
    readonly frame: {readonly left: number; readonly right: number; readonly top: number; readonly bottom: number};
    readonly room: Room;
  },
): Pixel | null {
  let best: Pixel | null = null;
  let most = 1; // in rooms: nearer than that they would touch
  for (const p of candidates) {
    const edge = Math.min(
      (p.x - frame.left) / room.width,
      (frame.right - p.x) / room.width,
      (p.y - frame.top) / room.height,
      (frame.bottom - p.y) / room.height,
    );
    if (edge < 0.6) continue;
    const apart = Math.min(
      FAR,
      ...taken.map(t => Math.max(Math.abs(p.x - t.x) / room.width, Math.abs(p.y - t.y) / room.height)),
    );
    if (apart > most) [best, most] = [p, apart];
  }
  return best;
}

const FAR = 8; // [rooms]; beyond it more distance is no gain

/** Round numbers of a ladder such as 1, 1.5, 2, 3, 5, 7 inside an open interval. */
export function ladder(low: number, high: number, steps: readonly number[]): number[] {
  const out: number[] = [];
  for (let k = Math.floor(Math.log10(low)); k <= Math.ceil(Math.log10(high)); k++)
    for (const step of steps) {
      const value = Number((step * 10 ** k).toPrecision(6));
      if (value > low && value < high) out.push(value);
    }
  return out;
}

/** Coarser ladders are taken until there are few enough. */
export function levelsFor(low: number, high: number, ladders: readonly (readonly number[])[]): number[] {
  const all = ladders.map(steps => ladder(low, high, steps));
  return all.find(levels => levels.length <= MOST_LEVELS) ?? all[all.length - 1]!;
}

const MOST_LEVELS = 11;

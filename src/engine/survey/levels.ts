/** In which order the points of a grid are computed: corners first, then always between those that are there. */

/**
 * Places along an axis, level by level, each level with all of those before: 0 and the last, then halves, quarters, …
 *
 * @param count points on the axis, ≥ 1
 * @returns ascending places of each level; the last level has all
 */
export function axisLevels(count: number): number[][] {
  const last = count - 1;
  const levels: number[][] = [];
  for (let parts = 1; ; parts *= 2) {
    // Floor of a common fraction keeps earlier places: i/parts is 2i/2parts.
    const places = [...new Set(Array.from({length: parts + 1}, (_, i) => Math.floor((i * last) / parts)))];
    levels.push(places);
    if (places.length === count) return levels;
  }
}

/** Nodes of a grid that are computed together, so that a picture can be drawn from them. */
export interface GridLevel {
  readonly x: readonly number[]; // ascending places along the axis
  readonly y: readonly number[];
}

/** Nodes of a level that the one before has not; without one before, all. Row by row. */
export function newNodes(level: GridLevel, before: GridLevel | null): {readonly i: number; readonly j: number}[] {
  const known = before && {x: new Set(before.x), y: new Set(before.y)};
  return level.y.flatMap(j => level.x.flatMap(i => (known?.x.has(i) && known.y.has(j) ? [] : [{i, j}])));
}

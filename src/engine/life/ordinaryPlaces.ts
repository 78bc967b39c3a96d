/** Where ordinary fatigue is looked for: lateral grids, the points of every axle line on them, and the wander over them. */
import {axleLines, cellShares, isSymmetric, type Wander, type Wheel} from "../traffic/index.ts";

/** Places that coincide within this are one [m]. */
const SAME = 1e-6;
/** Step of the grid under a wheel, of its width [–]. */
const STEP = 0.1;
/** Each step beyond is longer than the one before by this factor [–]. */
const GRADING = 1.25;
/** The grid ends so far from the outermost wheel's edge, in radii [–]: outside is only the hogging of the whole slab. */
const FAR = 8;
/** The contact pressure of a tyre falls off over a tenth of its width or so. Half of that, of the width [–]. */
const HALF_SHOULDER = 0.05;
/** Of two points closer than this share of the coarser one's step the coarser is left out [–]. */
const TOO_CLOSE = 0.4;

/** Lateral points of a class, each standing for its cell: the stretch between the middles towards its neighbours. */
export interface LateralGrid {
  readonly y: Float64Array; // ascending, relative to the group's reference line [m]
  readonly edges: Float64Array; // of the cells, one more than y [m]
  readonly solved: Float64Array; // the first points of y: those of one side when the wheels are mirrored, else all [m]
}

/** One axle line, or two that are mirror images in x. */
export interface LinePlaces {
  readonly count: number; // 1 or 2
  readonly wheels: readonly Wheel[];
  readonly x: readonly number[]; // where along the pass its strain can peak [m]
}

/** Radius of the circle with the area of the wheel's rectangle [m]. */
export function contactRadius(wheel: Wheel): number {
  return Math.sqrt((wheel.length * wheel.width) / Math.PI);
}

/**
 * Strain at the underside of a course peaks along a pass under a line's wheels, under their front and rear edges, or
 * half-way to a neighbouring line; that place counts for both lines.
 */
export function undersideLines(wheels: readonly Wheel[]): LinePlaces[] {
  return linesOf(wheels, (line, neighbours) =>
    line.flatMap(wheel => {
      const a = contactRadius(wheel);
      const between = neighbours.map(other => (wheel.x + nearest(wheel, other).x) / 2);
      return [wheel.x, wheel.x - a, wheel.x + a, ...between];
    }),
  );
}

/** Beside the wheels the surface is looked at in line with their centres. */
export function besideLines(wheels: readonly Wheel[]): LinePlaces[] {
  return linesOf(wheels, line => line.map(wheel => wheel.x));
}

/** Not beside but under a wheel of the line, as the cells of `besideGrid` end at the edges of the circles. */
export function underWheel(line: readonly Wheel[], y: number): boolean {
  return line.some(wheel => Math.abs(y - wheel.y) < contactRadius(wheel));
}

/** A tenth of the tyre's width apart under the wheels, then wider and wider; with the places half-way between wheels. */
export function undersideGrid(wheels: readonly Wheel[]): LateralGrid {
  return gridOf(wheels, wheel => {
    const a = contactRadius(wheel);
    const step = STEP * wheel.width;
    const offsets: Offset[] = [{distance: 0, gap: 0}];
    let gap = step;
    for (let d = step; d <= (1 + FAR) * a; d += gap) {
      offsets.push({distance: d, gap});
      if (d > a) gap *= GRADING;
    }
    return offsets;
  });
}

/**
 * From half a shoulder outside each tyre's edge outward, wider and wider; nothing nearer, save half-way between wheels. A
 * point as far inside makes the cells meet at the edge.
 */
export function besideGrid(wheels: readonly Wheel[]): LateralGrid {
  return gridOf(
    wheels,
    wheel => {
      const a = contactRadius(wheel);
      const half = HALF_SHOULDER * wheel.width;
      const offsets: Offset[] = [
        {distance: a - half, gap: 0},
        {distance: a + half, gap: 0},
      ];
      for (let d = half * GRADING; d <= FAR * a; d *= GRADING) {
        offsets.push({distance: a + d, gap: d * (1 - 1 / GRADING)});
      }
      return offsets;
    },
    inShoulder(wheels),
  );
}

function inShoulder(wheels: readonly Wheel[]): (y: number) => boolean {
  return y => wheels.some(w => Math.abs(Math.abs(y - w.y) - contactRadius(w)) < HALF_SHOULDER * w.width - SAME);
}

/**
 * Damage per pass at fixed points of the pavement when the group's lateral position is spread about its reference line,
 * with F the part of the passes at an offset of at most so much:
 *
 *   D̄(y) = Σ_k D_k·[F(y − e_k) − F(y − e_{k+1})]
 *
 * which is exact for damage that is constant over each cell (e_k, e_{k+1}) and nothing outside, and keeps its integral.
 *
 * @param damage  D at the grid's points, per pass of a group that keeps to the line
 * @param wander  on one line: the damage of the point's own cell
 * @param at      y where it is wanted [m]
 */
export function wanderAverage(grid: LateralGrid, damage: Float64Array, wander: Wander, at: Float64Array): Float64Array {
  return at.map(y => {
    const shares = cellShares(grid.edges, y, wander);
    return damage.reduce((sum, d, k) => sum + d * shares[k], 0);
  });
}

interface Offset {
  readonly distance: number; // from the wheel's centre, to both sides [m]
  readonly gap: number; // step of the grid there; 0: a point that must stay [m]
}

function gridOf(
  wheels: readonly Wheel[],
  offsetsOf: (wheel: Wheel) => readonly Offset[],
  excluded: (y: number) => boolean = () => false,
): LateralGrid {
  const offsets = wheels.flatMap(wheel =>
    offsetsOf(wheel).flatMap(({distance, gap}) => [
      {y: wheel.y - distance, gap},
      {y: wheel.y + distance, gap},
    ]),
  );
  const all = offsets.filter(p => !excluded(p.y));
  for (const line of axleLines(wheels)) {
    for (let i = 0; i + 1 < line.length; i++) all.push({y: (line[i].y + line[i + 1].y) / 2, gap: 0});
  }
  const axis = middle(wheels.map(w => w.y));
  if (!isSymmetric(wheels, w => ({x: w.x, y: 2 * axis - w.y}))) {
    const y = thinned(all);
    return {y, edges: cellEdges(y), solved: y};
  }
  const solved = thinned([...all.filter(p => p.y < axis - SAME), {y: axis, gap: 0}]);
  const n = solved.length;
  const y = Float64Array.from({length: 2 * n - 1}, (_, k) => (k < n ? solved[k] : 2 * axis - solved[2 * n - 2 - k]));
  return {y, edges: cellEdges(y), solved};
}

function thinned(points: {readonly y: number; readonly gap: number}[]): Float64Array {
  const kept: {readonly y: number; readonly gap: number}[] = [];
  for (const point of points.sort((p, q) => p.y - q.y)) {
    let fits = true;
    for (let last = kept.at(-1); last; last = kept.at(-1)) {
      const both = last.gap === 0 && point.gap === 0;
      if (point.y - last.y > (both ? SAME : Math.max(SAME, TOO_CLOSE * Math.max(last.gap, point.gap)))) break;
      if (point.gap >= last.gap) {
        fits = false;
        break;
      }
      kept.pop();
    }
    if (fits) kept.push(point);
  }
  return Float64Array.from(kept, p => p.y);
}

function cellEdges(y: Float64Array): Float64Array {
  const n = y.length;
  const edges = new Float64Array(n + 1);
  for (let k = 1; k < n; k++) edges[k] = (y[k - 1] + y[k]) / 2;
  edges[0] = 2 * y[0] - edges[1];
  edges[n] = 2 * y[n - 1] - edges[n - 1];
  return edges;
}

/** Axle lines with their places along x; of two that are mirror images the rear one, counted twice. */
function linesOf(
  wheels: readonly Wheel[],
  along: (line: readonly Wheel[], neighbours: readonly (readonly Wheel[])[]) => number[],
): LinePlaces[] {
  const lines = axleLines(wheels);
  const axis = middle(wheels.map(w => w.x));
  const mirrored = isSymmetric(wheels, w => ({x: 2 * axis - w.x, y: w.y}));
  const half = (lines.length - 1) / 2; // index of the line on the axis, when there is one
  return lines.flatMap((line, l): LinePlaces[] => {
    if (mirrored && l < half) return [];
    const x = along(
      line,
      [lines[l - 1], lines[l + 1]].filter(n => n !== undefined),
    );
    return [{count: mirrored && l > half ? 2 : 1, wheels: line, x: [...new Set(x)]}];
  });
}

function nearest(to: Wheel, line: readonly Wheel[]): Wheel {
  return line.reduce((best, w) => (Math.abs(w.y - to.y) < Math.abs(best.y - to.y) ? w : best));
}

const middle = (values: readonly number[]): number => (Math.min(...values) + Math.max(...values)) / 2;

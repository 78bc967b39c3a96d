import type {Wheel} from "./types.ts";

/** Wheels whose x differ by no more belong to one axle line [m]; axles stand more than a tyre's diameter apart. */
const SAME_LINE = 0.05;

/** Wheels grouped into axle lines, front (largest x) first, each line sorted by y. */
export function axleLines(wheels: readonly Wheel[]): readonly (readonly Wheel[])[] {
  const lines: Wheel[][] = [];
  for (const wheel of [...wheels].sort((a, b) => b.x - a.x)) {
    const line = lines.at(-1);
    if (line && line[0].x - wheel.x <= SAME_LINE) line.push(wheel);
    else lines.push([wheel]);
  }
  return lines.map(line => line.sort((a, b) => a.y - b.y));
}

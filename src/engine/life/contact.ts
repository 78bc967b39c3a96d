/** Which stretches of the joint's faces are pressed together at each point of a pass. */
import {TIPS} from "../response/index.ts";

/**
 * At each point the set of touching stretches that agrees with its own openings and pressures, and the tips' opening
 * tractions in it. Contact really varies along y, so here and there no set agrees: then the one with fewest faults stands.
 *
 * @param open     by pattern, [state][quantity][y]: three tips, then opening or pressure of each stretch
 * @param settled  [state][tip][y], overwritten
 * @param doubt    called where no set agreed
 */
export function settleContact(
  open: readonly Float64Array[],
  size: {readonly states: number; readonly quantities: number; readonly ny: number},
  settled: Float64Array,
  doubt: (state: number, i: number) => void,
): void {
  const {states, quantities, ny} = size;
  const segments = quantities - TIPS.length;
  /** Bits of the stretches whose faces overlap though open, or pull on each other though closed. */
  const faults = (pattern: number, s: number, i: number): number => {
    let wrong = 0;
    for (let k = 0; k < segments; k++)
      if (open[pattern][(s * quantities + TIPS.length + k) * ny + i] < 0) wrong |= 1 << k;
    return wrong;
  };
  for (let i = 0; i < ny; i++) {
    let pattern = 0;
    for (let s = 0; s < states; s++) {
      let wrong = faults(pattern, s, i);
      for (let tries = 0; wrong && tries < open.length; tries++) {
        pattern ^= wrong;
        wrong = faults(pattern, s, i);
      }
      if (wrong) {
        const count = open.map((_, p) => bits(faults(p, s, i)));
        pattern = count.indexOf(Math.min(...count));
        if (count[pattern] > 0) doubt(s, i);
      }
      for (let tip = 0; tip < TIPS.length; tip++)
        settled[(s * TIPS.length + tip) * ny + i] = open[pattern][(s * quantities + tip) * ny + i];
    }
  }
}

function bits(x: number): number {
  let n = 0;
  for (; x; x &= x - 1) n++;
  return n;
}

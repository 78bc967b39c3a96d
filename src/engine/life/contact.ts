/** Which stretches of the joint's faces are pressed together at each point of a pass, and the tips' opening tractions then. */
import {BLOCK, contactPressures, type ResponseTables, TIPS, transformBlock} from "../response/index.ts";
import type {PassPlan} from "./passPlan.ts";
import {superpose, type TableRows} from "./superpose.ts";

/**
 * The set of touching stretches that agrees with its own openings and pressures. Contact really varies along y, so here
 * and there no set agrees: then the one with fewest faults stands.
 *
 * @param start     the set to begin with; where more than one agree, it decides
 * @param segments  number of stretches; a set has a bit for each
 * @param faults    bits of the stretches whose faces overlap though open, or pull on each other though closed
 */
export function settledPattern(start: number, segments: number, faults: (pattern: number) => number): number {
  const patterns = 1 << segments;
  let pattern = start;
  for (let seen = 0; !(seen & (1 << pattern)); ) {
    const wrong = faults(pattern);
    if (!wrong) return pattern;
    seen |= 1 << pattern; // what comes round again never settles
    pattern ^= wrong;
  }
  let least = Infinity;
  for (let p = 0; p < patterns; p++) {
    const count = bits(faults(p));
    if (count >= least) continue;
    least = count;
    pattern = p;
  }
  return pattern;
}

function bits(x: number): number {
  let n = 0;
  for (; x; x &= x - 1) n++;
  return n;
}

/**
 * Opening tractions of one state along the pass, contact settled at each point. States are to be asked for in their order:
 * each point begins with the set it had in the state before.
 *
 * @param tips      that exist in the state
 * @param settled   [state][tip][offset][position]; that of the state and tips overwritten
 * @param doubtful  [offset][position], overwritten: 1 where no set agreed
 */
export type ContactAlong = (
  state: number,
  tips: readonly number[],
  settled: Float64Array,
  doubtful: Uint8Array,
) => void;

export function contactAlong(plan: PassPlan, tables: ResponseTables): ContactAlong {
  const {segments} = tables;
  const {columns, positions, offsets} = plan;
  const points = plan.rows * columns;
  const standing = new Uint8Array(points);
  const patterns = patternsAlong(plan, tables);
  const settle = (point: number, y: number, x: number): 0 | 1 => {
    standing[point] = settledPattern(standing[point], segments, p => patterns.faults(p, y, x));
    return patterns.faults(standing[point], y, x) ? 1 : 0;
  };

  return (state, tips, settled, doubtful) => {
    patterns.begin(state, tips);
    const own = state * TIPS.length * points;
    const width = (tips.length + segments) * columns;
    for (let y = 0; y < offsets; y++) {
      let known = -1; // set whose values are at hand in this block of positions
      let values: Float64Array = NONE;
      for (let x = 0; x < positions; x++) {
        const point = y * columns + x;
        if (x % BLOCK.columns === 0) known = -1;
        if (standing[point] !== known) {
          known = standing[point];
          values = patterns.at(known, y, x);
        }
        doubtful[point] = 0;
        if (stretchFaults(values, y * width + tips.length * columns + x, segments, columns)) {
          doubtful[point] = settle(point, y, x);
          known = standing[point];
          values = patterns.at(known, y, x);
        }
        for (let t = 0, from = y * width + x; t < tips.length; t++, from += columns)
          settled[own + tips[t] * points + point] = values[from];
      }
    }
  };
}

const NONE = new Float64Array(0);

/** Bits of the stretches below zero: open ones overlap, closed ones pull. */
function stretchFaults(values: Float64Array, first: number, segments: number, columns: number): number {
  let wrong = 0;
  for (let s = 0, at = first; s < segments; s++, at += columns) if (values[at] < 0) wrong |= 1 << s;
  return wrong;
}

/** One state in each set of touching stretches, worked out only where asked for: few of the sets occur at a point. */
interface Patterns {
  readonly begin: (state: number, tips: readonly number[]) => void;
  /** Bits of the stretches at fault. */
  readonly faults: (pattern: number, y: number, x: number) => number;
  /** [offset][tips, then stretches][position], good for the block around y and x. */
  readonly at: (pattern: number, y: number, x: number) => Float64Array;
}

function patternsAlong(plan: PassPlan, tables: ResponseTables): Patterns {
  const {states, wheels, segments} = tables;
  const {columns: loads, terms, trains} = plan;
  const allRows = TIPS.length + segments;
  const count = 1 << segments;
  const open = new Float64Array(terms * allRows * loads);
  const unit = new Float64Array(terms * allRows * segments);
  const byTerm = Array.from({length: count}, (_, p) => (p ? new Float64Array(open.length) : open));
  const byOffset = byTerm.map(() => new Float64Array(plan.rows * allRows * loads));
  const across = loads / BLOCK.columns;
  const blocks = (plan.rows / BLOCK.offsets) * across;
  const blockOf = Int32Array.from(
    {length: plan.rows * loads},
    (_, k) => Math.floor(Math.floor(k / loads) / BLOCK.offsets) * across + Math.floor((k % loads) / BLOCK.columns),
  );
  const solved = new Uint8Array(count);
  const tipsMade = new Uint8Array(count * blocks);
  const stretchesMade = new Uint8Array(count * blocks);
  let rows = 0;

  const begin = (state: number, tips: readonly number[]): void => {
    const chosen = [...tips, ...Array.from({length: segments}, (_, s) => TIPS.length + s)];
    rows = chosen.length;
    const table = {values: tables.opening, states, rows: allRows, columns: wheels + segments, state};
    superpose(plan, table, "even", chosen, open);
    unitPressures(table, chosen, terms / trains.length);
    solved.fill(0);
    solved[0] = 1;
    tipsMade.fill(0);
    stretchesMade.fill(0);
  };
  const unitPressures = ({values, state}: TableRows, chosen: readonly number[], waves: number): void => {
    for (let term = 0, to = 0; term < terms; term++) {
      for (const row of chosen) {
        const from = (((term % waves) * states + state) * allRows + row) * (wheels + segments) + wheels;
        for (let s = 0; s < segments; s++) unit[to++] = values[from + s];
      }
    }
  };
  const blockAt = (pattern: number, y: number, x: number): number => pattern * blocks + blockOf[y * loads + x];
  const make = (pattern: number, y: number, x: number, from: number, end: number): void => {
    if (!solved[pattern]) {
      const contact = {open, unit, systems: terms, tips: rows - segments, segments, loads};
      contactPressures(contact, pattern, byTerm[pattern]);
      solved[pattern] = 1;
    }
    const block = {offset: y - (y % BLOCK.offsets), column: x - (x % BLOCK.columns), from, end};
    transformBlock(plan.even, byTerm[pattern], {waves: terms, rows, columns: loads}, block, byOffset[pattern]);
  };
  const faults = (pattern: number, y: number, x: number): number => {
    if (segments === 0) return 0;
    const block = blockAt(pattern, y, x);
    if (!stretchesMade[block]) {
      make(pattern, y, x, rows - segments, rows);
      stretchesMade[block] = 1;
    }
    return stretchFaults(byOffset[pattern], ((y + 1) * rows - segments) * loads + x, segments, loads);
  };
  const at = (pattern: number, y: number, x: number): Float64Array => {
    faults(pattern, y, x); // makes the stretches
    const block = blockAt(pattern, y, x);
    if (!tipsMade[block]) {
      make(pattern, y, x, 0, rows - segments);
      tipsMade[block] = 1;
    }
    return byOffset[pattern];
  };
  return {begin, faults, at};
}

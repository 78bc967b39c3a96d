import {InputError} from "../errors.ts";
import {ln} from "../numeric/index.ts";
import type {StiffnessSummary} from "./types.ts";

/** The modulus of this cycle is the initial one (EN 12697-24, from memory). */
const INITIAL_CYCLE = 100;
/** Failed at this part of the initial modulus (EN 12697-24, from memory) [–]. */
const FAILURE_RATIO = 0.5;
/** A fall below it lasts when so many rows in a row stay there, or all up to the end. One row alone may be noise. */
export const LASTING_ROWS = 3;
/**
 * A start with a jump: two rows one after the other, both between the initial cycle and ten times that, less than a
 * doubling of cycles apart, differ by more than this part of the initial modulus. Then the initial modulus is that of a
 * machine still settling. Common practice looks for it by eye; rule and numbers are ours [–].
 */
export const JUMP = 0.05;
const JUMP_DECADE = 10; // [–]
const JUMP_SPACING = 2; // [–]
/** The amplitude held has drifted when it departs by more than this from its value at the initial cycle. Ours [–]. */
export const DRIFT = 0.02;
export const MOST_CURVE_POINTS = 400;

export interface HistoryRow {
  readonly cycle: number; // ≥ 0, ascending
  readonly modulus: number; // ≥ 0 [Pa]
  readonly displacement?: number | null; // amplitude held, any unit; nothing: not recorded
}

/** Takes rows one by one and keeps a few hundred numbers, however long the record is. */
export interface HistoryReader {
  /** @throws InputError "domain" with the index of the row, from 0 */
  readonly add: (row: HistoryRow) => void;
  /** @throws InputError "domain" when no row reached the initial cycle */
  readonly finish: () => StiffnessSummary;
}

interface Known {
  readonly cycle: number;
  readonly modulus: number;
  readonly displacement: number | null;
}

/**
 * Reads a stiffness history. Between rows the modulus is linear in lg N. A row of cycle 0 is from before the first load and
 * takes part in nothing.
 *
 * @param path  how messages name the record
 */
export function readHistory(path = "history"): HistoryReader {
  const curve = thinning(MOST_CURVE_POINTS - 1); // and the last row
  let rows = 0;
  let last: Known | null = null;
  let initial: Known | null = null;
  let startsLate = false;
  let startsWithJump = false;
  let displacementDrifts = false;
  let crossing: number | null = null; // cycles at the fall that has lasted so far
  let below = 0; // rows since it

  const settle = (row: Known): void => {
    if (row.cycle < INITIAL_CYCLE) return;
    startsLate = last === null && row.cycle > INITIAL_CYCLE;
    initial = startsLate || last === null ? row : between(last, row, INITIAL_CYCLE);
    if (!(initial.modulus > 0)) throw new InputError("domain", `${path}[${rows}].modulus`, row.modulus, "> 0 [Pa]");
  };

  const follow = (row: Known, start: Known): void => {
    const before = last && last.cycle >= start.cycle ? last : start;
    if (below >= LASTING_ROWS) return; // it has failed: what comes after is of a broken specimen
    startsWithJump ||= isJump(before, row, start);
    displacementDrifts ||= isDrift(row, start);
    const half = FAILURE_RATIO * start.modulus;
    if (row.modulus > half) {
      crossing = null;
      below = 0;
      return;
    }
    crossing ??= cycleAt(before, row, half);
    below++;
  };

  return {
    add(given) {
      const row = checked(given, last, `${path}[${rows}]`);
      if (row.cycle > 0) {
        if (initial === null) settle(row);
        if (initial !== null) follow(row, initial);
        curve.add(row.cycle, row.modulus);
        last = row;
      }
      rows++;
    },
    finish() {
      if (initial === null || last === null)
        throw new InputError("domain", path, last?.cycle ?? "no row", `a record beyond cycle ${INITIAL_CYCLE}`);
      return {
        initialModulus: initial.modulus,
        cyclesToHalf: crossing,
        lastCycle: last.cycle,
        lastRatio: last.modulus / initial.modulus,
        startsLate,
        startsWithJump,
        displacementDrifts,
        ...curve.finish(last.cycle, last.modulus),
      };
    },
  };
}

function checked(row: HistoryRow, last: Known | null, path: string): Known {
  const {cycle, modulus, displacement = null} = row;
  if (!(cycle >= 0 && cycle < Infinity)) throw new InputError("domain", `${path}.cycle`, cycle, "finite, ≥ 0");
  if (last !== null && cycle <= last.cycle)
    throw new InputError("domain", `${path}.cycle`, cycle, `more than ${last.cycle}, that of the row before`);
  if (!(modulus >= 0 && modulus < Infinity))
    throw new InputError("domain", `${path}.modulus`, modulus, "finite, ≥ 0 [Pa]");
  if (displacement !== null && !(displacement > 0 && displacement < Infinity))
    throw new InputError("domain", `${path}.displacement`, displacement, "finite, > 0");
  return {cycle, modulus, displacement};
}

/** The record at a cycle between two rows, linear in lg N. */
function between(a: Known, b: Known, cycle: number): Known {
  const part = ln(cycle / a.cycle) / ln(b.cycle / a.cycle);
  const displacement =
    a.displacement === null || b.displacement === null
      ? null
      : a.displacement + part * (b.displacement - a.displacement);
  return {cycle, modulus: a.modulus + part * (b.modulus - a.modulus), displacement};
}

/** Where the modulus falls to a value between two rows; at the second one when the first is not above it. */
function cycleAt(a: Known, b: Known, modulus: number): number {
  if (a.modulus <= modulus) return b.cycle;
  const part = (a.modulus - modulus) / (a.modulus - b.modulus);
  return a.cycle * (b.cycle / a.cycle) ** part;
}

function isJump(before: Known, row: Known, start: Known): boolean {
  if (row.cycle > JUMP_DECADE * start.cycle || row.cycle >= JUMP_SPACING * before.cycle) return false;
  return Math.abs(row.modulus - before.modulus) > JUMP * start.modulus;
}

function isDrift(row: Known, start: Known): boolean {
  if (row.displacement === null || start.displacement === null) return false;
  return Math.abs(row.displacement - start.displacement) > DRIFT * start.displacement;
}

/** Width of a cell of the curve to begin with, in lg N. */
const FIRST_CELL = 1 / 512;

/** Keeps the first row of each cell in lg N. When there are too many, cells double and every second row or so goes. */
function thinning(most: number) {
  let width = FIRST_CELL;
  let kept: {readonly cycle: number; readonly modulus: number}[] = [];
  const cellOf = (cycle: number): number => Math.floor(Math.log10(cycle) / width);
  return {
    add(cycle: number, modulus: number): void {
      if (kept.length > 0 && cellOf(kept[kept.length - 1].cycle) === cellOf(cycle)) return;
      kept.push({cycle, modulus});
      while (kept.length > most) {
        width *= 2;
        kept = kept.filter((point, i) => i === 0 || cellOf(point.cycle) !== cellOf(kept[i - 1].cycle));
      }
    },
    finish(cycle: number, modulus: number): Pick<StiffnessSummary, "cycles" | "modulus"> {
      const all = kept[kept.length - 1]?.cycle === cycle ? kept : [...kept, {cycle, modulus}];
      return {
        cycles: Float64Array.from(all, point => point.cycle),
        modulus: Float64Array.from(all, point => point.modulus),
      };
    },
  };
}

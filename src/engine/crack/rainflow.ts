import {InputError} from "../errors.ts";

/** Receives one counted cycle: its range ≥ 0, its mean, and 1 for a whole cycle or 0.5 for half of one. */
export type CycleVisitor = (range: number, mean: number, count: 0.5 | 1) => void;

/**
 * The first value, every value at which the direction turns, and the last; repeated values count once. A constant
 * series gives its single value.
 *
 * @throws InputError "domain" at a value that is not finite
 */
export function turningPoints(series: Float64Array): Float64Array {
  const points = new Float64Array(series.length);
  let count = 0;
  for (let i = 0; i < series.length; i++) {
    const x = series[i];
    if (!Number.isFinite(x)) throw notFinite(i, x);
    count = withNext(points, count, x);
  }
  return points.slice(0, count);
}

/**
 * Takes up the next value of a series into its turning points, so that a long series need never be stored.
 *
 * @param points  the turning points of all values before, the first `count` entries; written at or just before `count`
 * @returns       their new number
 */
export function withNext(points: Float64Array, count: number, x: number): number {
  if (count === 0) {
    points[0] = x;
    return 1;
  }
  const last = points[count - 1];
  if (x === last) return count;
  const onward = count > 1 && x > last === last > points[count - 2];
  points[onward ? count - 1 : count] = x;
  return onward ? count : count + 1;
}

/**
 * Rainflow count of a history that happens once. With X the range of the last two turning points and Y the one before
 * it: while X ≥ Y, Y is a whole cycle and its two points are taken out, or half a cycle when it begins at the start of
 * the history, which then moves on by one point. What is left at the end are half cycles.
 *
 * Sum of counts times two = number of ranges in the turning points.
 *
 * @param series  any length; not changed
 * @param stack   scratch, as long as the series; overwritten
 * @throws InputError "domain" at a value that is not finite; "shape" when the stack is too short
 * @source ASTM E1049-85 (2017), section 5.4.4; docs/theory/cycles.md
 */
export function rainflow(series: Float64Array, visit: CycleVisitor, stack = new Float64Array(series.length)): void {
  count({series, length: series.length, start: 0, closed: false, stack}, visit);
}

/**
 * Rainflow count of one period of a history that repeats: it starts and ends at the period's largest value, and all
 * cycles are whole. The largest cycle is that from the largest to the smallest value.
 *
 * Parameters and errors as in `rainflow`, but the stack is one longer than the series.
 *
 * @source ASTM E1049-85 (2017), section 5.4.5 (simplified rainflow for repeating histories)
 */
export function repeatingRainflow(
  series: Float64Array,
  visit: CycleVisitor,
  stack = new Float64Array(series.length + 1),
): void {
  count({series, length: series.length, start: largest(series, series.length), closed: true, stack}, visit);
}

/**
 * Σ count·range^exponent over the rainflow cycles of the first `length` values, a history that happens once.
 * Scratch and errors as in `rainflow`.
 */
export function rainflowDamage(series: Float64Array, length: number, exponent: number, stack: Float64Array): number {
  return damage({series, length, start: 0, closed: false, stack}, exponent);
}

/** The same for one period of a history that repeats; the stack is one longer than `length`. */
export function repeatingRainflowDamage(
  series: Float64Array,
  length: number,
  exponent: number,
  stack: Float64Array,
): number {
  return damage({series, length, start: largest(series, length), closed: true, stack}, exponent);
}

interface History {
  readonly series: Float64Array;
  readonly length: number; // values of the series that are used
  readonly start: number; // index at which counting starts
  readonly closed: boolean; // runs past the end round to the start again
  readonly stack: Float64Array; // overwritten
}

function damage(history: History, exponent: number): number {
  if (!Number.isFinite(exponent)) throw new InputError("domain", "exponent", exponent, "finite [–]");
  let sum = 0;
  count(history, (range, _, cycles) => {
    sum += cycles * range ** exponent;
  });
  return sum;
}

/**
 * One pass over the values. The stack holds turning points not yet counted, and on top the last value, which stands
 * for a turning point only once the direction turns.
 */
function count({series, length, start, closed, stack}: History, visit: CycleVisitor): void {
  if (!(Number.isInteger(length) && length >= 0 && length <= series.length)) {
    throw new InputError("domain", "length", length, `whole number, 0 to ${series.length}`);
  }
  const values = closed && length > 0 ? length + 1 : length;
  if (stack.length < values) throw new InputError("shape", "stack.length", stack.length, `≥ ${values}`);
  if (values === 0) return;

  let top = 0; // index of the last entry of the stack
  let rising = 0; // direction of the last range: −1, 0 (none yet), 1
  let last = series[start];
  if (!Number.isFinite(last)) throw notFinite(start, last);
  stack[0] = last;
  for (let k = 1, i = start + 1; k < values; k++, i++) {
    if (i === length) i = 0;
    const x = series[i];
    const change = x - last;
    if (change === 0) continue;
    if (!(change > -Infinity && change < Infinity)) throw notFinite(i, x);
    const direction = change > 0 ? 1 : -1;
    last = x;
    if (direction === rising) {
      stack[top] = x; // the same range goes on
      continue;
    }
    if (rising !== 0) top = close(stack, top, closed, visit); // the top was a turning point
    rising = direction;
    stack[++top] = x;
  }
  top = close(stack, top, closed, visit);
  for (let i = 0; i < top; i++) visit(Math.abs(stack[i + 1] - stack[i]), 0.5 * (stack[i + 1] + stack[i]), 0.5);
}

/** Counts what the turning point on top closes; returns the new top. */
function close(stack: Float64Array, top: number, closed: boolean, visit: CycleVisitor): number {
  while (top >= 2) {
    const from = stack[top - 2];
    const to = stack[top - 1];
    const range = Math.abs(to - from);
    if (Math.abs(stack[top] - to) < range) break;
    if (top === 2 && !closed) {
      visit(range, 0.5 * (from + to), 0.5);
      stack[0] = to;
      stack[1] = stack[2];
      top = 1;
    } else {
      visit(range, 0.5 * (from + to), 1);
      stack[top - 2] = stack[top];
      top -= 2;
    }
  }
  return top;
}

/** Index of the largest value, the first of equals; 0 for an empty series. */
function largest(series: Float64Array, length: number): number {
  let at = 0;
  for (let i = 1; i < length; i++) if (series[i] > series[at]) at = i;
  return at;
}

function notFinite(index: number, got: number): InputError {
  return new InputError("domain", `series[${index}]`, got, "finite");
}

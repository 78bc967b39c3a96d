/** One input at a time: what moves the answer, and by how much. */
import type {ChangedLife} from "../life/index.ts";

/** Lives that are longer count as this one where spreads are shared out: nobody sees the difference. [years] */
export const LONGEST_COUNTED = 1000;

/** Lives with one input at its 10 and at its 90 % quantile, everything else as in the study. */
export interface InputSwing {
  readonly name: string;
  readonly low: readonly ChangedLife[]; // by treatment
  readonly high: readonly ChangedLife[];
}

export interface Swing {
  readonly name: string;
  readonly low: number; // the quantity with the input at its low quantile
  readonly high: number;
  readonly share: number; // of the sum of squared swings of its ln [–]
}

/**
 * Swings of a quantity that lives give, such as the life of one treatment or the ratio of two, the largest first. Shares are
 * of squared swings of its ln: of the variance, as far as inputs act alone.
 */
export function swingsOf(inputs: readonly InputSwing[], quantity: (lives: readonly ChangedLife[]) => number): Swing[] {
  const all = inputs.map(({name, low, high}) => ({name, low: quantity(low), high: quantity(high)}));
  const squares = all.map(({low, high}) => Math.log(high / low) ** 2);
  const total = squares.reduce((sum, s) => sum + s, 0);
  return all
    .map((one, k): Swing => ({...one, share: total > 0 ? squares[k] / total : 0}))
    .sort((a, b) => b.share - a.share);
}

/** Inputs with less of it are not worth a word [–]. */
const WORTH_A_WORD = 0.1;

/** "the life of X depends mostly on A (58 %), then on B (20 %)". */
export function swingSentence(what: string, swings: readonly Swing[]): string {
  const [first, ...rest] = swings.filter(s => s.share >= WORTH_A_WORD);
  const percent = (share: number): string => `${(100 * share).toFixed(0)} %`;
  if (!first) return `${what} depends on many inputs, on none of them mostly.`;
  const then = rest.map(s => `${s.name} (${percent(s.share)})`);
  const further = then.length === 0 ? "" : `, then on ${then.join(" and ")}`;
  return `${what} depends mostly on ${first.name} (${percent(first.share)} of the spread)${further}.`;
}

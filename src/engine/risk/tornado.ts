import {InputError} from "../errors.ts";
import {requireShare} from "./ordered.ts";

/** Points that move one input at a time: all at their medians first, then each input to its low and its high quantile. */
export interface TornadoDesign {
  readonly dimensions: number;
  readonly low: number; // probability [–]
  readonly high: number;
  readonly rows: number; // 2·dimensions + 1
  readonly points: Float64Array; // row-major rows × dimensions
}

/** @throws InputError "domain" unless 0 < low < high < 1 */
export function tornadoDesign(dimensions: number, low = 0.1, high = 0.9): TornadoDesign {
  requireShare("low", low);
  requireShare("high", high);
  if (!(low < high)) throw new InputError("domain", "low", low, `< ${high}`);
  if (!(Number.isInteger(dimensions) && dimensions >= 1))
    throw new InputError("domain", "dimensions", dimensions, "a whole number ≥ 1");
  const rows = 2 * dimensions + 1;
  const points = new Float64Array(rows * dimensions).fill(0.5);
  for (let d = 0; d < dimensions; d++) {
    points[(1 + 2 * d) * dimensions + d] = low;
    points[(2 + 2 * d) * dimensions + d] = high;
  }
  return {dimensions, low, high, rows, points};
}

export interface TornadoBar {
  readonly input: number; // its dimension
  readonly atLow: number; // the value with this input at its low quantile
  readonly atHigh: number;
  readonly swing: number; // |atHigh − atLow|
}

export interface Tornado {
  readonly base: number; // the value with all inputs at their medians
  readonly bars: readonly TornadoBar[]; // the longest first
}

/** @param values one for each row of the design, in its order */
export function tornado(design: TornadoDesign, values: ArrayLike<number>): Tornado {
  if (values.length !== design.rows)
    throw new InputError("shape", "values.length", values.length, `${design.rows}, one for each row of the design`);
  for (let i = 0; i < values.length; i++)
    if (!Number.isFinite(values[i])) throw new InputError("domain", `values[${i}]`, values[i], "finite");
  const bars = Array.from({length: design.dimensions}, (_, input) => {
    const [atLow, atHigh] = [values[1 + 2 * input], values[2 + 2 * input]];
    return {input, atLow, atHigh, swing: Math.abs(atHigh - atLow)};
  });
  return {base: values[0], bars: bars.sort((a, b) => b.swing - a.swing || a.input - b.input)};
}

/**
 * Exponential and natural logarithm with the same bits everywhere. Those of JavaScript engines differ in the last bit of a
 * tenth of their values, from version to version; an iteration that ends at a tolerance makes a difference of it that shows.
 */
import expOf from "@stdlib/math-base-special-exp";
import lnOf from "@stdlib/math-base-special-ln";

export function exp(x: number): number {
  return expOf(x);
}

export function ln(x: number): number {
  return lnOf(x);
}

/** What a truncation keeps of a distribution. */
import {normalCdf} from "../statistics/index.ts";
import type {Distribution} from "./types.ts";

/** Values with probabilities: of a distribution that has no density. */
export interface Atoms {
  readonly values: readonly number[]; // ascending
  readonly probabilities: readonly number[]; // [–]
}

/** Probabilities that a truncation leaves below, within and above its limits [–]; their sum is 1. */
export interface Cut {
  readonly below: number;
  readonly kept: number;
  readonly above: number;
}

/** Standard deviation of ln x of a log-normal x: s² = ln(1 + V²). */
export function logDeviation(coefficientOfVariation: number): number {
  return Math.sqrt(Math.log1p(coefficientOfVariation * coefficientOfVariation));
}

/** The values of a distribution that has no density, its truncation not yet applied; null for one with a density. */
export function atomsOf(distribution: Distribution): Atoms | null {
  const one = (value: number): Atoms => ({values: [value], probabilities: [1]});
  switch (distribution.kind) {
    case "constant":
      return one(distribution.value);
    case "normal":
      return distribution.deviation === 0 ? one(distribution.mean) : null;
    case "lognormal":
      return distribution.coefficientOfVariation === 0 ? one(distribution.median) : null;
    case "uniform":
    case "triangular":
      return distribution.low === distribution.high ? one(distribution.low) : null;
    case "discrete":
      return sorted(distribution.values, distribution.weights);
    case "sample":
      return sorted(
        distribution.values,
        distribution.values.map(() => 1),
      );
  }
}

function sorted(values: readonly number[], weights: readonly number[]): Atoms {
  const order = values.map((_, i) => i).sort((i, j) => values[i] - values[j] || i - j);
  const total = weights.reduce((sum, w) => sum + w, 0);
  return {values: order.map(i => values[i]), probabilities: order.map(i => weights[i] / total)};
}

/** F, and its complement where that is asked for: each accurate in its own tail. */
function probability(distribution: Distribution, x: number, above: boolean): number {
  switch (distribution.kind) {
    case "normal": {
      const z = (x - distribution.mean) / distribution.deviation;
      return normalCdf(above ? -z : z);
    }
    case "lognormal": {
      if (x <= 0) return above ? 1 : 0;
      const z = Math.log(x / distribution.median) / logDeviation(distribution.coefficientOfVariation);
      return normalCdf(above ? -z : z);
    }
    case "uniform": {
      const {low, high} = distribution;
      if (x <= low) return above ? 1 : 0;
      if (x >= high) return above ? 0 : 1;
      return (above ? high - x : x - low) / (high - low);
    }
    case "triangular": {
      const {low, mode, high} = distribution;
      if (x <= low) return above ? 1 : 0;
      if (x >= high) return above ? 0 : 1;
      const isTail = x <= mode; // of the lower tail
      const tail = isTail ? (x - low) ** 2 / (mode - low) : (high - x) ** 2 / (high - mode);
      return isTail === above ? 1 - tail / (high - low) : tail / (high - low);
    }
    default:
      throw new RangeError(`${distribution.kind} has no density`);
  }
}

/** Probabilities below, within and above the limits. Values on a limit are within. */
export function cutOf(distribution: Distribution): Cut {
  const {truncated} = distribution;
  if (!truncated) return {below: 0, kept: 1, above: 0};
  const {low, high} = truncated;
  const atoms = atomsOf(distribution);
  if (atoms) {
    const sum = (lies: (x: number) => boolean): number =>
      atoms.probabilities.reduce((total, p, i) => (lies(atoms.values[i]) ? total + p : total), 0);
    return {below: sum(x => x < low), kept: sum(x => x >= low && x <= high), above: sum(x => x > high)};
  }
  const below = probability(distribution, low, false);
  const above = probability(distribution, high, true);
  return {below, kept: 1 - below - above, above};
}

/** Atoms within the limits, their probabilities scaled up to a sum of 1. */
export function atomsWithin(atoms: Atoms, distribution: Distribution): Atoms {
  const {low, high} = distribution.truncated ?? {low: -Infinity, high: Infinity};
  const kept = atoms.values.map((_, i) => i).filter(i => atoms.values[i] >= low && atoms.values[i] <= high);
  return sorted(
    kept.map(i => atoms.values[i]),
    kept.map(i => atoms.probabilities[i]),
  );
}

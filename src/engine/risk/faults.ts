import {InputError} from "../errors.ts";
import {cutOf} from "./truncation.ts";
import type {Distribution} from "./types.ts";

/** Largest part of a distribution that a truncation may cut away [–]: beyond it the untruncated one was not meant. */
export const LARGEST_CUT = 0.5;

/**
 * Everything wrong with a distribution, for a reader that tells all faults at once.
 *
 * @param path what the distribution is called in messages
 */
export function faultsOf(distribution: Distribution, path = "distribution"): readonly InputError[] {
  const own = parameterFaults(distribution).map(({field, got, need}) => error(`${path}.${field}`, got, need));
  const {truncated} = distribution;
  if (own.length > 0 || !truncated) return own;
  const {low, high} = truncated;
  if (!(low < high)) return [error(`${path}.truncated`, `${low} to ${high}`, "low < high")];
  const {below, above} = cutOf(distribution);
  const mass = below + above;
  if (mass <= LARGEST_CUT) return [];
  return [error(`${path}.truncated`, `${(100 * mass).toPrecision(3)} % cut away`, `≤ ${100 * LARGEST_CUT} %`)];
}

/** @throws InputError "domain", the first fault */
export function requireSound(distribution: Distribution): void {
  const [first] = faultsOf(distribution);
  if (first) throw first;
}

/**
 * Probability that the truncation takes away [–]; 0 without one.
 *
 * @throws InputError "domain" when the distribution has a fault
 */
export function massCut(distribution: Distribution): number {
  requireSound(distribution);
  const {below, above} = cutOf(distribution);
  return below + above;
}

const error = (path: string, got: unknown, need: string): InputError => new InputError("domain", path, got, need);

interface Fault {
  readonly field: string;
  readonly got: unknown;
  readonly need: string;
}

type Rule = readonly [field: string, value: number, sound: (x: number) => boolean, need: string];
const finite = (field: string, value: number): Rule => [field, value, Number.isFinite, "finite"];
const from0 = (field: string, value: number): Rule => [field, value, x => x >= 0 && x < Infinity, "finite, ≥ 0"];
const above0 = (field: string, value: number): Rule => [field, value, x => x > 0 && x < Infinity, "finite, > 0"];
const atLeast = (field: string, value: number, other: string, least: number): Rule => [
  field,
  value,
  x => Number.isFinite(x) && !(x < least),
  `finite, ≥ ${other}`,
];

function rulesOf(distribution: Distribution): readonly Rule[] {
  switch (distribution.kind) {
    case "constant":
      return [finite("value", distribution.value)];
    case "normal":
      return [finite("mean", distribution.mean), from0("deviation", distribution.deviation)];
    case "lognormal":
      return [
        above0("median", distribution.median),
        from0("coefficientOfVariation", distribution.coefficientOfVariation),
      ];
    case "uniform":
      return [finite("low", distribution.low), atLeast("high", distribution.high, "low", distribution.low)];
    case "triangular":
      return [
        finite("low", distribution.low),
        atLeast("mode", distribution.mode, "low", distribution.low),
        atLeast("high", distribution.high, "mode", distribution.mode),
      ];
    case "discrete": {
      const {values, weights} = distribution;
      return [
        ["values.length", values.length, n => n > 0, "≥ 1"],
        ["weights.length", weights.length, n => n === values.length, `${values.length}, one for each value`],
        ...values.map((x, i) => finite(`values[${i}]`, x)),
        ...weights.map((w, i) => from0(`weights[${i}]`, w)),
        ["weights' sum", weights.reduce((sum, w) => sum + w, 0), sum => sum !== 0, "> 0"],
      ];
    }
    case "sample":
      return [
        ["values.length", distribution.values.length, n => n > 0, "≥ 1"],
        ...distribution.values.map((x, i) => finite(`values[${i}]`, x)),
      ];
  }
}

function parameterFaults(distribution: Distribution): Fault[] {
  return rulesOf(distribution).flatMap(([field, got, sound, need]) => (sound(got) ? [] : [{field, got, need}]));
}

import {InputError} from "../errors.ts";
import {
  type Interval,
  interceptCovariance,
  type LineEstimate,
  lineAt,
  lineVariance,
  twoSidedT,
} from "../statistics/index.ts";
import {evenStrains} from "./fatigueLine.ts";
import type {Finding, MaterialFatigue} from "./fatigueTypes.ts";

const COMPARED_STRAINS = 41;

/** Lives of a material over those of a reference, at equal strain. */
export interface LifeComparison {
  readonly material: string;
  readonly reference: string;
  readonly probability: number; // of the interval, at one strain by itself
  readonly common: Interval | null; // strains at which both were tested; null: none [–]
  readonly strains: Float64Array; // over all that either was tested at, ends of `common` included [–]
  readonly ratio: Float64Array; // N/N_ref [–]
  readonly low: Float64Array;
  readonly high: Float64Array;
  readonly extrapolated: readonly boolean[]; // outside `common`
  readonly law: LawDifference;
  readonly findings: readonly Finding[];
}

/**
 * Fatigue laws N = C·ε^(−k) against one another. If cracks in both materials grow by A·ε^n at the same sizes, life is
 * inverse to A, so that ln A − ln A_ref = −(ln C − ln C_ref) and n − n_ref = k − k_ref.
 */
export interface LawDifference {
  readonly lnC: number; // ln C − ln C_ref, at strain 1 [–]
  readonly k: number; // k − k_ref [–]
  readonly lnCVariance: number;
  readonly kVariance: number;
  readonly covariance: number;
}

/**
 * lg(N/N_ref) is the difference of two independent lines, its variance the sum of theirs. Degrees of freedom by Welch &
 * Satterthwaite, since the two scatter differently:
 *
 *   ν = (v₁ + v₂)²/(v₁²/ν₁ + v₂²/ν₂)
 *
 * @throws InputError "domain" when one of them has no line
 * @source Welch 1947, Biometrika 34, 28–35; Satterthwaite 1946 (from memory)
 */
export function compareLives(
  material: MaterialFatigue,
  reference: MaterialFatigue,
  probability: number,
): LifeComparison {
  const line = lineOf(material);
  const other = lineOf(reference);
  const tested = material.testedStrains!; // where there is a line there are points
  const otherTested = reference.testedStrains!;
  const common = overlap(tested, otherTested);
  const strains = comparedStrains(tested, otherTested, common);
  const intervals = Array.from(strains, strain => ratioInterval(line, other, Math.log10(strain), probability));
  return {
    material: material.material,
    reference: reference.material,
    probability,
    common,
    strains,
    ratio: strains.map(strain => 10 ** (lineAt(line, Math.log10(strain)) - lineAt(other, Math.log10(strain)))),
    low: Float64Array.from(intervals, interval => interval.low),
    high: Float64Array.from(intervals, interval => interval.high),
    extrapolated: Array.from(strains, strain => common === null || strain < common.low || strain > common.high),
    law: lawDifference(line, other),
    findings: common === null ? [noCommonStrains(material.material, reference.material)] : [],
  };
}

function lineOf(material: MaterialFatigue): LineEstimate {
  if (material.line === null) throw new InputError("domain", material.material, null, "a fatigue line");
  return material.line;
}

function overlap(a: Interval, b: Interval): Interval | null {
  const low = Math.max(a.low, b.low);
  const high = Math.min(a.high, b.high);
  return low <= high ? {low, high} : null;
}

function comparedStrains(a: Interval, b: Interval, common: Interval | null): Float64Array {
  const even = evenStrains(Math.min(a.low, b.low), Math.max(a.high, b.high), COMPARED_STRAINS);
  const all = new Set([...even, ...(common === null ? [] : [common.low, common.high])]);
  return Float64Array.from(all).sort();
}

/** Interval of N/N_ref at x = lg ε. */
export function ratioInterval(line: LineEstimate, reference: LineEstimate, x: number, probability: number): Interval {
  const own = lineVariance(line, x);
  const others = lineVariance(reference, x);
  const variance = own + others;
  const centre = lineAt(line, x) - lineAt(reference, x);
  if (variance === 0) return {low: 10 ** centre, high: 10 ** centre}; // two lines without scatter
  const degrees = variance ** 2 / (own ** 2 / line.degrees + others ** 2 / reference.degrees);
  const half = twoSidedT(probability, degrees) * Math.sqrt(variance);
  return {low: 10 ** (centre - half), high: 10 ** (centre + half)};
}

export function lawDifference(line: LineEstimate, reference: LineEstimate): LawDifference {
  const own = interceptCovariance(line);
  const others = interceptCovariance(reference);
  return {
    lnC: Math.LN10 * (line.intercept - reference.intercept),
    k: reference.slope - line.slope,
    lnCVariance: Math.LN10 ** 2 * (own.intercept + others.intercept),
    kVariance: line.slopeVariance + reference.slopeVariance,
    covariance: -Math.LN10 * (own.both + others.both), // k = −A₁
  };
}

function noCommonStrains(material: string, reference: string): Finding {
  const text = `${material} and ${reference} were never tested at the same strain: every ratio is extrapolated.`;
  return {code: "no-common-strains", text, specimens: []};
}

/** Fatigue lines lg N = A₀ + A₁·lg ε of the materials of a programme. Theory: docs/theory/laboratory.md. */
import {InputError} from "../errors.ts";
import {
  type CensoredPoint,
  censoredLine,
  diagnose,
  fQuantile,
  type LineEstimate,
  lackOfFit,
  lineAt,
  lineBand,
  lineVariance,
  profileInterval,
  straightLine,
  tQuantile,
} from "../statistics/index.ts";
import type {
  FatigueBand,
  FatigueIntervals,
  FatigueLaw,
  FatiguePoint,
  Finding,
  LikelihoodLine,
  MaterialFatigue,
  PointDiagnosis,
  StandardLine,
  StrainLevel,
} from "./fatigueTypes.ts";
import {pointsByMaterial, strainLevels} from "./points.ts";
import {programmeFindings} from "./programmeChecks.ts";
import type {FatigueProgramme, Specimen} from "./types.ts";

/** Of the intervals and bands that are told. */
const PROBABILITIES = [0.9, 0.95] as const;
const BAND_STRAINS = 41;
const MILLION = 6; // lg N
/** Chance that a sound programme shows an outlier, or a straight line looks curved [–]. */
const SIGNIFICANCE = 0.05;

export function fatigueLines(programme: FatigueProgramme): MaterialFatigue[] {
  return [...pointsByMaterial(programme)].map(([material, points]) =>
    materialFatigue(material, points, programme.specimens),
  );
}

function materialFatigue(
  material: string,
  points: readonly FatiguePoint[],
  specimens: readonly Specimen[],
): MaterialFatigue {
  const levels = strainLevels(points);
  const findings = programmeFindings(points, levels, specimens);
  const used = points.filter(point => point.setAside === null).map(point => point.strain);
  const testedStrains = used.length > 0 ? {low: Math.min(...used), high: Math.max(...used)} : null;
  const obstacle = whyNoLine(points, levels);
  const standard = obstacle ? null : standardLine(points, levels);
  const likelihood = obstacle ? null : likelihoodLine(points, findings);
  const line = likelihood ?? standard;
  if (obstacle) findings.push(obstacle);
  if (standard) findings.push(...lineFindings(standard, points));
  if (line && testedStrains) findings.push(...lawFindings(line, testedStrains));
  const strains = testedStrains ? evenStrains(testedStrains.low, testedStrains.high, BAND_STRAINS) : null;
  const bands = line && strains ? PROBABILITIES.map(probability => fatigueBand(line, strains, probability)) : [];
  return {material, points, levels, testedStrains, standard, likelihood, line, bands, findings};
}

function whyNoLine(points: readonly FatiguePoint[], levels: readonly StrainLevel[]): Finding | null {
  const failed = points.filter(isFailed);
  const specimens = failed.map(point => point.name);
  if (failed.length < 3) {
    const text = `${failed.length} failed; a line and its scatter need three. No line.`;
    return {code: "few-failures", text, specimens};
  }
  const levelsWithFailures = levels.filter(level => level.points.some(i => isFailed(points[i])));
  if (levelsWithFailures.length > 1) return null;
  const text = "All failures are at one strain level, which leaves the slope open. No line.";
  return {code: "one-level", text, specimens};
}

const isFailed = (point: FatiguePoint): boolean => point.setAside === null && !point.runOut;

function lawOf(line: LineEstimate): FatigueLaw {
  const lg = line.centre + (MILLION - line.level) / line.slope;
  return {k: -line.slope, strainAtMillion: line.slope < 0 ? 10 ** lg : null};
}

/**
 * Least squares of lg N on lg ε over the failed specimens. With b = 1/A₁:
 *
 *   ε₆ = 10^((6−A₀)/A₁)    S₀ = s_N·√(1/n + (lg ε₆ − mean lg ε)²/Σ(lg ε − mean)²)
 *   Δε₆ = ½·ε₆·(10^(−2bS₀) − 10^(2bS₀))
 *
 * @source EN 12697-24 annex A (from memory)
 */
function standardLine(points: readonly FatiguePoint[], levels: readonly StrainLevel[]): StandardLine {
  const failed = points.flatMap((point, i) => (isFailed(point) ? [i] : []));
  const x = failed.map(i => Math.log10(points[i].strain));
  const y = failed.map(i => Math.log10(points[i].cycles));
  const level = failed.map(i => levels.findIndex(one => one.points.includes(i)));
  const line = straightLine(x, y);
  const law = lawOf(line);
  const exponent = 1 / line.slope;
  const strain = law.strainAtMillion;
  const millionError = strain === null ? null : Math.sqrt(lineVariance(line, Math.log10(strain)));
  return {
    ...line,
    ...law,
    exponent,
    millionError,
    strainError:
      strain === null || millionError === null
        ? null
        : 0.5 * strain * (10 ** (-2 * exponent * millionError) - 10 ** (2 * exponent * millionError)),
    lackOfFit: lackOfFit(line, x, y, level),
    diagnoses: diagnose(line, x, y).map((one, i) => flagged(one, failed[i], failed.length)),
  };
}

/**
 * An outlier has |t| > t(1 − α/2n; n−3), α = 0.05 over all n specimens together (Bonferroni); high leverage is more than
 * twice the mean, 2·2/n (Hoaglin & Welsch 1978); influential is Cook's D > F(½; 2, n−2), where leaving the specimen out
 * moves the line to the edge of its 50 % region (Cook 1977). Sources from memory. Nothing is deleted.
 */
function flagged(one: ReturnType<typeof diagnose>[number], point: number, n: number): PointDiagnosis {
  const bound = n > 3 ? tQuantile(1 - SIGNIFICANCE / (2 * n), n - 3) : Infinity;
  return {
    ...one,
    point,
    outlier: one.studentised !== null && Math.abs(one.studentised) > bound,
    highLeverage: one.leverage > 4 / n,
    influential: one.cookDistance !== null && one.cookDistance > fQuantile(0.5, 2, n - 2),
  };
}

/**
 * Maximum likelihood with run-outs. Intervals of ε₆ and k are those of the profile likelihood, because a run-out leaves
 * one side more open than the other; without run-outs they are Fieller's and Student's.
 */
function likelihoodLine(points: readonly FatiguePoint[], findings: Finding[]): LikelihoodLine | null {
  const observed = points
    .filter(point => point.setAside === null)
    .map(({strain, cycles, runOut}) => ({x: Math.log10(strain), y: Math.log10(cycles), censored: runOut}));
  try {
    const line = censoredLine(observed);
    const law = lawOf(line);
    const intervals = PROBABILITIES.map(probability => intervalsOf(observed, line, law, probability));
    return {...line, ...law, intervals};
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const text = `No line by maximum likelihood (${error.message}); the standard line leaves the run-outs out.`;
    findings.push({code: "no-likelihood", text, specimens: []});
    return null;
  }
}

function intervalsOf(
  observed: readonly CensoredPoint[],
  line: ReturnType<typeof censoredLine>,
  law: FatigueLaw,
  probability: number,
): FatigueIntervals {
  const million =
    law.strainAtMillion === null ? null : profileInterval(observed, line, {kind: "inverse", y: MILLION}, probability);
  const slope = profileInterval(observed, line, {kind: "slope"}, probability)!; // only an inverse can be null
  return {
    probability,
    strainAtMillion: million && {low: 10 ** million.low, high: 10 ** million.high},
    k: {low: -slope.high, high: -slope.low},
  };
}

function lineFindings(line: StandardLine, points: readonly FatiguePoint[]): Finding[] {
  const findings: Finding[] = [];
  const kinds = [
    ["outlier", "outlier", "far off the line, farther than chance allows in one programme of twenty"],
    ["high-leverage", "highLeverage", "at a strain so far from the others that it holds the line by itself"],
    ["influential", "influential", "moves the whole line"],
  ] as const;
  for (const [code, flag, text] of kinds) {
    const specimens = line.diagnoses.filter(one => one[flag]).map(one => points[one.point].name);
    if (specimens.length > 0) findings.push({code, text: `${specimens.join(", ")}: ${text}.`, specimens});
  }
  if (line.lackOfFit && line.lackOfFit.probability < SIGNIFICANCE) {
    const text = `Level means depart from a straight line more than scatter explains (F = ${line.lackOfFit.f.toPrecision(3)}).`;
    findings.push({code: "curved", text, specimens: []});
  }
  return findings;
}

function lawFindings({strainAtMillion}: FatigueLaw, tested: {readonly low: number; readonly high: number}): Finding[] {
  if (strainAtMillion === null)
    return [{code: "not-falling", text: "Life does not fall with strain: ε₆ does not exist.", specimens: []}];
  if (strainAtMillion >= tested.low && strainAtMillion <= tested.high) return [];
  const text = "ε₆ lies outside the strains that were tested: it is extrapolated.";
  return [{code: "strain-extrapolated", text, specimens: []}];
}

/** Line, confidence band and prediction band, each at one strain by itself. */
function fatigueBand(line: LineEstimate, strains: Float64Array, probability: number): FatigueBand {
  const cyclesOf = (lgOf: (x: number) => number): Float64Array => strains.map(strain => 10 ** lgOf(Math.log10(strain)));
  return {
    probability,
    strains,
    cycles: cyclesOf(x => lineAt(line, x)),
    confidenceLow: cyclesOf(x => lineBand(line, x, probability, "confidence").low),
    confidenceHigh: cyclesOf(x => lineBand(line, x, probability, "confidence").high),
    predictionLow: cyclesOf(x => lineBand(line, x, probability, "prediction").low),
    predictionHigh: cyclesOf(x => lineBand(line, x, probability, "prediction").high),
  };
}

/** Evenly in lg ε, both ends exact. */
export function evenStrains(low: number, high: number, count: number): Float64Array {
  const strains = Float64Array.from({length: count}, (_, i) => low * (high / low) ** (i / (count - 1)));
  strains[count - 1] = high;
  return strains;
}

/** The uncertain inputs of a study in the engine's terms, and what is wrong with them. */
import {InputError} from "../engine/errors.ts";
import {faultsOf, jointNormal, massCut} from "../engine/risk/index.ts";
import type {Distribution} from "../engine/risk/types.ts";
import type {RiskPlan, UncertainInput} from "../engine/uncertainty/types.ts";
import type {DocumentPath, Findings} from "./fault.ts";
import {pathText} from "./fault.ts";
import type {LawDocument} from "./law-file.ts";
import {nearest} from "./nearest.ts";
import {findPath} from "./paths.ts";
import {fromPercent} from "./si.ts";
import {type LawInput, lawSpread, scaleNames} from "./spreads.ts";
import type {StudyDocument} from "./study.ts";
import {usualInputs} from "./usual-inputs.ts";

type UncertaintyDocument = NonNullable<StudyDocument["uncertainty"]>;
type InputDocument = UncertaintyDocument["inputs"][number];

/** What an input's distribution is about when it says no more: the value in the study. */
interface Centre {
  readonly value: number;
  readonly scale: number; // document's unit to the engine's [–]
}

const AS_IT_IS: Centre = {value: 1, scale: 1};

/** @param raw the document as written, in which paths are looked up */
export function toRiskPlan(
  document: StudyDocument,
  raw: unknown,
  laws: ReadonlyMap<string, LawDocument>,
  findings: Findings,
): RiskPlan {
  const given = document.uncertainty;
  const inputs: UncertainInput[] = [];
  for (const [i, one] of (given?.inputs ?? []).entries()) {
    const input = inputOf(one, ["uncertainty", "inputs", i], {document, raw, laws}, findings);
    if (input) inputs.push(input);
  }
  if (!given || given.usual) inputs.push(...usualInputs(document, laws, inputs));
  return {
    inputs,
    reliability: fromPercent(given?.reliability_percent ?? 85),
    error: fromPercent(given?.standard_error_percent ?? 5),
    mostSamples: given?.most_samples ?? 4096,
    mostSolutions: given?.most_solutions ?? 128,
    seed: given?.seed ?? 1,
  };
}

interface Context {
  readonly document: StudyDocument;
  readonly raw: unknown;
  readonly laws: ReadonlyMap<string, LawDocument>;
}

const kinds = ["law", "fatigue_line", "relaxation", "scale", "field"] as const;

function inputOf(one: InputDocument, path: DocumentPath, context: Context, findings: Findings): UncertainInput | null {
  const named = kinds.filter(kind => one[kind] !== undefined);
  if (named.length !== 1) {
    findings.fault(path, {
      problem: named.length === 0 ? "what is uncertain is not said" : "two things at once are said to be uncertain",
      found: named.join(" and ") || "none of them",
      accepted: "one of law, fatigue_line, relaxation, scale and field",
    });
    return null;
  }
  const [kind] = named;
  if (kind === "law") return lawInput(one, path, context, findings);
  if (kind === "field") {
    const found = findPath(context.raw, one.field!);
    if (found.kind === "none" || typeof found.value !== "number") {
      findings.fault([...path, "field"], {
        problem: found.kind === "none" ? found.problem : "this field of the study is no number",
        accepted: "the path of a number, such as section.layers.overlay.thickness_mm",
        suggestion: found.kind === "none" ? found.suggestion : null,
      });
      return null;
    }
    const effect = {kind: "field", path: found.path} as const;
    return spreadInput(one, effect, one.name ?? pathText(found.path), {value: found.value, scale: 1}, path, findings);
  }
  if (kind === "scale") {
    const growth = one.scale === "growth_percent";
    const effect = {kind: growth ? "growth" : one.scale} as UncertainInput["effect"];
    const centre = growth ? {value: 0, scale: 0.01} : AS_IT_IS;
    return spreadInput(one, effect, one.name ?? scaleNames[one.scale!], centre, path, findings);
  }
  const material = one[kind]!;
  if (!knownMaterial(material, [...path, kind], context.document, findings)) return null;
  const effect = {kind: kind === "relaxation" ? "relaxation" : "fatigue", material} as const;
  const name = one.name ?? `${kind === "relaxation" ? "relaxation of" : "fatigue line of"} ${material}`;
  return spreadInput(one, effect, name, AS_IT_IS, path, findings);
}

function knownMaterial(name: string, path: DocumentPath, {materials}: StudyDocument, findings: Findings): boolean {
  if (Object.hasOwn(materials, name)) return true;
  const meant = nearest(name, Object.keys(materials));
  findings.fault(path, {
    problem: "there is no material of this name",
    accepted: Object.keys(materials).join(", "),
    suggestion: meant === null ? null : `did you mean ${meant}?`,
  });
  return false;
}

function lawInput(
  one: InputDocument,
  path: DocumentPath,
  {document, laws}: Context,
  findings: Findings,
): UncertainInput | null {
  const material = one.law!;
  if (!knownMaterial(material, [...path, "law"], document, findings)) return null;
  if (!document.materials[material].crack_growth) {
    findings.fault([...path, "law"], {problem: "this material has no growth law", accepted: "a material that has one"});
    return null;
  }
  const joint = soundSpread(lawSpread(one, laws.get(material)), path, findings);
  if (joint === "faulty") return null;
  if (!joint) {
    findings.fault(path, {
      problem: "how sure the law is is not known",
      accepted: "a material whose law file has a covariance; or ln_A_deviation, with n_deviation and correlation",
    });
    return null;
  }
  return {name: one.name ?? `law of ${material}`, effect: {kind: "law", material}, ...joint};
}

/** A covariance that is none is told here rather than in the middle of a run. */
function soundSpread(spread: LawInput | null, path: DocumentPath, findings: Findings): LawInput | null | "faulty" {
  if (!spread) return null;
  try {
    jointNormal(spread.joint);
    return spread;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    findings.fault(path, {
      problem: `ln A and n cannot vary like that: ${error.message}`,
      accepted: "variances > 0 and a correlation between −1 and 1",
    });
    return "faulty";
  }
}

/** Part of a distribution that may be cut away without a word [–]. */
const silentCut = 0.01;

function spreadInput(
  one: InputDocument,
  effect: UncertainInput["effect"],
  name: string,
  centre: Centre,
  path: DocumentPath,
  findings: Findings,
): UncertainInput | null {
  const given = (["normal", "lognormal", "uniform", "triangular", "discrete", "sample"] as const).filter(
    key => one[key] !== undefined,
  );
  if (given.length !== 1) {
    findings.fault(path, {
      problem: given.length === 0 ? "how it is spread is not said" : "it has more than one distribution",
      found: given.join(" and ") || "no distribution",
      accepted: "one of normal, lognormal, uniform, triangular, discrete and sample",
    });
    return null;
  }
  const distribution = scaled(distributionOf(one, centre.value), centre.scale);
  const faults = faultsOf(distribution, given[0]);
  for (const fault of faults)
    findings.fault([...path, given[0]], {problem: `this is no distribution: ${fault.message}`, accepted: fault.need});
  if (faults.length > 0) return null;
  const cut = massCut(distribution);
  if (cut > silentCut)
    findings.warn([...path, "truncated"], {
      problem: `the limits cut away ${(100 * cut).toFixed(0)} % of the distribution; what is left is scaled up`,
      accepted: "limits in the tails",
    });
  return {name, effect, distribution};
}

function distributionOf(one: InputDocument, centre: number): Distribution {
  const {low = -Infinity, high = Infinity} = one.truncated ?? {};
  const truncated = one.truncated && {truncated: {low, high}};
  if (one.normal) {
    const {mean = centre, deviation, cv_percent} = one.normal;
    const spread = deviation ?? Math.abs(mean) * fromPercent(cv_percent ?? 0);
    return {kind: "normal", mean, deviation: spread, ...truncated};
  }
  if (one.lognormal) {
    const {median = centre, cv_percent} = one.lognormal;
    return {kind: "lognormal", median, coefficientOfVariation: fromPercent(cv_percent), ...truncated};
  }
  if (one.uniform) return {kind: "uniform", ...one.uniform, ...truncated};
  if (one.triangular) return {kind: "triangular", ...one.triangular, mode: one.triangular.mode ?? centre, ...truncated};
  if (one.discrete)
    return {
      kind: "discrete",
      values: one.discrete.map(v => v.value),
      weights: one.discrete.map(v => v.weight),
      ...truncated,
    };
  return {kind: "sample", values: one.sample!, ...truncated};
}

/** In the engine's unit. */
function scaled(distribution: Distribution, factor: number): Distribution {
  if (factor === 1) return distribution;
  const by = (x: number): number => factor * x;
  const truncated = distribution.truncated && {
    truncated: {low: by(distribution.truncated.low), high: by(distribution.truncated.high)},
  };
  switch (distribution.kind) {
    case "constant":
      return {...distribution, value: by(distribution.value)};
    case "normal":
      return {...distribution, mean: by(distribution.mean), deviation: by(distribution.deviation), ...truncated};
    case "lognormal":
      return {...distribution, median: by(distribution.median), ...truncated};
    case "uniform":
      return {...distribution, low: by(distribution.low), high: by(distribution.high), ...truncated};
    case "triangular":
      return {
        ...distribution,
        low: by(distribution.low),
        mode: by(distribution.mode),
        high: by(distribution.high),
        ...truncated,
      };
    case "discrete":
    case "sample":
      return {...distribution, values: distribution.values.map(by), ...truncated};
  }
}

/** What a point of a survey says about a treatment against the control. */
import {type Governing, governingOf, REFLECTION} from "./record.ts";
import type {TreatmentPoint} from "./types.ts";

/**
 * Lives beyond the longest that is told are no prediction: then the ratio is a bound, or there is none.
 *
 * ratio: both lives end; atLeast: the treated section outlasts what is told; none: the control does, or both
 */
export interface Judgement {
  readonly kind: "ratio" | "atLeast" | "none";
  readonly ratio: number; // of the governing lives [–]; atLeast: its bound; none: as computed
  readonly control: Governing;
  readonly treated: Governing;
  readonly cause: Cause; // of the treated section's end
  readonly effect: Effect;
}

/** What ends the treated section: reflection by its driver, fatigue away from the joint, or nothing within what is told. */
export type Cause = "traffic" | "temperature" | "both" | "reflection" | "ordinary" | "nothing";

/**
 * gain and same: within what the model can tell apart or above. Harm by what was lost of the overlay, or by the soft course
 * itself. waste: the control lasts as it is
 */
export type Effect = "gain" | "same" | "harm by thinner overlay" | "harm" | "waste";

/** Ratios this close to 1 are told as no difference. */
const NO_DIFFERENCE = 0.1;

/** A cause rules when its own life is shorter than this part of the other's; as in the report of a life. */
const RULES_BELOW = 0.5;

const SAME_THICKNESS = 1e-4; // [m]

/** @param longest that is told as a prediction [years] */
export function judge(control: TreatmentPoint, treated: TreatmentPoint, longest: number): Judgement {
  const [a, b] = [governingOf(control), governingOf(treated)];
  const open = (life: Governing): boolean => life.censored || life.years > longest;
  const kind = open(a) ? "none" : open(b) ? "atLeast" : "ratio";
  const ratio = (kind === "atLeast" ? Math.min(b.years, longest) : b.years) / a.years;
  return {
    kind,
    ratio,
    control: a,
    treated: b,
    cause: open(b) ? "nothing" : causeOf(treated, b),
    effect: effectOf({kind, ratio, open: open(b), thinner: treated.overlay < control.overlay - SAME_THICKNESS}),
  };
}

function causeOf({lives}: TreatmentPoint, {mechanism}: Governing): Cause {
  if (!Object.values(REFLECTION).includes(mechanism)) return "ordinary";
  const [traffic, thermal] = [lives[REFLECTION.traffic], lives[REFLECTION.thermal]];
  if (!traffic || !thermal) return traffic ? "traffic" : thermal ? "temperature" : "reflection";
  if (!traffic.censored && traffic.years < RULES_BELOW * thermal.years) return "traffic";
  if (!thermal.censored && thermal.years < RULES_BELOW * traffic.years) return "temperature";
  return "both";
}

interface Compared {
  readonly kind: Judgement["kind"];
  readonly ratio: number;
  readonly open: boolean; // the treated life
  readonly thinner: boolean; // the treated overlay
}

function effectOf({kind, ratio, open, thinner}: Compared): Effect {
  if (kind === "none" && open) return "waste";
  if (ratio > 1 + NO_DIFFERENCE) return "gain";
  if (ratio >= 1 - NO_DIFFERENCE) return "same";
  return thinner ? "harm by thinner overlay" : "harm";
}

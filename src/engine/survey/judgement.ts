/** What a point of a survey says about a treatment against the control. */
import {type Governing, governingOf, REFLECTION} from "./record.ts";
import type {TreatmentPoint} from "./types.ts";

/**
 * Lives beyond the longest that is told are no prediction: then the ratio is a bound, or there is none.
 *
 * ratio: both lives end; atLeast: the treated section outlasts what is told; atMost: the control does; none: both do
 */
export interface Judgement {
  readonly kind: "ratio" | "atLeast" | "atMost" | "none";
  readonly ratio: number; // of the governing lives, none longer than what is told [–]: the ratio or its bound; none: 1
  readonly control: Governing;
  readonly treated: Governing;
  readonly cost: number | null; // present worth over the control's [–]; null: not known
  readonly cause: Cause; // of the treated section's end
  readonly effect: Effect;
}

/** What ends the treated section: reflection by its driver, fatigue away from the joint, or nothing within what is told. */
export type Cause = "traffic" | "temperature" | "both" | "reflection" | "ordinary" | "nothing";

/** Harm by what was lost of the overlay, or by the treatment itself; waste: the control lasts as it is. */
export type Effect = "gain" | "harm by thinner overlay" | "harm" | "waste";

/** A cause rules when its own life is shorter than this part of the other's; as in the report of a life. */
const RULES_BELOW = 0.5;

const SAME_THICKNESS = 1e-4; // [m]

/** @param longest that is told as a prediction [years] */
export function judge(control: TreatmentPoint, treated: TreatmentPoint, longest: number): Judgement {
  const [a, b] = [governingOf(control), governingOf(treated)];
  const open = (life: Governing): boolean => life.censored || life.years > longest;
  const kind = open(a) ? (open(b) ? "none" : "atMost") : open(b) ? "atLeast" : "ratio";
  const ratio = Math.min(b.years, longest) / Math.min(a.years, longest);
  return {
    kind,
    ratio,
    control: a,
    treated: b,
    cost: treated.presentWorth && control.presentWorth ? treated.presentWorth / control.presentWorth : null,
    cause: open(b) ? "nothing" : causeOf(treated, b),
    effect:
      kind === "none"
        ? "waste"
        : ratio >= 1
          ? "gain"
          : isThinner(treated, control)
            ? "harm by thinner overlay"
            : "harm",
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

function isThinner(treated: TreatmentPoint, control: TreatmentPoint): boolean {
  return treated.overlay < control.overlay - SAME_THICKNESS;
}

/** What to know before a fitted law is believed: warnings as data. */
import {TIPS} from "../response/index.ts";
import type {BeamFit} from "./beamFit.ts";
import {largestRange} from "./beamGrowth.ts";
import type {BeamCase, LawOrigin} from "./beamLaws.ts";
import {breakage, meanReadings, shownDeviation} from "./beamObservations.ts";
import type {BeamTest} from "./beamTypes.ts";
import type {ChoiceProfile} from "./choiceProfiles.ts";

export interface CalibrationWarning {
  readonly code:
    | "not converged"
    | "exponent not known"
    | "one strain level"
    | "few beams"
    | "from fatigue"
    | "interlayer whole"
    | "choice not known"
    | "ends lift"
    | "faces differ"
    | "nothing from above"
    | "none broke"
    | "set aside";
  readonly subjects: readonly string[]; // beams or materials
  readonly text: string; // a sentence
}

interface Found {
  readonly tests: readonly BeamTest[];
  readonly cases: readonly BeamCase[];
  readonly lifts: readonly number[];
  readonly origins: Readonly<Record<string, LawOrigin>>;
  readonly fit: BeamFit;
  readonly choices: readonly ChoiceProfile[];
}

const LOOSE_EXPONENT = 0.7; // standard error of n beyond which it is not known
const ONE_LEVEL = 1.25; // ratio of largest to smallest first tip strain below which beams are at one level
const FEW_BEAMS = 3;
const LIFT = 0.1; // of the settlement
const FACES = 2; // times the stated reading error

export function warningsOf({tests, cases, lifts, origins, fit, choices}: Found): CalibrationWarning[] {
  const warnings: CalibrationWarning[] = [];
  const warn = (code: CalibrationWarning["code"], subjects: readonly string[], text: string): void =>
    void warnings.push({code, subjects, text});
  if (!fit.converged)
    warn(
      "not converged",
      fit.materials,
      `The fit had not settled after ${fit.iterations} turns: do not use its numbers.`,
    );
  fit.materials.forEach((name, k) => {
    const own = cases.filter(({test}) => test.overlay.material === name || test.interlayer?.material === name);
    const error = Math.sqrt(fit.covariance[(2 * k + 1) * (fit.parameters.length + 1)]);
    const strains = own.map(c => firstStrain(c, c.test.overlay.material === name ? 1 : 0));
    const ratio = Math.max(...strains) / Math.min(...strains);
    if (error > LOOSE_EXPONENT)
      warn(
        "exponent not known",
        [name],
        `The exponent of ${name} has a standard error of ${error.toFixed(1)}: these beams do not tell it.`,
      );
    if (own.length > 1 && ratio < ONE_LEVEL)
      warn(
        "one strain level",
        [name],
        `All beams of ${name} begin within ${Math.round((ratio - 1) * 100)} % of one tip strain: its exponent rests on how each crack sped up, not on the level of load.`,
      );
    if (own.length < FEW_BEAMS)
      warn(
        "few beams",
        [name],
        `${name} is in ${own.length} beam${own.length > 1 ? "s" : ""} only: how beams differ comes from the other materials.`,
      );
  });
  for (const [name, origin] of Object.entries(origins)) {
    if (origin.kind === "relative")
      warn(
        "from fatigue",
        [name],
        `${name} did not crack visibly: its law is that of ${origin.to}, moved as their fatigue lines differ at equal strain.`,
      );
    if (origin.kind === "whole")
      warn(
        "interlayer whole",
        [name],
        `${name} did not crack visibly and has no fatigue line to go by: no law for it comes from this programme.`,
      );
  }
  const mostShear = Math.max(...cases.map(c => shearShare(c)));
  for (const {choice, known, values} of choices)
    if (!known)
      warn(
        "choice not known",
        [choice],
        `The readings allow every ${choice} tried, ${values[0]} to ${values[values.length - 1]}${choice === "crack interlock" ? " Pa/m" : ""}; in no beam is shear more than ${Math.ceil(100 * mostShear)} % of the square of its largest tip strain before it cracks. On a stiff slab, where shear governs, the gain of an interlayer hangs on it.`,
      );
  const lifted = cases.filter((_, k) => lifts[k] > LIFT).map(c => c.test.name);
  if (lifted.length)
    warn(
      "ends lift",
      lifted,
      "The ends of the beam rise as the wheel comes to an end of its travel, and the springs of the model hold them: if the beam lay loose there is less hogging than computed, so growth from above is too fast.",
    );
  const differing = cases.filter(({test}) => (shownDeviation([test], 3) ?? 0) > FACES * test.readingError);
  if (differing.length)
    warn(
      "faces differ",
      differing.map(c => c.test.name),
      "The two faces of the beam differ by more than the stated reading error: the crack was not straight across the width.",
    );
  if (!cases.some(({test}) => meanReadings(test).some(r => r.front === "upper")))
    warn("nothing from above", [], "No crack was read from above: its scatter is a guess.");
  if (!cases.some(({test}) => breakage(test).before !== null))
    warn("none broke", [], "No beam broke: lives are beyond what was seen.");
  const aside = tests.filter(t => t.setAside !== null);
  if (aside.length)
    warn(
      "set aside",
      aside.map(t => t.name),
      `Set aside by hand: ${aside.map(t => `${t.name} (${t.setAside})`).join(", ")}.`,
    );
  return warnings;
}

/** Largest range of tip strain on the beam without cracks, at one tip [–]. */
export function firstStrain({solution, cycles}: BeamCase, tip: number): number {
  return largestRange(cycles, firstRow(solution, tip));
}

/** Part of shear in the square of the largest tip strain under the wheel, on the beam without cracks [–]. */
export function shearShare({solution}: Pick<BeamCase, "solution">): number {
  const {opening, shear, positions} = solution;
  const from = firstRow(solution, 0) * positions.length;
  let [most, share] = [0, 0];
  for (let at = from; at < from + positions.length; at++) {
    const [open, across] = [Math.max(0, opening[at]) ** 2, shear[at] ** 2];
    if (open + across <= most) continue;
    most = open + across;
    share = across / most;
  }
  return share;
}

/** Row of the tables by state and tip: no cracks, and the tip in the interlayer (0, where there is one) or the overlay (1). */
function firstRow({cracks, interlayerThickness}: BeamCase["solution"], tip: number): number {
  return cracks.number[0] * TIPS.length + (tip === 0 && interlayerThickness > 0 ? 0 : 1);
}

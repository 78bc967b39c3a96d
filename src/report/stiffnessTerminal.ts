/** A master curve for a terminal: the answer first, then moduli, parameters and residuals. */

import {type BeyondTests, curveSummary} from "../engine/section/index.ts";
import {celsius, degrees, figures, hertz, hours} from "./format.ts";
import {paints, table, text, wrapped} from "./laboratoryTerminal.ts";
import {TOLD_TEMPERATURES} from "./stiffness.ts";
import {LOADING_TIMES, type StiffnessReading, stiffnessAnswer, USUAL_FREQUENCY} from "./stiffnessReport.ts";
import {curveRows, residualTexts} from "./stiffnessWords.ts";
import type {TerminalOptions} from "./terminalText.ts";

/** Ends with a newline. */
export function stiffnessTable(reading: StiffnessReading, options: TerminalOptions): string {
  const {width, bold, dim} = paints(options);
  const paper = {width, dim};
  const {shown, name} = reading;
  const {headline, details} = stiffnessAnswer(reading);
  const asked = {temperatures: TOLD_TEMPERATURES, frequency: USUAL_FREQUENCY, times: LOADING_TIMES};
  const moduli = curveSummary(shown, asked).map(r => [
    celsius(r.temperature),
    `${figures(r.modulus / 1e6)}${mark(r.beyond)}`,
    `${degrees(r.phase)}${mark(r.beyond)}`,
    ...r.relaxation.map(p => `${figures(p.modulus / 1e6)}${mark(p.beyond)}`),
  ]);
  const heading = [
    "Moduli, MPa",
    `|E*| ${hertz(USUAL_FREQUENCY)}`,
    "phase",
    ...LOADING_TIMES.map(time => `after ${hours(time)}`),
  ];
  const parameters = curveRows(shown).map(([what, value]) => `${what}: ${value}`);
  return text([
    ...wrapped([name], width).map(bold),
    ...wrapped([headline, ...details], width),
    "",
    ...table(heading, moduli, paper),
    ...(shown.curve.measured ? wrapped(["* extrapolated beyond the tests"], width).map(dim) : []),
    "",
    ...wrapped(parameters, width),
    "",
    ...residuals(reading, paper),
    "",
    ...wrapped([JUDGEMENT], width),
  ]);
}

const JUDGEMENT =
  "These numbers support, and never replace, the judgement of a qualified pavement engineer. Relaxation moduli lie beyond usual tests.";

function mark(beyond: BeyondTests | null): string {
  return beyond && (beyond.temperature !== 0 || beyond.decades !== 0) ? "*" : "";
}

/** Curve less reading, reading by reading. */
function residuals({shown: {points, fit}}: StiffnessReading, paper: Parameters<typeof table>[2]): string[] {
  if (!fit) return [];
  const rows = points.map((p, k) => {
    const missed = residualTexts(fit, k);
    return [
      celsius(p.temperature),
      hertz(p.frequency),
      figures(p.modulus / 1e6),
      missed.modulus,
      p.phase === null ? "–" : degrees(p.phase),
      missed.phase,
    ];
  });
  return table(["Readings", "at", "|E*| MPa", "curve less it", "phase", "curve less it"], rows, paper);
}

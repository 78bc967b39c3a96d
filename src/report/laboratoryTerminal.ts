/** Laboratory results for a terminal: aligned tables, the answer first, warnings last. */

import type {Calibration, FatigueResult} from "../engine/laboratory/index.ts";
import {
  AT_STRAIN,
  beamRows,
  calibrationAnswer,
  choiceText,
  coefficientText,
  levelText,
  originText,
  otherMaterials,
  rateText,
  warningTexts,
} from "./calibration.ts";
import {comparedAt, fatigueAnswer, findingTexts, lineTexts} from "./fatigue.ts";
import {figures, intervalText, percent} from "./format.ts";
import {fitted, printable, type TerminalOptions, wrap} from "./terminalText.ts";

const WIDEST = 110; // [characters]

interface Paper {
  readonly width: number; // [characters]
  readonly dim: (text: string) => string;
}

/**
 * Rows of cells below a heading; the first column to the left, the others to the right. Where it is too wide, columns move
 * together, names are cut, and at last columns are left out from the right.
 */
export function table(heading: readonly string[], rows: readonly (readonly string[])[], {width, dim}: Paper): string[] {
  const wanted = Math.min(28, Math.max(...rows.map(r => r[0].length), heading[0].length, 8));
  const sizes = heading.map((h, k) => Math.max(h.length, ...rows.map(r => printable(r[k]).length)));
  const rest = (columns: number, gap: number): number => sizes.slice(1, columns).reduce((sum, s) => sum + gap + s, 0);
  let [columns, gap] = [heading.length, GAP];
  while (gap > 1 && wanted + rest(columns, gap) > width) gap--;
  while (columns > 2 && SHORTEST_NAME + rest(columns, gap) > width) columns--;
  const first = Math.max(Math.min(wanted, SHORTEST_NAME), Math.min(wanted, width - rest(columns, gap)));
  const line = (cells: readonly string[]): string =>
    printable(
      cells
        .slice(0, columns)
        .map((c, k) => (k === 0 ? fitted(c, first).padEnd(first) : c.padStart(sizes[k])))
        .join(" ".repeat(gap)),
    ).trimEnd();
  return [dim(line(heading)), ...rows.map(line)];
}

const GAP = 3;
const SHORTEST_NAME = 12;

export function fatigueTable(result: FatigueResult, options: TerminalOptions): string {
  const {width, bold, dim} = paints(options);
  const paper = {width, dim};
  const {materials, probability, comparisons} = result;
  const {headline, details} = fatigueAnswer(result);
  const rows = materials.map(m => {
    const own = lineTexts(m, probability);
    return [
      m.material,
      own.strain,
      own.strainInterval,
      own.k,
      own.kInterval,
      own.scatter,
      m.standard?.strainError ? figures(m.standard.strainError * 1e6, 2) : "–",
      `${own.specimens}${own.runOuts > 0 ? ` (${own.runOuts} run-out)` : ""}`,
    ];
  });
  const range = percent(probability);
  const heading = ["Material", "ε₆ µε", range, "k", range, "s lg N", "Δε₆ µε", "specimens"];
  const compared = comparisons.flatMap(c => {
    const rows = c.common
      ? [c.common.low, Math.sqrt(c.common.low * c.common.high), c.common.high].map(wanted => {
          const {strain, ratio, interval} = comparedAt(c, wanted);
          return [strain, ratio, interval];
        })
      : [];
    return rows.length
      ? ["", ...table([`Life of ${c.material} over ${c.reference}`, "ratio", range], rows, paper)]
      : [];
  });
  return text([
    ...wrapped([result.programme.name], width).map(bold),
    ...wrapped([headline, ...details], width),
    "",
    ...table(heading, rows, paper),
    ...compared,
    ...bulleted(findingTexts(result), width),
  ]);
}

/** @param name of the programme */
export function beamsTable(name: string, calibration: Calibration, options: TerminalOptions): string {
  const {width, bold, dim} = paints(options);
  const paper = {width, dim};
  const {estimates, choices, fit} = calibration;
  const {headline, details} = calibrationAnswer(calibration);
  const range = levelText(calibration);
  const laws = estimates.map(e => {
    const rate = rateText(e.rate);
    return [
      e.material,
      rate.value,
      rate.interval,
      figures(e.exponent.value),
      intervalText(e.exponent),
      coefficientText(e),
    ];
  });
  const others = otherMaterials(calibration).map(material => `${material}: ${originText(calibration, material)}`);
  const beams = beamRows(calibration).map(r => [
    r.name,
    r.observed,
    r.predicted,
    r.within === null ? "–" : r.interval,
    r.within === null ? "–" : r.within ? "yes" : "no",
    r.factor,
  ]);
  const choiceLines = choices.map(
    c =>
      `${c.choice}: ${c.known ? `readings allow ${c.allowed.map(v => choiceText(c.choice, v)).join(", ")}` : "not known from these beams"} (used: ${choiceText(c.choice, c.used)})`,
  );
  const scatter = `scatter of ln growth: ${figures(fit.scatter.beam, 2)} from beam to beam, ${figures(fit.scatter.upper, 2)} of growth from above; of exponents: ${figures(fit.scatter.exponent, 2)}`;
  return text([
    ...wrapped([name], width).map(bold),
    ...wrapped([headline, ...details], width),
    "",
    ...table([`dc/dN = A·ε^n`, `mm/cycle at ${AT_STRAIN}`, range, "n", range, "A mm, µε"], laws, paper),
    ...wrapped(others, width),
    "",
    ...table(["Passes to breaking", "observed", "predicted without it", range, "within", "own factor"], beams, paper),
    "",
    ...wrapped([...choiceLines, scatter], width),
    ...bulleted(warningTexts(calibration), width),
    "",
    ...wrapped([JUDGEMENT], width),
  ]);
}

const JUDGEMENT =
  "A and n belong together, with their process zone. They support, and never replace, the judgement of a qualified pavement engineer.";

export function wrapped(lines: readonly string[], width: number): string[] {
  return lines.flatMap(l => wrap(printable(l), width, ""));
}

export function bulleted(lines: readonly string[], width: number): string[] {
  if (!lines.length) return [];
  const points = lines.map(l => `- ${l}`);
  return ["", ...wrapped(points, width)];
}

export function paints({colour, width}: TerminalOptions) {
  return {
    width: Math.max(40, Math.min(width, WIDEST)),
    bold: (t: string): string => (colour ? `\u001b[1m${t}\u001b[0m` : t),
    dim: (t: string): string => (colour ? `\u001b[2m${t}\u001b[0m` : t),
  };
}

export function text(lines: readonly string[]): string {
  return `${lines.join("\n")}\n`;
}

/** A risk run for a terminal. */

import type {RiskResult} from "../engine/uncertainty/index.ts";
import {CAUTION_LINE} from "./cautions.ts";
import {percent} from "./format.ts";
import {
  cheapestText,
  dependence,
  estimateText,
  intervalAt,
  lifeAt,
  ratioBoundText,
  riskHeadlines,
  samplingText,
  survivalText,
} from "./risk.ts";
import {fitted, printable, type TerminalOptions, wrap} from "./terminalText.ts";

const FIRST = 24; // [characters]
const CELL = 15; // [characters]
const NARROWEST = 40; // [characters]

export function riskTable(result: RiskResult, {width: given}: TerminalOptions): string {
  const width = Math.max(NARROWEST, Math.min(given, 100));
  const {reliability} = result.plan;
  const shown = [...new Set([0.5, 0.85, 0.95, reliability])].sort((a, b) => a - b);
  const heads = [
    ...shown.map(r => `life at ${percent(r)}`),
    `lasts ${result.study.analysisPeriod} years`,
    "ratio, median",
  ];
  const row = (first: string, cells: readonly string[]): string =>
    printable(fitted(first, FIRST - 1).padEnd(FIRST) + cells.map(c => c.padStart(CELL)).join(""));
  const text = (t: string): string[] => wrap(printable(t), width, "");
  const lines = [
    ...text(result.study.name),
    ...riskHeadlines(result).flatMap(text),
    "",
    row("Years", heads),
    ...result.treatments.map(t =>
      row(t.name, [
        ...shown.map(r => lifeAt(t, r)),
        survivalText(t),
        t.ratio ? ratioBoundText(t.ratio.quantiles[1].ratio) : "×1",
      ]),
    ),
    "",
    ...result.treatments.flatMap(t =>
      text(`${t.name}: 90 % interval of the life at ${percent(reliability)}: ${intervalAt(t, reliability)} years.`),
    ),
    ...text(estimateText(result)),
    ...dependence(result).flatMap(text),
    ...text(cheapestText(result) ?? ""),
    "",
    ...text(samplingText(result)),
    ...text(CAUTION_LINE),
  ];
  return `${lines.join("\n")}\n`;
}

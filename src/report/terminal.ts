/** The result for a terminal: an aligned table, the governing mechanism and why, cautions in a line. */

import {studyCosts} from "../engine/cost/index.ts";
import type {LifeResult, TreatmentLife} from "../engine/life/types.ts";
import {answer, governingReason} from "./answer.ts";
import {CAUTION_LINE} from "./cautions.ts";
import {costLine} from "./costs.ts";
import {count, lifeText} from "./format.ts";
import {control, mechanismRows, rowName} from "./lives.ts";
import {fitted, printable, type TerminalOptions, wrap} from "./terminalText.ts";

type Paint = (code: "bold" | "dim" | "accent", text: string) => string;

const CODES = {bold: "\u001b[1m", dim: "\u001b[2m", accent: "\u001b[1;36m"} as const;
const RESET = "\u001b[0m";

/** Columns after the mechanism, in the order in which a narrow terminal loses them from the end of `DROP`. */
const COLUMNS = [
  {key: "years", title: "years", size: 8},
  {key: "axles", title: "standard axles", size: 16},
  {key: "passes", title: "passes", size: 14},
  {key: "ratio", title: "to control", size: 12},
] as const;

type Key = (typeof COLUMNS)[number]["key"];

const NARROWEST = 32; // [characters]
/** First column: mechanism and layer, where there is room for them. */
function firstColumn(width: number): number {
  return Math.min(36, Math.max(30, width - 8));
}

/** What fits: passes go first, then standard axles, then the ratio. */
function columnsFor(width: number): readonly (typeof COLUMNS)[number][] {
  let kept: readonly (typeof COLUMNS)[number][] = COLUMNS;
  for (const key of ["passes", "axles", "ratio"] satisfies Key[]) {
    if (firstColumn(width) + kept.reduce((sum, c) => sum + c.size, 0) <= width) break;
    kept = kept.filter(c => c.key !== key);
  }
  return kept;
}

interface Shown {
  readonly t: TreatmentLife;
  readonly cost: string | null; // in a sentence
}

function treatmentLines({t, cost}: Shown, base: TreatmentLife, width: number, paint: Paint): string[] {
  const columns = columnsFor(width);
  const first = firstColumn(width);
  const lines = [paint("bold", printable(t.treatment.name))];
  for (const r of mechanismRows(t, base)) {
    const life = lifeText(r.life);
    const open = life.note !== null;
    const cells: Record<Key, string> = {
      years: life.short,
      axles: open ? "–" : count(r.life.standardAxles),
      passes: open ? "–" : count(r.life.passes),
      ratio: r.ratio.text,
    };
    const name = fitted(`${r.governs ? "▸" : " "} ${rowName(r)}`, first - 1).padEnd(first);
    const row = printable(name + columns.map(c => cells[c.key].padStart(c.size)).join(""));
    lines.push(r.governs ? paint("accent", row) : row);
  }
  const told = [`Governs: ${governingReason(t)}.`, ...(cost === null ? [] : [cost])];
  lines.push(...told.flatMap(text => wrap(printable(text), width, "  ")).map(l => paint("dim", l)), "");
  return lines;
}

/** Computed numbers of the lives that are not shown as they are; equal notes are told once. */
function noteLines(result: LifeResult, width: number, paint: Paint): string[] {
  const notes = new Map<string, string[]>();
  for (const t of result.treatments)
    for (const r of mechanismRows(t, control(result))) {
      const {note} = lifeText(r.life);
      if (note === null) continue;
      const text = [note, r.ratio.note].filter(n => n !== null).join(", ");
      notes.set(text, [...(notes.get(text) ?? []), `${t.treatment.name}, ${rowName(r)}`]);
    }
  const lines = [...notes].map(([text, where]) => `${where.join("; ")}: ${text}.`);
  return lines.flatMap(n => wrap(printable(n), width, "  ")).map(l => paint("dim", l));
}

/** The result table of one study; ends with a newline. */
export function lifeTable(result: LifeResult, options: TerminalOptions): string {
  const width = Math.max(NARROWEST, Math.min(options.width, 100));
  const paint: Paint = (code, text) => (options.colour ? `${CODES[code]}${text}${RESET}` : text);
  const base = control(result);
  const columns = columnsFor(width);
  const title = "Life by mechanism".padEnd(firstColumn(width)) + columns.map(c => c.title.padStart(c.size)).join("");
  const costs = studyCosts(result);
  const warnings = [...new Set([...result.treatments.flatMap(t => t.warnings), ...(costs?.warnings ?? [])])];
  const {headline} = answer(result);
  return `${[
    ...wrap(printable(result.study.name), width, "").map(l => paint("bold", l)),
    ...wrap(printable(headline), width, ""),
    "",
    paint("dim", title),
    ...result.treatments.flatMap((t, k) => treatmentLines({t, cost: costLine(costs, k)}, base, width, paint)),
    ...noteLines(result, width, paint),
    ...warnings.flatMap(w => wrap(printable(`Warning: ${w}`), width, "")),
    ...wrap(CAUTION_LINE, width, ""),
  ].join("\n")}\n`;
}

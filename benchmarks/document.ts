/** The figures as docs/benchmarks.md, and as a table for the terminal. */
import {figures} from "../src/report/format.ts";
import {wrap} from "../src/report/terminalText.ts";
import {type Comparison, type Group, isReached, type Table} from "./figures/group.ts";

export interface Benchmarks {
  readonly machine: readonly (readonly [string, string])[];
  readonly groups: readonly Group[];
  readonly leftOut: readonly string[];
}

const LONGEST_LINE = 120;
const HEAD = ["figure", "median", "of least times", "aim", "reached"];

export function terminalTable({groups, leftOut}: Benchmarks): string {
  const rows = [HEAD, ...groups.flatMap(g => g.comparisons).map(comparisonRow)];
  const widths = HEAD.map((_, k) => Math.max(...rows.map(row => row[k].length)));
  const lines = rows.map(row => row.map((cell, k) => (k === 0 ? cell.padEnd(widths[k]) : cell.padStart(widths[k]))));
  return [...lines.map(row => row.join("  ")), ...leftOut.map(text => `Left out: ${text}.`), ""].join("\n");
}

export function documentOf(benchmarks: Benchmarks): string {
  const {machine, groups, leftOut} = benchmarks;
  return `# Benchmarks

<!-- Written by npm run bench. -->

\`\`\`sh
npm run bench
\`\`\`

measures everything below in one run and writes this page. Absolute times are those of one machine; what can be carried
over to others are ratios within one run. “Median” is the ratio of medians over repeated runs, “of least times” that of the
shortest runs. What is held against what, and how, stands in [benchmarks](../benchmarks/README.md).

${markdown({head: ["measured on", ""], rows: machine})}
${leftOut.map(text => `\nLeft out in this run: ${text}.\n`).join("")}
## At a glance

${markdown({head: HEAD, rows: groups.flatMap(g => g.comparisons).map(comparisonRow)})}
${groups.map(section).join("")}`;
}

function section({title, text, tables, pictures}: Group): string {
  const parts = [...pictures.map(({name, label}) => `![${label}](images/${name})`), ...tables.map(markdown)];
  return `\n## ${title}\n\n${wrap(text, LONGEST_LINE, "").join("\n")}\n\n${parts.join("\n\n")}\n`;
}

function comparisonRow(comparison: Comparison): string[] {
  const {what, median, least, aim, better, unit} = comparison;
  const value = (v: number): string => `${figures(v)}${unit ? ` ${unit}` : ""}`;
  const sign = better === "less" ? "≤" : "≥";
  return [what, value(median), value(least), `${sign} ${value(aim)}`, isReached(comparison) ? "yes" : "no"];
}

function markdown({head, rows}: Table): string {
  const isNumber = head.map((_, k) => rows.every(row => typeof row[k] === "number" || row[k] === ""));
  const line = (cells: readonly string[]): string => `| ${cells.join(" | ")} |`;
  const cell = (value: string | number): string => (typeof value === "number" ? figures(value) : value);
  return [
    line(head),
    line(isNumber.map(right => (right ? "--:" : "---"))),
    ...rows.map(row => line(row.map(cell))),
  ].join("\n");
}

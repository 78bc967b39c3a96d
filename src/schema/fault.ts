/** Keys and indices from the root of the document to a value. */
export type DocumentPath = readonly (string | number)[];

/** Something wrong with a study, or (as a warning) something to look at. */
export interface Fault {
  readonly path: string; // such as section.layers[2].thickness_mm; empty for the whole document
  readonly line: number | null; // from 1
  readonly column: number | null; // from 1
  readonly problem: string; // what is wrong, as a sentence without full stop
  readonly found: string;
  readonly accepted: string;
  readonly suggestion: string | null;
  readonly quote: string | null; // the line of the document
}

/** What a check says; the place and the quotation are added by the findings. */
export interface Remark {
  readonly problem: string;
  readonly accepted: string;
  readonly found?: string; // default: the value at the path
  readonly suggestion?: string | null;
  readonly covers?: DocumentPath; // the field that was meant: told by this fault too
}

/** Where faults and warnings are collected. */
export interface Findings {
  readonly faults: readonly Fault[];
  readonly warnings: readonly Fault[];
  fault(path: DocumentPath, remark: Remark): void;
  warn(path: DocumentPath, remark: Remark): void;
  /** Whether a fault at this path or below it is told: then further faults about it would only repeat. */
  faulty(path: DocumentPath): boolean;
}

/** section.layers[2].thickness_mm; names that are not plain words are quoted. */
export function pathText(path: DocumentPath): string {
  let text = "";
  for (const key of path) {
    if (typeof key === "number") text += `[${key}]`;
    else if (/^[\w-]+$/.test(key)) text += text ? `.${key}` : key;
    else text += `${text ? "." : ""}${JSON.stringify(key)}`;
  }
  return text;
}

/** The path that a text of `pathText` says. */
export function pathOfText(text: string): DocumentPath {
  const steps = text.match(/\[\d+\]|"(?:[^"\\]|\\.)*"|[\w-]+/g) ?? [];
  return steps.map(step =>
    step.startsWith("[") ? Number(step.slice(1, -1)) : step.startsWith('"') ? (JSON.parse(step) as string) : step,
  );
}

/** A value as it stands in the document, shortened. */
export function foundText(value: unknown): string {
  if (value === undefined) return "nothing";
  if (value === null) return "nothing (empty)";
  if (typeof value === "number") return String(value);
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === "object") {
    const keys = Object.keys(value);
    const shown = keys.slice(0, 4).join(", ");
    return keys.length === 0 ? "an empty map" : `a map with ${shown}${keys.length > 4 ? ", …" : ""}`;
  }
  const text = JSON.stringify(value) ?? String(value);
  return text.length > 60 ? `${text.slice(0, 57)}…"` : text;
}

/** A fault in one line, as in a list of a report. */
export function faultLine({path, problem, found, accepted}: Fault): string {
  return `${path || "document"}: ${problem}; found ${found}, accepted ${accepted}`;
}

/** Faults as readable text: one block each, in the order of the document. */
export function formatFaults(
  faults: readonly Fault[],
  options: {readonly fileName?: string; readonly heading?: string} = {},
): string {
  if (faults.length === 0) return "";
  const noun = faults.length === 1 ? "fault" : "faults";
  const heading = options.heading ?? `${faults.length} ${noun}${options.fileName ? ` in ${options.fileName}` : ""}:`;
  const sorted = [...faults].sort((a, b) => (a.line ?? 0) - (b.line ?? 0) || (a.column ?? 0) - (b.column ?? 0));
  const gutter = Math.max(...sorted.map(fault => String(fault.line ?? "").length));
  const blocks: string[] = [];
  let previousLine: number | null = null;
  for (const fault of sorted) {
    const rows: string[] = [];
    if (fault.line !== null && fault.line !== previousLine && fault.quote !== null)
      rows.push(`  ${String(fault.line).padStart(gutter)} | ${fault.quote}`);
    const indent = " ".repeat(gutter + 5);
    rows.push(`${indent}${fault.path || "document"}: ${fault.problem}`);
    rows.push(`${indent}  found ${fault.found}; accepted: ${fault.accepted}`);
    if (fault.suggestion) rows.push(`${indent}  ${fault.suggestion}`);
    blocks.push(rows.join("\n"));
    previousLine = fault.line;
  }
  return `${heading}\n\n${blocks.join("\n\n")}\n`;
}

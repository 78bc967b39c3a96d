import {type DocumentPath, type Fault, type Findings, foundText, pathText, type Remark} from "./fault.ts";
import type {Source} from "./source.ts";

/** Collects what the checks say about a document, with the place of each. The same remark is kept once. */
export function collectFindings(source: Source): Findings {
  const faults: Fault[] = [...source.faults];
  const warnings: Fault[] = [];
  const seen = new Set<string>();
  const covered = new Set<string>();
  const add = (list: Fault[], path: DocumentPath, remark: Remark) => {
    const value = valueAt(source.raw, path);
    const text = pathText(path);
    const key = `${text}\n${remark.problem}`;
    if (seen.has(key)) return;
    seen.add(key);
    if (remark.covers) covered.add(pathText(remark.covers));
    const place = source.place(path, "value");
    const nowhere = value === undefined && path.length === 1; // missing at the root: no line to show
    list.push({
      path: text,
      ...place,
      quote: nowhere ? null : place.quote,
      problem: remark.problem,
      found: remark.found ?? foundText(value),
      accepted: remark.accepted,
      suggestion: remark.suggestion ?? null,
    });
  };
  return {
    faults,
    warnings,
    fault: (path, remark) => add(faults, path, remark),
    warn: (path, remark) => add(warnings, path, remark),
    faulty: path => {
      const text = pathText(path);
      if (covered.has(text)) return true;
      return faults.some(
        fault => fault.path === text || fault.path.startsWith(`${text}.`) || fault.path.startsWith(`${text}[`),
      );
    },
  };
}

/** The value at a path of plain data, or undefined. */
export function valueAt(raw: unknown, path: DocumentPath): unknown {
  let value = raw;
  for (const key of path) {
    if (typeof value !== "object" || value === null || !Object.hasOwn(value, key)) return undefined;
    value = (value as Record<string | number, unknown>)[key];
  }
  return value;
}

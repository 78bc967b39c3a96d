/** A study with some of its values replaced, read as if they had been written so. */
import type {DocumentPath} from "./fault.ts";
import {valueAt} from "./findings.ts";
import {nearest} from "./nearest.ts";
import {type ReadingOptions, type ReadOutcome, readSource, rememberingReader} from "./read.ts";
import {parseSource, type Source} from "./source.ts";

/** One value of the document, by its path, and what stands there instead. */
export interface Edit {
  readonly path: DocumentPath;
  readonly value: unknown;
}

export type FoundPath =
  | {readonly kind: "path"; readonly path: DocumentPath; readonly value: unknown}
  | {readonly kind: "none"; readonly problem: string; readonly suggestion: string | null};

export interface Variations {
  readonly base: ReadOutcome;
  /**
   * The place that a path like section.layers.overlay.thickness_mm means: entries of lists by their name or number. Its value
   * must be there already.
   */
  find(path: string): FoundPath;
  /** Records, curves and laws are read once; all checks are made anew. */
  vary(edits: readonly Edit[]): ReadOutcome;
}

/** @param text the document */
export function studyVariations(text: string, options: ReadingOptions): Variations {
  const source = parseSource(text);
  const reader = rememberingReader(options);
  return {
    base: readSource(source, reader),
    find: path => findPath(source.raw, path),
    vary: edits => readSource(edited(source, edits), reader),
  };
}

function edited(source: Source, edits: readonly Edit[]): Source {
  const raw = structuredClone(source.raw);
  for (const {path, value} of edits) {
    const parent = valueAt(raw, path.slice(0, -1));
    if (typeof parent === "object" && parent !== null)
      (parent as Record<string | number, unknown>)[path[path.length - 1]] = value;
  }
  return {...source, raw};
}

function findPath(raw: unknown, text: string): FoundPath {
  const path: (string | number)[] = [];
  let value = raw;
  let rest = text.trim();
  while (rest !== "") {
    if (typeof value !== "object" || value === null)
      return {kind: "none", problem: `nothing is below ${path.join(".")}`, suggestion: null};
    const keys = namesOf(value);
    // Names may hold dots and spaces: the longest that fits is meant.
    const fitting = [...keys.keys()].filter(name => rest === name || rest.startsWith(`${name}.`));
    const name = fitting.sort((a, b) => b.length - a.length)[0];
    if (name === undefined) {
      const [wrong] = rest.split(".");
      const meant = nearest(wrong, keys.keys());
      const at = path.length === 0 ? "the study" : path.join(".");
      return {
        kind: "none",
        problem: `${at} has no ${wrong}; it has ${[...keys.keys()].slice(0, 12).join(", ")}`,
        suggestion: meant === null ? null : `did you mean ${meant}?`,
      };
    }
    const key = keys.get(name)!;
    path.push(key);
    value = (value as Record<string | number, unknown>)[key];
    rest = rest.slice(name.length + 1);
  }
  return {kind: "path", path, value};
}

/** Keys of a map; of a list the names of its entries, and their numbers from 0. */
function namesOf(value: object): Map<string, string | number> {
  if (!Array.isArray(value)) return new Map(Object.keys(value).map(key => [key, key]));
  const names = new Map<string, string | number>();
  value.forEach((entry, i) => {
    names.set(String(i), i);
    const name = (entry as {name?: unknown} | null)?.name;
    if (typeof name === "string") names.set(name, i);
  });
  return names;
}

/** Places of a document named by paths in which entries of lists go by their names. */
import type {DocumentPath} from "./fault.ts";
import {nearest} from "./nearest.ts";

export type FoundPath =
  | {
      readonly kind: "path";
      readonly path: DocumentPath;
      readonly names: readonly string[]; // as they were written, one for each part of the path
      readonly value: unknown;
    }
  | {readonly kind: "none"; readonly problem: string; readonly suggestion: string | null};

/** @param text such as section.layers.overlay.thickness_mm */
export function findPath(raw: unknown, text: string): FoundPath {
  const path: (string | number)[] = [];
  const names: string[] = [];
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
    names.push(name);
    value = (value as Record<string | number, unknown>)[key];
    rest = rest.slice(name.length + 1);
  }
  return {kind: "path", path, names, value};
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

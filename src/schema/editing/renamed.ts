/** Another name for what a study calls by name, wherever it does. */
import {type Document, isMap, isScalar, isSeq, parseDocument, visit} from "yaml";
import type {DocumentPath} from "../fault.ts";
import {findPath} from "../paths.ts";
import {READING, requireWhole, WRITING} from "./edit.ts";

export type NamedKind = "material" | "layer" | "treatment";

/** Maps whose keys, and lists whose entries, are called so; * is any place. */
const HOMES: Readonly<Record<NamedKind, readonly DocumentPath[]>> = {
  material: [["materials"], ["costs", "materials"], ["costs", "carbon", "materials"]],
  layer: [
    ["section", "layers"],
    ["treatments", "*", "changes", "layers"],
  ],
  treatment: [["treatments"]],
};

/** Keys whose value is such a name wherever they stand. */
const NAMING: Readonly<Record<NamedKind, readonly string[]>> = {
  material: ["material", "law", "fatigue_line", "relaxation"],
  layer: [],
  treatment: ["treatment"],
};

/**
 * The text with a material, a layer or a treatment called otherwise: where it is at home, where it is named, and in the paths of
 * uncertain fields. Comments stay.
 *
 * @throws Error where the text is no YAML or has a key twice
 */
export function renamed(text: string, kind: NamedKind, from: string, to: string): string {
  const document = parseDocument(text, READING);
  requireWhole(document);
  const raw: unknown = document.toJS();
  const homes = HOMES[kind].flatMap(pattern => placesOf(raw, pattern));
  visit(document, {
    Pair: (_, {key, value}) => {
      if (!isScalar(key) || !isScalar(value)) return;
      if (NAMING[kind].includes(String(key.value)) && value.value === from) value.value = to;
      if (key.value === "field" && typeof value.value === "string")
        value.value = renamedPath(raw, value.value, homes, {from, to});
    },
  });
  for (const home of homes) renameAt(document, home, from, to);
  return document.toString(WRITING);
}

/** Every place that a pattern fits. */
function placesOf(raw: unknown, pattern: DocumentPath): DocumentPath[] {
  let found: {readonly path: DocumentPath; readonly value: unknown}[] = [{path: [], value: raw}];
  for (const key of pattern)
    found = found.flatMap(({path, value}) => {
      if (typeof value !== "object" || value === null) return [];
      const keys = key === "*" ? [...(Array.isArray(value) ? value.keys() : [])] : [key];
      return keys.map(k => ({path: [...path, k], value: (value as Record<string | number, unknown>)[k]}));
    });
  return found.filter(({value}) => typeof value === "object" && value !== null).map(({path}) => path);
}

function renameAt(document: Document, home: DocumentPath, from: string, to: string): void {
  const node = document.getIn(home, true);
  const own = isMap(node)
    ? node.items.map(({key}) => key)
    : isSeq(node)
      ? node.items.map(entry => (isMap(entry) ? entry.get("name", true) : undefined))
      : [];
  for (const name of own) if (isScalar(name) && name.value === from) name.value = to;
}

/** A path in words with one of its names changed, where it means what is renamed. */
function renamedPath(
  raw: unknown,
  text: string,
  homes: readonly DocumentPath[],
  {from, to}: {readonly from: string; readonly to: string},
): string {
  const found = findPath(raw, text);
  if (found.kind === "none") return text;
  const isHome = (above: DocumentPath): boolean =>
    homes.some(home => home.length === above.length && home.every((k, i) => k === above[i]));
  return found.names.map((name, k) => (name === from && isHome(found.path.slice(0, k)) ? to : name)).join(".");
}

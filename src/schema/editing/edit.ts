import {type Document, isCollection, isMap, isScalar, isSeq, parseDocument, type Tags} from "yaml";
import type {DocumentPath} from "../fault.ts";

export interface DocumentEdit {
  readonly path: DocumentPath; // of the document; a number is a place in a list
  readonly value: unknown; // plain; undefined takes the key, or the entry of the list, out
}

/** A number that nobody has changed is written as it stood: 25e-6 stays, where the library would write 2.5e-5. */
const asItStood = (tags: Tags): Tags =>
  tags.map(tag =>
    typeof tag === "object" && "resolve" in tag && tag.stringify && /:(?:int|float)$/.test(tag.tag)
      ? {
          ...tag,
          stringify: (node, ...rest) =>
            isScalar(node) && node.source !== undefined ? node.source : tag.stringify!(node, ...rest),
        }
      : tag,
  );

export const READING = {keepSourceTokens: true, logLevel: "error", customTags: asItStood} as const;

/** Lines are as long as their author made them. */
export const WRITING = {lineWidth: 0, flowCollectionPadding: false} as const;

/**
 * The text with these changes made one after another. Maps on the way that are missing are made; a list's next entry may be
 * written by its number. Comments stay, and so does the way in which numbers stand that nobody changed.
 *
 * @throws Error where the text is no YAML or has a key twice, or a path leads through a value that is neither map nor list
 */
export function editedText(text: string, edits: readonly DocumentEdit[]): string {
  const document = parseDocument(text, READING);
  requireWhole(document);
  for (const edit of edits) applyEdit(document, edit);
  return document.toString(WRITING);
}

/** @throws Error */
export function requireWhole(document: Document): void {
  if (document.errors.length > 0) throw new Error("the document is no YAML, or has a key twice: mend it as text first");
}

/** @throws Error where the path leads through a value that is neither map nor list */
export function applyEdit(document: Document, {path, value}: DocumentEdit): void {
  if (value === undefined) {
    if (document.hasIn(path)) document.deleteIn(path);
    return;
  }
  const present = path.length > 0 ? document.getIn(path, true) : null;
  // A scalar keeps its node and with it the comment beside it.
  if (isScalar(present) && (typeof value !== "object" || value === null)) {
    present.value = value;
    delete present.source;
    delete present.format;
    return;
  }
  makeWay(document, path);
  const node = document.createNode(value, {aliasDuplicateObjects: false}); // a copy is one, and goes its own way
  // Short entries stand in one line, as people write them.
  if (isCollection(node) && isFlat(value)) node.flow = true;
  document.setIn(path, node);
}

/** Makes the missing collections above a path. */
function makeWay(document: Document, path: DocumentPath): void {
  for (let depth = 1; depth < path.length; depth++) {
    const above = path.slice(0, depth);
    const node = document.getIn(above, true);
    if (isMap(node) || isSeq(node)) continue;
    if (node !== undefined && !(isScalar(node) && node.value === null))
      throw new Error(`${above.join(".")} is neither a map nor a list`);
    document.setIn(above, document.createNode(typeof path[depth] === "number" ? [] : {}));
  }
}

/** A map of scalars alone. */
function isFlat(value: unknown): boolean {
  return (
    typeof value === "object" &&
    value !== null &&
    !Array.isArray(value) &&
    Object.values(value).every(v => typeof v !== "object" || v === null)
  );
}

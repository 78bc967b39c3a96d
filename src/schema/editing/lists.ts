/** Entries of a list moved and copied as they stand, with their comments. */
import {isNode, isSeq, parseDocument, type YAMLSeq} from "yaml";
import type {DocumentPath} from "../fault.ts";
import {applyEdit, type DocumentEdit, READING, requireWhole, WRITING} from "./edit.ts";

/**
 * The text with one entry of a list at another place.
 *
 * @throws Error where the text is no YAML, or there is no such entry
 */
export function movedEntry(
  text: string,
  path: DocumentPath,
  {from, to}: {readonly from: number; readonly to: number},
): string {
  const document = parseDocument(text, READING);
  requireWhole(document);
  const {items} = listIn(document.getIn(path, true), path, from);
  items.splice(to, 0, ...items.splice(from, 1));
  return document.toString(WRITING);
}

/**
 * The text with an entry of a list once more at another place, and changes of that copy, by their paths within it.
 *
 * @throws Error where the text is no YAML, or there is no such entry
 */
export function copiedEntry(
  text: string,
  path: DocumentPath,
  {from, to, edits}: {readonly from: number; readonly to: number; readonly edits: readonly DocumentEdit[]},
): string {
  const document = parseDocument(text, READING);
  requireWhole(document);
  const {items} = listIn(document.getIn(path, true), path, from);
  const entry = items[from];
  items.splice(to, 0, isNode(entry) ? entry.clone() : entry);
  for (const edit of edits) applyEdit(document, {...edit, path: [...path, to, ...edit.path]});
  return document.toString(WRITING);
}

function listIn(node: unknown, path: DocumentPath, entry: number): YAMLSeq {
  if (!isSeq(node) || entry < 0 || entry >= node.items.length)
    throw new Error(`${path.join(".")} has no entry ${entry}`);
  return node;
}

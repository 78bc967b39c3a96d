import {type Document, isAlias, isMap, isNode, isScalar, isSeq, LineCounter, parseDocument} from "yaml";
import type {DocumentPath, Fault} from "./fault.ts";

/** A document's text together with the means to say where in it a value stands. */
export interface Source {
  readonly raw: unknown; // plain maps, lists, texts, numbers
  readonly broken: boolean; // syntax faults: raw is not to be trusted
  readonly faults: readonly Fault[]; // of syntax
  place(path: DocumentPath, on: "key" | "value"): Pick<Fault, "line" | "column" | "quote">;
}

/** Longest document read, in characters: a study is a few hundred lines. */
const longestDocument = 2_000_000;

/** Reads YAML, of which JSON is a part. Never throws. */
export function parseSource(text: string): Source {
  const lineCounter = new LineCounter();
  const tooLong = text.length > longestDocument;
  const document = parseDocument(tooLong ? "" : text, {lineCounter, prettyErrors: false, logLevel: "error"});
  const lines = text.split(/\r\n|\r|\n/);

  const at = (offset: number): Pick<Fault, "line" | "column" | "quote"> => {
    const {line, col} = lineCounter.linePos(offset);
    return {line: Math.max(1, line), column: Math.max(1, col), quote: quotation(lines[line - 1] ?? "")};
  };

  const faults: Fault[] = document.errors.map(error => ({
    path: "",
    ...at(error.pos[0]),
    problem: syntaxProblem(error.code, error.message),
    found: error.code === "DUPLICATE_KEY" ? "the same key again" : "text that is not YAML",
    accepted: error.code === "DUPLICATE_KEY" ? "every key once in its map" : "YAML or JSON",
    suggestion: syntaxSuggestion(error.code),
  }));
  let broken = tooLong || document.errors.some(error => error.code !== "DUPLICATE_KEY");
  if (tooLong)
    faults.push(
      wholeDocument("the document is too long", `${text.length} characters`, `up to ${longestDocument} characters`),
    );
  let raw: unknown = null;
  try {
    raw = document.toJS({maxAliasCount: 100});
  } catch (error) {
    // yaml throws where an alias has no anchor, refers to itself, or multiplies beyond reason
    broken = true;
    if (faults.length === 0)
      faults.push(
        wholeDocument(
          `an alias cannot be resolved: ${(error as Error).message}`,
          "an alias (*name)",
          "aliases of anchors (&name) that stand above",
        ),
      );
  }
  return {raw, broken, faults, place: (path, on) => at(offsetOf(document, path, on))};
}

function wholeDocument(problem: string, found: string, accepted: string): Fault {
  return {path: "", line: 1, column: 1, problem, found, accepted, suggestion: null, quote: null};
}

/** The offset of a value or its key; of the nearest enclosing value where there is none. */
function offsetOf(document: Document, path: DocumentPath, on: "key" | "value"): number {
  let node: unknown = document.contents;
  let offset = isNode(node) ? (node.range?.[0] ?? 0) : 0;
  for (const [depth, step] of path.entries()) {
    if (isAlias(node)) node = node.resolve(document);
    if (isMap(node)) {
      const pair = node.items.find(({key}) => String(isScalar(key) ? key.value : key) === String(step));
      if (!pair) break;
      const key = isNode(pair.key) ? pair.key.range?.[0] : undefined;
      const value = isNode(pair.value) ? pair.value.range?.[0] : undefined;
      const wantsKey = on === "key" || depth < path.length - 1 || !isScalar(pair.value) || pair.value.value === null;
      offset = (wantsKey ? key : value) ?? key ?? offset;
      node = pair.value;
    } else if (isSeq(node)) {
      const item: unknown = node.items[Number(step)];
      if (!isNode(item)) break;
      offset = item.range?.[0] ?? offset;
      node = item;
    } else break;
  }
  return offset;
}

/** A line as it may be shown: no control characters, not endless. */
function quotation(line: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is taken out
  const shown = line.replaceAll(/[\u0000-\u001f\u007f-\u009f]/g, " ").trimEnd();
  return shown.length > 160 ? `${shown.slice(0, 159)}…` : shown;
}

function syntaxProblem(code: string, message: string): string {
  if (code === "DUPLICATE_KEY") return "this key stands twice in the same map";
  const [first] = message.split("\n");
  return `this is not valid YAML: ${first.replace(/\.$/, "")}`;
}

function syntaxSuggestion(code: string): string | null {
  switch (code) {
    case "TAB_AS_INDENT":
      return "indent with spaces, not tabs";
    case "BAD_INDENT":
    case "BAD_COLLECTION_ITEM_INDENT":
      return "entries of one map or list start in the same column";
    case "MULTIPLE_DOCS":
      return "one study a file: take out the line '---' in the middle";
    case "DUPLICATE_KEY":
      return "delete one of the two";
    default:
      return null;
  }
}

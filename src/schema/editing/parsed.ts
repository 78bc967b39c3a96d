import {parseSource} from "../source.ts";

/** The plain values of a document's text, null where it is no YAML. Not checked: any of them may be anything. */
export function parsedText(text: string): unknown {
  const {raw, broken} = parseSource(text);
  return broken ? null : raw;
}

const LONGEST = 40; // characters

/** A name as part of a file name: letters and digits of any script, the rest as hyphens. */
export function fileWord(name: string, otherwise: string): string {
  const word = name
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-|-$/g, "");
  return word.slice(0, LONGEST) || otherwise;
}

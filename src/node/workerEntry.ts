import path from "node:path";

/** A worker's module beside the one that asks, with the same ending: .ts as written, .js as built. */
export function workerEntry({dirname, filename}: ImportMeta, name: string): string {
  return path.join(dirname, `${name}${path.extname(filename)}`);
}

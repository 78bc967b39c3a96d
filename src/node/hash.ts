import {createHash} from "node:crypto";

/**
 * SHA-256 over a study and the tables that it names, in hexadecimal. Each text is preceded by its length in bytes, so
 * that moving text from one to the next changes the hash. The study's own file name does not count.
 *
 * @param tables name as written in the study → text
 */
export function inputHash(study: string, tables: Readonly<Record<string, string>>): string {
  const hash = createHash("sha256");
  const texts = [
    study,
    ...Object.keys(tables)
      .sort()
      .flatMap(name => [name, tables[name]]),
  ];
  for (const text of texts) hash.update(`${Buffer.byteLength(text)}\n`).update(text);
  return hash.digest("hex");
}

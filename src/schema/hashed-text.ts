/**
 * What the hash of a study is taken of: its text and those of the files that it names, each preceded by its length in bytes
 * of UTF-8, so that moving text from one to the next changes the hash. The study's own file name does not count.
 *
 * @param files name as written in the study → text
 */
export function hashedText(study: string, files: Readonly<Record<string, string>>): string {
  const names = Object.keys(files).sort();
  const encoder = new TextEncoder();
  return [study, ...names.flatMap(name => [name, files[name]])]
    .map(text => `${encoder.encode(text).length}\n${text}`)
    .join("");
}

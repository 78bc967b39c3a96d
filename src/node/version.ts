import {readFileSync} from "node:fs";

/** Version of this software, from package.json: two folders up, both as written and as built. */
export function softwareVersion(): string {
  const text = readFileSync(new URL("../../package.json", import.meta.url), "utf8");
  return (JSON.parse(text) as {version: string}).version;
}

/** In the page: measures as in Node, with web workers, and posts every line back to the server as it is there. */
import type {EngineLine} from "../response/measure.ts";
import {measureEngine} from "../response/measure.ts";
import {decode} from "../response/message.ts";
import type {Subject} from "../section.ts";

const post = (path: string, body: string): Promise<unknown> => fetch(path, {method: "POST", body});

try {
  const subjects = decode<Subject[]>(await (await fetch("/subjects")).text());
  const memory = typeof SharedArrayBuffer === "undefined" ? "copied" : "shared";
  const lines: EngineLine[] = [];
  await measureEngine(new URL("worker.js", import.meta.url).href, subjects, line => lines.push(line));
  for (const line of lines) await post("/line", JSON.stringify({...line, memory}));
  await post("/end", "");
} catch (error) {
  await post("/failed", error instanceof Error ? `${error.message}\n${error.stack}` : String(error));
}

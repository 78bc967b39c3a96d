/**
 * Run as a program, until it is killed: writes one file over and over through the server and prints the number of each
 * write that has been acknowledged. Content k is the line "k" repeated.
 *
 * Arguments: folder of the page, workspace, size of the content [bytes]
 */
import {writeSync} from "node:fs";
import {createApp} from "../../../src/server/app.ts";

const [page, workspace, size] = process.argv.slice(2);
const app = createApp({page, workspace, port: 80});
let condition: Record<string, string> = {"if-match": "*"};
for (let k = 1; ; k++) {
  const line = `${String(k).padStart(9, "0")}\n`;
  const answer = await app.inject({
    method: "PUT",
    url: "/api/files/study.yaml",
    headers: {host: "localhost", "x-seamwright": "1", ...condition},
    payload: line.repeat(Number(size) / line.length),
  });
  if (answer.statusCode !== 200) throw new Error(answer.body);
  condition = {"if-match": answer.headers.etag as string};
  writeSync(1, line); // at once: what is on its way when the program is killed counts as said
}

/** No half files and nothing acknowledged lost: when many write at once, and when the server is killed. */
import {spawn} from "node:child_process";
import {mkdirSync, readdirSync, readFileSync, writeFileSync} from "node:fs";
import path from "node:path";
import {afterEach, beforeEach, describe, expect, test} from "vitest";
import {testFolder} from "../folder.ts";
import {type Answer, request, type Workbench, WRITING, workbench, writePage} from "./workbench.ts";

const at = testFolder("test");

describe("many at once, over the network", () => {
  let bench: Workbench;
  beforeEach(async () => {
    bench = workbench(at("page"), at("work"));
    await bench.app.listen({host: "127.0.0.1", port: 0});
  });
  afterEach(() => bench.app.close());

  const content = (k: number): string => `${k}\n`.repeat(50_000 + 1000 * k); // of different length each
  const ask = (method: "GET" | "PUT", condition: Record<string, string>, body = ""): Promise<Answer> =>
    request(bench.app, {method, path: "/api/files/a.yaml", headers: {...WRITING, ...condition}}, body);

  test("of those who saw the same file exactly one replaces it, and whole", async () => {
    let {headers} = await ask("PUT", {"if-none-match": "*"}, content(0));
    for (let round = 0; round < 10; round++) {
      const seen = {"if-match": headers.etag as string};
      const answers = await Promise.all(Array.from({length: 8}, (_, k) => ask("PUT", seen, content(k + 1 + round))));
      const winners = answers.flatMap(({status}, k) => (status === 200 ? [k + 1 + round] : []));
      expect(winners.length).toBe(1);
      const after = await ask("GET", {});
      expect(after.body).toBe(content(winners[0]));
      for (const {status, headers} of answers.filter(answer => answer.status !== 200))
        expect([status, headers.etag]).toEqual([412, after.headers.etag]); // which the loser may go on from
      headers = after.headers;
    }
  });

  test("of those who make the same new file exactly one does", async () => {
    const answers = await Promise.all(
      Array.from({length: 8}, (_, k) => ask("PUT", {"if-none-match": "*"}, content(k))),
    );
    expect(answers.map(({status}) => status).sort()).toEqual([201, ...Array<number>(7).fill(412)]);
    expect((await ask("GET", {})).body).toBe(content(answers.findIndex(({status}) => status === 201)));
  });

  test("additions of all writers are in the end all there, when each starts from what it has read", async () => {
    await ask("PUT", {"if-none-match": "*"});
    const add = async (line: string): Promise<void> => {
      for (;;) {
        const {body, headers} = await ask("GET", {});
        const {status} = await ask("PUT", {"if-match": headers.etag as string}, `${body}${line}\n`);
        if (status === 200) return;
        expect(status).toBe(412);
      }
    };
    const writers = Array.from({length: 5}, async (_, writer) => {
      for (let k = 0; k < 8; k++) await add(`${writer}.${k}`);
    });
    await Promise.all(writers);
    const lines = (await ask("GET", {})).body.trimEnd().split("\n");
    expect(lines.length).toBe(40);
    for (let writer = 0; writer < 5; writer++)
      expect(lines.filter(line => line.startsWith(`${writer}.`))).toEqual(
        Array.from({length: 8}, (_, k) => `${writer}.${k}`), // each in its own order
      );
  });

  test("a reader meets whole files only, while they are replaced", async () => {
    await ask("PUT", {"if-none-match": "*"}, content(0));
    let writing = true;
    const writer = (async () => {
      for (let k = 1; k <= 30; k++) await ask("PUT", {"if-match": "*"}, content(k));
      writing = false;
    })();
    while (writing) {
      const onDisk = readFileSync(at("work", "a.yaml"), "utf8");
      expect(onDisk).toBe(content(Number.parseInt(onDisk, 10)));
      const {body} = await ask("GET", {});
      expect(body).toBe(content(Number.parseInt(body, 10)));
    }
    await writer;
  });
});

describe("killed while it writes", () => {
  const SIZE = 4e6;

  /** Kills the writer some time after its first acknowledgement; returns the last number that it has acknowledged. */
  function killed(after: number): Promise<number> {
    const program = path.join(import.meta.dirname, "endlessWriter.ts");
    const child = spawn(process.execPath, [program, at("page"), at("work"), String(SIZE)], {
      stdio: ["ignore", "pipe", "inherit"],
    });
    let said = "";
    child.stdout.on("data", part => {
      if (said === "") setTimeout(() => child.kill("SIGKILL"), after);
      said += part;
    });
    return new Promise((resolve, reject) => {
      child.on("close", (_code, signal) => {
        const last = said.trimEnd().split("\n").at(-1);
        if (signal === "SIGKILL" && last) resolve(Number(last));
        else reject(new Error(`the writer ended by itself, by ${signal}`));
      });
    });
  }

  test("the file is the last acknowledged one or the one after, whole", async () => {
    writePage(at("page"));
    mkdirSync(at("work"));
    writeFileSync(at("work", "study.yaml"), "");
    const halves = (): number => readdirSync(at("work")).length - 1;
    // One kill in four is in the middle of a write: that none of forty is has a chance of 1e-5.
    for (let round = 0; round < 8 || (halves() < 2 && round < 40); round++) {
      const last = await killed(37 + 11 * round); // [ms]
      const found = readFileSync(at("work", "study.yaml"), "utf8");
      const number = Number(found.slice(0, 9));
      expect([last, last + 1]).toContain(number);
      expect(found === `${found.slice(0, 9)}\n`.repeat(SIZE / 10)).toBe(true);
    }
    expect(halves()).toBeGreaterThan(0);
  });

  test("what it leaves behind is not listed and in nobody's way", async () => {
    mkdirSync(at("work"));
    writeFileSync(at("work", ".study.yaml.0123456789ab.tmp"), "half");
    const bench = workbench(at("page"), at("work"));
    expect((await bench.put("study.yaml", "a")).statusCode).toBe(201);
    const {files} = (await bench.ask({url: "/api/workspace"})).json<{files: {path: string}[]}>();
    expect(files.map(file => file.path)).toEqual(["study.yaml"]);
  });
});

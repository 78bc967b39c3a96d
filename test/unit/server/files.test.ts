/** Listing, reading and writing. Statuses: RFC 9110, sections 13.1.1, 13.1.2, 15.5; 428: RFC 6585, section 3. */
import {execFileSync} from "node:child_process";
import {
  chmodSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import {beforeEach, describe, expect, test} from "vitest";
import {testFolder} from "../folder.ts";
import {OWN, type Workbench, WRITING, workbench} from "./workbench.ts";

const at = testFolder("test");
let bench: Workbench;
beforeEach(() => {
  bench = workbench(at("page"), at("roads"));
});

// printf abc | sha256sum; the same value in FIPS 180-2, appendix B.1
const ABC = '"sha256:ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"';
const list = async () =>
  (await bench.ask({url: "/api/workspace"})).json<{
    name: string;
    files: {path: string; size: number; modified: string}[];
    complete: boolean;
  }>();
const text = (name: string): string => readFileSync(at("roads", name), "utf8");

describe("a workspace that is not there yet", () => {
  test("is empty, and made by the first file saved", async () => {
    expect(await list()).toEqual({name: "roads", files: [], complete: true});
    expect((await bench.ask({url: "/api/files/a.yaml"})).statusCode).toBe(404);
    expect((await bench.put("a.yaml", "a", ABC)).statusCode).toBe(412);
    expect(existsSync(at("roads"))).toBe(false);
    expect((await bench.put("one/two/a.yaml", "abc")).statusCode).toBe(201);
    expect((await list()).files.map(file => file.path)).toEqual(["one/two/a.yaml"]);
  });

  test("and one that vanishes is made again", async () => {
    await bench.put("a.yaml", "abc");
    rmSync(at("roads"), {recursive: true});
    expect((await list()).files).toEqual([]);
    expect((await bench.put("a.yaml", "abc")).statusCode).toBe(201);
  });
});

describe("the list", () => {
  test("has files of the known kinds with their size and time, and skips the rest", async () => {
    const kept = [
      "a.yaml",
      "b.yml",
      "c.json",
      "d.csv",
      "e.tsv",
      "f.txt",
      "g.epw",
      "h.XLSX",
      "sub/x.yaml",
      "sub-x.yaml",
    ];
    const skipped = [
      ".hidden.yaml",
      ".git/a.txt",
      "node_modules/a.json",
      "a.html",
      "sub/.b/c.txt",
      "1/2/3/4/5/6/a.yaml",
    ];
    for (const name of [...kept, ...skipped]) {
      mkdirSync(at("roads", name, ".."), {recursive: true});
      writeFileSync(at("roads", name), "12345");
    }
    utimesSync(at("roads", "a.yaml"), 0, Date.UTC(2024, 1, 29, 12) / 1000);
    const {files, complete} = await list();
    expect(files.map(file => file.path).sort()).toEqual(kept.sort());
    expect(files[0]).toEqual({path: "a.yaml", size: 5, modified: "2024-02-29T12:00:00.000Z"});
    expect(complete).toBe(true);
  });

  test("has only what can be read, and all that was written", async () => {
    mkdirSync(at("roads"));
    for (const name of ["a:b.yaml", "con.yaml", "end .yaml", "a\\b.csv", `${"n".repeat(230)}.txt`])
      writeFileSync(at("roads", name), "");
    await bench.put("1/2/3/4/5/deep.yaml", "abc");
    const {files} = await list();
    expect(files.map(file => file.path)).toEqual(["1/2/3/4/5/deep.yaml", "end .yaml"]);
    for (const file of files)
      expect((await bench.ask({url: `/api/files/${encodeURI(file.path)}`})).statusCode).toBe(200);
  });

  test("says when there is more than it looks through", async () => {
    mkdirSync(at("roads", "more"), {recursive: true});
    for (let i = 0; i < 5010; i++) writeFileSync(at("roads", "more", `${i}.csv`), "");
    writeFileSync(at("roads", "near.csv"), "");
    const {files, complete} = await list();
    expect(complete).toBe(false);
    expect(files.length).toBeGreaterThan(4990);
    expect(files.length).toBeLessThanOrEqual(5000);
    expect(files.map(file => file.path)).toContain("near.csv");
  });

  test("bears files and folders that vanish while it is made", async () => {
    mkdirSync(at("roads"));
    writeFileSync(at("roads", "stays.csv"), "");
    const script = `
      const fs = require("node:fs");
      const folder = process.argv[1];
      for (const end = Date.now() + 1500; Date.now() < end; )
        for (let i = 0; i < 20; i++) {
          fs.mkdirSync(folder + "/f" + i);
          fs.writeFileSync(folder + "/f" + i + "/a.csv", "");
          fs.writeFileSync(folder + "/" + i + ".csv", "");
          if (i > 2) for (const n of [i - 1]) { fs.rmSync(folder + "/" + n + ".csv", {force: true}); fs.rmSync(folder + "/f" + n, {recursive: true, force: true}); }
          if (i === 19) for (const n of [0, 1, 19]) { fs.rmSync(folder + "/" + n + ".csv", {force: true}); fs.rmSync(folder + "/f" + n, {recursive: true, force: true}); }
        }`;
    const {spawn} = await import("node:child_process");
    const child = spawn(process.execPath, ["-e", script, at("roads")], {stdio: "inherit"});
    const ended = new Promise<number | null>(resolve => child.on("exit", resolve));
    let running = true;
    void ended.then(() => {
      running = false;
    });
    const seen = new Set<number>();
    while (running) {
      const answer = await bench.ask({url: "/api/workspace"});
      expect(answer.statusCode).toBe(200);
      const {files} = answer.json<{files: {path: string}[]}>();
      expect(files.map(file => file.path)).toContain("stays.csv");
      seen.add(files.length);
      await new Promise(resolve => setImmediate(resolve));
    }
    expect(await ended).toBe(0);
    expect(seen.size).toBeGreaterThan(1); // it was listed while it changed
  });
});

describe("reading", () => {
  test("gives the bytes as they are, never as a page", async () => {
    const bytes = Buffer.from([0, 255, 13, 10, 0xef, 0xbb, 0xbf, 60]);
    await bench.put("a.xlsx", bytes);
    const answer = await bench.ask({url: "/api/files/a.xlsx"});
    expect(answer.rawPayload.equals(bytes)).toBe(true);
    expect(answer.headers).toMatchObject({
      "content-type": "application/octet-stream",
      "content-disposition": "attachment",
      "cache-control": "no-store",
    });
  });

  test("tells the SHA-256 of the content", async () => {
    await bench.put("a.txt", "abc");
    expect((await bench.ask({url: "/api/files/a.txt"})).headers.etag).toBe(ABC);
    const {headers, rawPayload} = await bench.ask({url: "/api/files/a.txt", method: "HEAD"});
    expect([headers.etag, headers["content-length"], rawPayload.length]).toEqual([ABC, "3", 0]);
  });

  test.skipIf(process.platform === "win32")("does not wait for a pipe", async () => {
    mkdirSync(at("roads"));
    execFileSync("mkfifo", [at("roads", "pipe.csv")]);
    expect((await bench.ask({url: "/api/files/pipe.csv"})).statusCode).toBe(409);
    expect((await list()).files).toEqual([]);
  });
});

describe("writing", () => {
  test("makes a file, then replaces it by whoever has seen it last", async () => {
    const made = await bench.put("a.yaml", "abc");
    expect([made.statusCode, made.json(), made.headers.etag]).toEqual([201, {etag: ABC}, ABC]);
    const changed = await bench.put("a.yaml", "new", ABC);
    expect(changed.statusCode).toBe(200);
    expect(text("a.yaml")).toBe("new");
    const late = await bench.put("a.yaml", "late", ABC);
    expect(late.statusCode).toBe(412);
    expect(late.json()).toEqual({
      error: {code: "changed", message: "the file has changed since it was read", etag: changed.headers.etag},
    });
    expect(late.headers.etag).toBe(changed.headers.etag);
    expect(text("a.yaml")).toBe("new");
    expect(readdirSync(at("roads"))).toEqual(["a.yaml"]); // nothing left behind
  });

  test("notices what another program has done in between", async () => {
    await bench.put("a.yaml", "abc");
    writeFileSync(at("roads", "a.yaml"), "edited");
    expect((await bench.put("a.yaml", "late", ABC)).statusCode).toBe(412);
    rmSync(at("roads", "a.yaml"));
    const gone = await bench.put("a.yaml", "late", ABC);
    expect([gone.statusCode, gone.json().error]).toMatchObject([412, {code: "gone", etag: null}]);
    expect(existsSync(at("roads", "a.yaml"))).toBe(false);
  });

  test("a new file never goes over one that is there", async () => {
    await bench.put("a.yaml", "abc");
    const again = await bench.put("a.yaml", "other");
    expect([again.statusCode, again.json().error]).toMatchObject([412, {code: "exists", etag: ABC}]);
    expect(text("a.yaml")).toBe("abc");
  });

  const conditions: [number, Record<string, string>][] = [
    [428, {}],
    [400, {"if-none-match": ABC}],
    [400, {"if-match": "*", "if-none-match": "*"}],
    [400, {"if-match": "sha256:ba78"}],
    [412, {"if-match": `W/${ABC}`}], // a weak tag never matches, RFC 9110, section 8.8.3.2
    [412, {"if-match": '"other", "tags"'}],
    [200, {"if-match": `"other", ${ABC}`}],
    [200, {"if-match": "*"}],
    [400, {"if-match": ABC, "content-range": "bytes 0-2/3"}], // RFC 9110, section 14.5
    [415, {"if-match": ABC, "content-encoding": "gzip"}],
  ];
  test.each(conditions)("%i on %o", async (status, headers) => {
    await bench.put("a.yaml", "abc");
    const asked = {method: "PUT", url: "/api/files/a.yaml", headers: {...WRITING, ...headers}, payload: "new"} as const;
    expect((await bench.ask(asked)).statusCode).toBe(status);
    expect(text("a.yaml")).toBe(status === 200 ? "new" : "abc");
  });

  test("20 MB and not one byte more", async () => {
    expect((await bench.put("a.csv", Buffer.alloc(20e6, "x"))).statusCode).toBe(201);
    const more = await bench.put("b.csv", Buffer.alloc(20e6 + 1, "x"));
    expect([more.statusCode, more.json().error.code]).toEqual([413, "too-large"]);
    expect(readdirSync(at("roads"))).toEqual(["a.csv"]);
  });

  test("takes any type of content as bytes, and none as an empty file", async () => {
    for (const type of [
      "application/json",
      "text/plain",
      "application/x-www-form-urlencoded",
      "multipart/form-data; boundary=x",
    ]) {
      const headers = {...WRITING, "if-none-match": "*", "content-type": type};
      await bench.ask({method: "PUT", url: "/api/files/a.json", headers, payload: '{"__proto__": 1'});
      expect(text("a.json")).toBe('{"__proto__": 1');
      rmSync(at("roads", "a.json"));
    }
    expect((await bench.put("empty.csv", "")).statusCode).toBe(201);
    expect(statSync(at("roads", "empty.csv")).size).toBe(0);
  });

  test.skipIf(process.platform === "win32")("keeps who may read the file", async () => {
    await bench.put("a.yaml", "abc");
    chmodSync(at("roads", "a.yaml"), 0o640);
    await bench.put("a.yaml", "new", ABC);
    expect(statSync(at("roads", "a.yaml")).mode & 0o777).toBe(0o640);
  });

  test.skipIf(process.getuid?.() === 0)("does not go over a file that is protected from it", async () => {
    await bench.put("a.yaml", "abc");
    chmodSync(at("roads", "a.yaml"), 0o444);
    const answer = await bench.put("a.yaml", "new", ABC);
    expect([answer.statusCode, answer.json().error]).toEqual([403, {code: "permission", message: "permission denied"}]);
    expect(text("a.yaml")).toBe("abc");
  });

  test("other routes take no body to speak of, and nothing is deleted", async () => {
    await bench.put("a.yaml", "abc");
    expect((await bench.ask({method: "PUT", url: "/api/workspace", headers: WRITING, payload: "x"})).statusCode).toBe(
      404,
    );
    expect(
      (await bench.ask({method: "PUT", url: "/", headers: WRITING, payload: Buffer.alloc(1e6 + 1)})).statusCode,
    ).toBe(413);
    expect((await bench.ask({method: "DELETE", url: "/api/files/a.yaml", headers: WRITING})).statusCode).toBe(405);
    expect(text("a.yaml")).toBe("abc");
  });
});

test("a workspace that cannot be one is told without its place on the machine", async () => {
  writeFileSync(at("roads"), "a file");
  const answers = [
    await bench.ask({url: "/api/workspace"}),
    await bench.put("a.yaml", "a"),
    await bench.ask({url: "/api/files/a.yaml", headers: OWN}),
  ];
  for (const answer of answers) expect(answer.body).not.toContain(at());
  expect(answers[1].statusCode).toBe(409);
});

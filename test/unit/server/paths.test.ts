/** Which files of the machine the server may be asked for: those of one folder, by plain names. */
import {
  existsSync,
  linkSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import {afterEach, beforeEach, describe, expect, test} from "vitest";
import {readPath} from "../../../src/server/paths.ts";
import {testFolder} from "../folder.ts";
import {request, type Workbench, WRITING, workbench} from "./workbench.ts";

const at = testFolder("test");
let bench: Workbench;
beforeEach(async () => {
  mkdirSync(at("work", "sub"), {recursive: true});
  writeFileSync(at("outside.yaml"), "secret");
  writeFileSync(at("work", "inside.yaml"), "inside");
  bench = workbench(at("page"), at("work"));
  await bench.app.listen({host: "127.0.0.1", port: 0});
});
afterEach(() => bench.app.close());

/** Everything below the test's folder, with contents, as it is on the disk. */
function everything(): string[] {
  const names = readdirSync(at(), {recursive: true, withFileTypes: true});
  return names
    .map(
      entry =>
        `${entry.parentPath}/${entry.name} ${entry.isFile() ? readFileSync(`${entry.parentPath}/${entry.name}`) : ""}`,
    )
    .sort();
}

const nasty = [
  "../outside.yaml",
  "sub/../../outside.yaml",
  "..%2foutside.yaml",
  "..%2Foutside.yaml",
  "%2e%2e/outside.yaml",
  "%2e%2e%2foutside.yaml",
  "sub/..%2f..%2foutside.yaml",
  ".%2e/outside.yaml",
  "..\\outside.yaml",
  "..%5coutside.yaml",
  "sub%5C..%5C..%5Coutside.yaml",
  "./inside.yaml",
  "sub/./../inside.yaml",
  "/etc/hosts.txt",
  "//etc/hosts.txt",
  "%2fetc%2fhosts.txt",
  "sub//inside.yaml",
  "",
  "/",
  "sub/",
  "C:/outside.yaml",
  "C%3A%5Coutside.yaml",
  "C:outside.yaml",
  "%5C%5Cserver%5Cshare%5Ca.yaml",
  "inside.yaml:stream.txt",
  "inside.yaml::$DATA",
  "inside.yaml%00",
  "inside.yaml%00.txt",
  "%00.yaml",
  "in%0aside.yaml",
  "in%7fside.yaml",
  "in%C2%85side.yaml", // a control character beyond ASCII
  "inside.yaml.",
  "inside.yaml%20",
  "sub./a.yaml",
  "sub%20/a.yaml",
  ".../a.yaml",
  "con.yaml",
  "CON.yaml",
  "nul.tar.yaml",
  "aux%20.yaml",
  "COM1.txt",
  "lpt%C2%B2.csv", // LPT²
  "conin$.txt",
  "prn/a.yaml",
  ".env.yaml",
  ".git/config.txt",
  ".yaml",
  "node_modules/a.json",
  "NODE_MODULES/a.json",
  "inside",
  "inside.html",
  "inside.yaml.exe",
  "inside.js",
  "yaml",
  "a*.yaml",
  "a%3f.yaml",
  "a%22b.yaml",
  "a%3Cb%3E.yaml",
  "a%7Cb.yaml",
  "%c0%ae%c0%ae/outside.yaml", // two bytes for a dot, which is no UTF-8
  "%c0%af.yaml",
  "%ff.yaml",
  "%u002e%u002e/outside.yaml",
  "%",
  "%2",
  "%zz.yaml",
  "1/2/3/4/5/6/deep.yaml",
  `${"n".repeat(201)}.yaml`,
  `${"../".repeat(40)}outside.yaml`,
];

describe("paths that are no plain name in the workspace", () => {
  test.each(nasty)("'%s' is neither read nor written", async name => {
    const before = everything();
    const path = `/api/files/${name}`;
    for (const [method, headers] of [
      ["GET", WRITING],
      ["PUT", {...WRITING, "if-none-match": "*"}],
      ["PUT", {...WRITING, "if-match": "*"}],
    ] as const) {
      const {status, body} = await request(bench.app, {method, path, headers}, method === "PUT" ? "taken over" : "");
      expect(status).toBe(400);
      expect(body).not.toContain("secret");
      expect(body).not.toContain(at());
    }
    expect(everything()).toEqual(before);
    expect(bench.unforeseen).toEqual([]);
  });

  test.each([
    "/../outside.yaml",
    "/../../outside.yaml",
    "/..%2foutside.yaml",
    "/%2e%2e/outside.yaml",
    "/..%5coutside.yaml",
    "/assets/../../outside.yaml",
    "/assets/..%2f..%2foutside.yaml",
    "/%2e%2e%2foutside.yaml",
    "//outside.yaml",
    "/work/inside.yaml",
    "/api/../../outside.yaml",
    "/api/files/../../../outside.yaml",
    "/%61pi/files/inside.yaml", // "api", encoded
  ])("'%s' gives nothing from beside the page", async path => {
    const {status, body} = await request(bench.app, {path, headers: WRITING});
    expect([400, 403, 404]).toContain(status);
    expect(body).not.toContain("secret");
    expect(body).not.toContain("inside");
    expect(body).not.toContain(at());
  });
});

describe("names that look like more than they are", () => {
  test("are decoded once: what is encoded twice is a name with a per cent sign", async () => {
    expect(readPath("%252e%252e%252foutside.yaml")).toEqual(["%2e%2e%2foutside.yaml"]);
    const {status} = await request(
      bench.app,
      {method: "PUT", path: "/api/files/%252e%252e%252fnew.yaml", headers: {...WRITING, "if-none-match": "*"}},
      "new",
    );
    expect(status).toBe(201);
    expect(readFileSync(at("work", "%2e%2e%2fnew.yaml"), "utf8")).toBe("new");
  });

  test("wide dots and strokes are letters like others", async () => {
    expect(readPath(encodeURIComponent("．．／outside.yaml"))).toEqual(["．．／outside.yaml"]);
    await bench.put(`${encodeURIComponent("．．")}/a.yaml`, "a");
    expect(readdirSync(at("work")).sort()).toEqual(["inside.yaml", "sub", "．．"]);
    expect(existsSync(at("a.yaml"))).toBe(false);
  });

  test("every letter of every script may stand in a name", () => {
    for (const name of [
      "Straße Süd.yaml",
      "道路.csv",
      "дорога (1).txt",
      "a & b + c, d; e=f'.json",
      "console.yaml",
      "a..b.yaml",
    ])
      expect(readPath(`sub/${encodeURIComponent(name)}`)).toEqual(["sub", name]);
    expect(readPath("A.YAML")).toEqual(["A.YAML"]);
    expect(readPath("1/2/3/4/5/deep.yaml").length).toBe(6);
    expect(readPath(`${"n".repeat(195)}.yaml`).length).toBe(1);
  });
});

describe("links", () => {
  const status = async (name: string): Promise<[read: number, written: number, listed: boolean]> => {
    const read = await bench.ask({url: `/api/files/${name}`});
    const write = await bench.app.inject({
      method: "PUT",
      url: `/api/files/${name}`,
      headers: {...WRITING, "if-match": "*"},
      payload: "taken over",
    });
    expect(`${read.body}${write.body}`).not.toContain(at());
    expect(read.body).not.toContain("secret");
    const {files} = (await bench.ask({url: "/api/workspace"})).json<{files: {path: string}[]}>();
    return [read.statusCode, write.statusCode, files.some(file => file.path === name)];
  };
  const created = async (name: string): Promise<number> => (await bench.put(name, "taken over")).statusCode;
  const refused = [403, 403, false];

  test("a file that leads outside, or to another file inside", async () => {
    symlinkSync(at("outside.yaml"), at("work", "link.yaml"));
    symlinkSync("inside.yaml", at("work", "near.yaml"));
    expect(await status("link.yaml")).toEqual(refused);
    expect(await status("near.yaml")).toEqual(refused);
    expect(await created("link.yaml")).toBe(403);
  });

  test("a folder that leads outside, or to itself", async () => {
    symlinkSync(at(), at("work", "up"));
    symlinkSync(at("work"), at("work", "round"));
    expect(await status("up/outside.yaml")).toEqual(refused);
    expect(await status("round/inside.yaml")).toEqual(refused);
    expect(await created("up/new.yaml")).toBe(403);
    expect(await created("up/deep/er/new.yaml")).toBe(403);
    expect(readdirSync(at()).sort()).toEqual(["outside.yaml", "page", "work"]);
  });

  test("a link to nothing is not written through", async () => {
    symlinkSync(at("new.yaml"), at("work", "link.yaml"));
    expect(await created("link.yaml")).toBe(403);
    expect(existsSync(at("new.yaml"))).toBe(false);
  });

  test("swapped in for a file or folder that was read before", async () => {
    writeFileSync(at("work", "sub", "a.yaml"), "a");
    const [first, second] = [
      await bench.ask({url: "/api/files/sub/a.yaml"}),
      await bench.ask({url: "/api/files/inside.yaml"}),
    ];
    expect([first.statusCode, second.statusCode]).toEqual([200, 200]);
    renameSync(at("work", "sub"), at("moved"));
    symlinkSync(at("moved"), at("work", "sub"));
    rmSync(at("work", "inside.yaml"));
    symlinkSync(at("outside.yaml"), at("work", "inside.yaml"));
    expect((await bench.put("sub/a.yaml", "b", first.headers.etag as string)).statusCode).toBe(403);
    expect((await bench.put("inside.yaml", "b", second.headers.etag as string)).statusCode).toBe(403);
    expect(await status("sub/a.yaml")).toEqual(refused);
    expect(await status("inside.yaml")).toEqual(refused);
    expect(readFileSync(at("moved", "a.yaml"), "utf8")).toBe("a");
    expect(readFileSync(at("outside.yaml"), "utf8")).toBe("secret");
  });

  test("a second name of an outside file is cut off from it by writing", async () => {
    linkSync(at("outside.yaml"), at("work", "same.yaml"));
    const {headers} = await bench.ask({url: "/api/files/same.yaml"});
    expect((await bench.put("same.yaml", "changed", headers.etag as string)).statusCode).toBe(200);
    expect(readFileSync(at("outside.yaml"), "utf8")).toBe("secret");
  });

  test("the workspace itself may be reached through one", async () => {
    symlinkSync(at("work"), at("short"));
    const through = workbench(at("page"), at("short"));
    expect((await through.put("new.yaml", "new")).statusCode).toBe(201);
    expect(readFileSync(at("work", "new.yaml"), "utf8")).toBe("new");
    expect((await through.ask({url: "/api/workspace"})).json()).toMatchObject({name: "short", complete: true});
  });
});

describe("what is in the way", () => {
  test("a folder with the name of a file, a file with the name of a folder", async () => {
    mkdirSync(at("work", "folder.yaml"));
    for (const name of ["folder.yaml", "inside.yaml/a.yaml"]) {
      expect((await bench.ask({url: `/api/files/${name}`})).statusCode).toBe(409);
      expect((await bench.put(name, "a")).statusCode).toBe(409);
    }
    expect(readFileSync(at("work", "inside.yaml"), "utf8")).toBe("inside");
  });

  test("a name that is too long for the file system only", async () => {
    const answer = await bench.put(`${encodeURIComponent("道".repeat(150))}.yaml`, "a"); // 455 bytes; 255 is usual
    expect([answer.statusCode, answer.json()]).toEqual([400, {error: {code: "path", message: "the name is too long"}}]);
  });
});

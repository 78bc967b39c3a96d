/** The page is built when what it is made of has changed, and only then. */
import {execFile, spawnSync} from "node:child_process";
import {
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import path from "node:path";
import {promisify} from "node:util";
import {brotliDecompressSync, gunzipSync} from "node:zlib";
import {beforeEach, expect, test} from "vitest";
import {testFolder} from "../folder.ts";

const at = testFolder("test");
const root = path.resolve(import.meta.dirname, "../../..");

/** A checkout with a page of two lines. */
beforeEach(() => {
  for (const file of ["scripts/page.mjs", "vite.config.ts", "package.json", "package-lock.json"])
    cpSync(path.join(root, file), at(file));
  symlinkSync(path.join(root, "node_modules"), at("node_modules"));
  for (const folder of ["web", "engine", "cli"]) mkdirSync(at("src", folder), {recursive: true});
  writeFileSync(at("src", "web", "index.html"), '<!doctype html><script type="module" src="./start.ts"></script>');
  writeFileSync(at("src", "web", "start.ts"), 'import {one} from "../engine/one.ts"; document.title = String(one);');
  writeFileSync(at("src", "engine", "one.ts"), "export const one: number = 4711;");
});

function run(): {said: string; status: number | null} {
  const {stdout, stderr, status} = spawnSync(process.execPath, ["scripts/page.mjs"], {cwd: at(), encoding: "utf8"});
  return {said: stdout + stderr, status};
}
const built = {said: "Building the page (once) …\n", status: 0};
const nothing = {said: "", status: 0};
const page = (): string => readFileSync(at("dist", "web", "index.html"), "utf8");
const script = (): string => {
  const [, file] = /src="\.\/(assets\/[^"]+\.js)"/.exec(page()) ?? [];
  return readFileSync(at("dist", "web", file), "utf8");
};

test("once for the same sources, anew for others", () => {
  expect(run()).toEqual(built);
  expect(script()).toContain("4711");
  expect(run()).toEqual(nothing);

  const later = new Date(Date.now() + 60_000);
  utimesSync(at("src", "engine", "one.ts"), later, later); // touched, not changed
  writeFileSync(at("src", "cli", "main.ts"), "the page does not have this");
  expect(run()).toEqual(nothing);

  writeFileSync(at("src", "engine", "one.ts"), "export const one: number = 4712;");
  expect(run()).toEqual(built);
  expect(script()).toContain("4712");

  writeFileSync(at("package-lock.json"), "{}");
  expect(run()).toEqual(built);
  expect(run()).toEqual(nothing);
});

test("a build that fails says why, leaves the page as it was, and is tried again", () => {
  run();
  const before = page();
  const good = readFileSync(at("src", "web", "start.ts"));
  writeFileSync(at("src", "web", "start.ts"), 'import "./none.ts";');
  const failed = run();
  expect(failed.status).toBe(1);
  expect(failed.said).toContain("The page could not be built.");
  expect(failed.said).toContain("none.ts");
  expect(run().status).toBe(1);
  expect(page()).toBe(before);
  expect(readdirSync(at("dist"))).toEqual([".page-sources", "web"]);
  writeFileSync(at("src", "web", "start.ts"), good);
  expect(run()).toEqual(nothing); // the page that was left is that of these sources
});

test("several at once, as tests run, leave one whole page", async () => {
  const runs = Array.from({length: 3}, () => promisify(execFile)(process.execPath, ["scripts/page.mjs"], {cwd: at()}));
  for (const {stdout, stderr} of await Promise.all(runs)) expect(stdout + stderr).toMatch(/^(Building.*\n)?$/);
  expect(script()).toContain("4711");
  expect(readdirSync(at("dist"))).toEqual([".page-sources", "web"]);
  expect(run()).toEqual(nothing);
});

test("it is the build for users, whatever the environment of the tests says", () => {
  expect(process.env.NODE_ENV).toBe("test");
  writeFileSync(at("src", "web", "start.ts"), "document.title = process.env.NODE_ENV;");
  expect(run()).toEqual(built);
  expect(script()).toContain("production");
});

test("texts of some size lie there packed, and unpack to the same", () => {
  writeFileSync(at("src", "web", "start.ts"), `document.title = "${"a long title, ".repeat(200)}";`);
  run();
  const names = readdirSync(at("dist", "web", "assets"));
  const [file] = names.filter(name => name.endsWith(".js"));
  const bytes = (name: string): Buffer => readFileSync(at("dist", "web", "assets", name));
  expect(names.toSorted()).toEqual([file, `${file}.br`, `${file}.gz`]);
  expect(brotliDecompressSync(bytes(`${file}.br`))).toEqual(bytes(file));
  expect(gunzipSync(bytes(`${file}.gz`))).toEqual(bytes(file));
  expect(bytes(`${file}.br`).length).toBeLessThan(bytes(file).length / 4);
  expect(existsSync(at("dist", "web", "index.html.br"))).toBe(false); // too small
});

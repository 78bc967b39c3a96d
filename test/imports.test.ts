/** Imports go down only, outsiders use a folder's front door, and the engine is pure. Every violation is told at once. */
import {readdirSync, readFileSync} from "node:fs";
import {isBuiltin} from "node:module";
import path from "node:path";
import {expect, test} from "vitest";

const root = path.resolve(import.meta.dirname, "..");

/** What each folder of src may import besides itself. */
const BELOW: Readonly<Record<string, readonly string[]>> = {
  cli: ["node", "compute", "report", "schema", "engine"],
  server: ["node", "compute", "report", "schema", "engine"],
  web: ["compute", "pool", "report", "schema", "engine"],
  node: ["compute", "pool", "report", "schema", "engine"],
  compute: ["pool", "schema", "engine"],
  pool: ["engine"],
  report: ["engine"],
  schema: ["engine"],
  engine: [],
};

/** What each folder of the engine may import besides itself and errors.ts. */
const MECHANISMS = ["crack", "response", "layered", "climate", "traffic"];
const ENGINE_BELOW: Readonly<Record<string, readonly string[]>> = {
  risk: ["life", "statistics", "numeric"],
  uncertainty: ["risk", "life", "cost", "statistics"],
  survey: ["life", "cost", "section"],
  laboratory: ["life", ...MECHANISMS, "section", "viscoelastic", "numeric", "statistics"],
  life: [...MECHANISMS, "field", "cost", "section", "viscoelastic", "numeric"],
  ...Object.fromEntries(MECHANISMS.map(name => [name, ["section", "numeric"]])),
  field: ["response", "section", "numeric"],
  section: ["viscoelastic", "numeric"],
  numeric: ["wasm"],
  backanalysis: ["layered", "statistics"],
  viscoelastic: ["statistics", "numeric"],
  cost: [],
  statistics: ["numeric"],
  wasm: [],
};

/** Packages that the engine may use, in these folders only: plain computation, the same in every surrounding. */
const PURE_PACKAGES: Readonly<Record<string, RegExp>> = {
  numeric: /^@stdlib\/math-base-special-/,
  statistics: /^(?:@stdlib\/stats-base-dists-|pure-rand\/)/,
};

/** Free names of the engine that would tie it to a machine, a clock, chance or a browser. */
const IMPURE =
  /(?<![\w.$])(?:(?:process|console|performance|document|window|navigator|localStorage|globalThis|self)\s*[.[]|Math\.random\b|Date\.now\b|new Date\b|(?:fetch|setTimeout|setInterval|queueMicrotask|require)\s*\()/g;

/** Free names of what is the same in Node and in a page that would tie it to Node. */
const NODE_ONLY =
  /(?<![\w.$])(?:(?:process|Buffer)\s*[.[(]|(?:setImmediate|clearImmediate|createHash|require)\s*\(|import\.meta\b|__dirname\b)/g;

interface Import {
  readonly from: string; // file, relative to the root
  readonly specifier: string;
  readonly line: number; // from 1
}

function sources(folder: string): string[] {
  return readdirSync(path.join(root, folder), {recursive: true, encoding: "utf8"})
    .filter(name => /\.tsx?$/.test(name) && !name.includes("assembly")) // that is of another language
    .map(name => path.posix.join(folder, name.split(path.sep).join("/")))
    .sort();
}

function importsOf(from: string): Import[] {
  const text = readFileSync(path.join(root, from), "utf8");
  const statement =
    /^(?:import|export)\b(?:[^"';()]*?\bfrom)?\s*["']([^"']+)["']|\bimport\s*\(\s*["']([^"']+)["']|\bimport\(["']([^"']+)["']\)/gm;
  return [...text.matchAll(statement)].map(match => ({
    from,
    specifier: match[1] ?? match[2] ?? match[3],
    line: text.slice(0, match.index).split("\n").length,
  }));
}

/** Where an import leads, relative to the root; null for a package. */
function target({from, specifier}: Import): string | null {
  return specifier.startsWith(".") ? path.posix.join(path.posix.dirname(from), specifier) : null;
}

/** src/engine/life/tasks.ts → engine, life; src/engine/errors.ts → engine, "" */
function place(file: string): {readonly area: string; readonly folder: string} {
  const parts = file.split("/");
  return {area: parts[1] ?? "", folder: parts.length > 3 ? parts[2] : ""};
}

const isFrontDoor = (file: string): boolean => /\/(?:index|types)\.ts$/.test(file);
const isErrors = (file: string): boolean => file === "src/engine/errors.ts";

/** What is wrong with one import of src, or null. */
function directionFault(one: Import): string | null {
  const to = target(one);
  const own = place(one.from);
  if (to === null) {
    if (own.area !== "engine" || PURE_PACKAGES[own.folder]?.test(one.specifier)) return null;
    return "the engine imports nothing from outside";
  }
  if (!to.startsWith("src/")) return "src imports nothing from outside src";
  const other = place(to);
  if (own.area !== other.area) {
    if (!BELOW[own.area]?.includes(other.area))
      return `${own.area} may import ${BELOW[own.area]?.join(", ") || "nothing"}`;
    return isErrors(to) || isFrontDoor(to) ? null : "outsiders import index.ts or types.ts only";
  }
  if (own.area !== "engine" || own.folder === other.folder || isErrors(to)) return null;
  if (!ENGINE_BELOW[own.folder]?.includes(other.folder))
    return `engine/${own.folder} may import ${ENGINE_BELOW[own.folder]?.join(", ") || "nothing"}`;
  return isFrontDoor(to) ? null : "other folders of the engine import index.ts or types.ts only";
}

const told = (one: Import, fault: string): string => `${one.from}:${one.line} imports ${one.specifier}: ${fault}`;

test("folders of src are those whose rank is known", () => {
  const folders = (folder: string) =>
    readdirSync(path.join(root, folder), {withFileTypes: true}).flatMap(entry =>
      entry.isDirectory() ? [entry.name] : [],
    );
  expect(folders("src").filter(name => !BELOW[name])).toEqual([]);
  expect(folders("src/engine").filter(name => !ENGINE_BELOW[name])).toEqual([]);
});

test("imports go down only, through index.ts or types.ts", () => {
  const all = sources("src").flatMap(importsOf);
  expect(all.length).toBeGreaterThan(100); // the expression still finds them
  const faults = all.flatMap(one => {
    const fault = directionFault(one);
    return fault ? [told(one, fault)] : [];
  });
  expect(faults).toEqual([]);
});

test("verification uses only public indexes", () => {
  const faults = sources("verification")
    .flatMap(importsOf)
    .flatMap(one => {
      const to = target(one);
      const inside = to?.startsWith("src/") && !isErrors(to) && !isFrontDoor(to);
      return inside ? [told(one, "verification imports index.ts or types.ts only")] : [];
    });
  expect(faults).toEqual([]);
});

/** Where code of a folder has what an expression looks for, comments and texts aside. */
function uses(folder: string, forbidden: RegExp): string[] {
  return sources(folder).flatMap(file => {
    const code = withoutWords(readFileSync(path.join(root, file), "utf8"));
    return [...code.matchAll(forbidden)].map(m => `${file}:${code.slice(0, m.index).split("\n").length} uses ${m[0]}`);
  });
}

test("the engine knows no machine, clock, chance or browser", () => {
  expect(uses("src/engine", IMPURE)).toEqual([]);
});

test("what a page computes with knows nothing of Node", () => {
  const folders = ["src/compute", "src/pool", "src/schema", "src/report"];
  const faults = folders.flatMap(sources).flatMap(importsOf).filter(isOfNode);
  expect(faults.map(one => told(one, "a page has none"))).toEqual([]);
  expect(folders.flatMap(folder => uses(folder, NODE_ONLY))).toEqual([]);
});

function isOfNode({specifier}: Pick<Import, "specifier">): boolean {
  return specifier.startsWith("node:") || isBuiltin(specifier);
}

/** Comments and texts blanked out, lines kept. */
function withoutWords(code: string): string {
  const words = /"(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*'|\/\/[^\n]*|\/\*[\s\S]*?\*\//g;
  return code.replace(words, found => found.replace(/[^\n]/g, " "));
}

test("the rules see what they are for", () => {
  const wrong: [from: string, specifier: string][] = [
    ["src/engine/life/tasks.ts", "node:fs"],
    ["src/engine/life/tasks.ts", "pure-rand/generator/mersenne"],
    ["src/engine/statistics/random.ts", "commander"],
    ["src/engine/life/tasks.ts", "../../schema/index.ts"],
    ["src/engine/crack/law.ts", "../climate/index.ts"],
    ["src/engine/response/model.ts", "../section/mesh.ts"],
    ["src/engine/section/mesh.ts", "../response/index.ts"],
    ["src/report/csv.ts", "../schema/index.ts"],
    ["src/node/life.ts", "../cli/main.ts"],
    ["src/compute/life.ts", "../node/index.ts"],
    ["src/compute/life.ts", "../report/index.ts"],
    ["src/web/worker/life.ts", "../../node/index.ts"],
    ["src/web/views/lives.tsx", "../../cli/life.ts"],
    ["src/server/main.ts", "../web/main.tsx"],
    ["src/cli/life.ts", "../engine/life/tasks.ts"],
    ["src/cli/life.ts", "../../test/docs.test.ts"],
  ];
  const right: [from: string, specifier: string][] = [
    ["src/engine/life/tasks.ts", "../climate/index.ts"],
    ["src/engine/life/tasks.ts", "./rates.ts"],
    ["src/engine/crack/law.ts", "../section/types.ts"],
    ["src/engine/numeric/dense.ts", "../errors.ts"],
    ["src/engine/statistics/random.ts", "pure-rand/generator/mersenne"],
    ["src/cli/life.ts", "commander"],
    ["src/node/samplingHash.ts", "../compute/index.ts"],
    ["src/node/laboratory/calibration.ts", "../../compute/laboratory/index.ts"],
    ["src/web/worker/life.ts", "../../pool/index.ts"],
    ["src/cli/life.ts", "../engine/errors.ts"],
  ];
  const faultOf = ([from, specifier]: [string, string]) => directionFault({from, specifier, line: 1});
  expect(wrong.filter(pair => faultOf(pair) === null)).toEqual([]);
  expect(right.filter(pair => faultOf(pair) !== null)).toEqual([]);
  expect("const t = Math.random();".match(IMPURE)).not.toBeNull();
  for (const code of ["process.exit()", "Buffer.from(x)", "setImmediate(go)"])
    expect(code.match(NODE_ONLY)).not.toBeNull();
  expect("one.process.x; serveProcess(a); process = 1;".match(NODE_ONLY)).toBeNull();
  expect(["node:fs", "fs", "./fs.ts", "csv-parse"].map(specifier => isOfNode({specifier}))).toEqual([
    true,
    true,
    false,
    false,
  ]);
  expect(withoutWords('a; // the process. "x"\nb("console.log")').match(IMPURE)).toBeNull();
});

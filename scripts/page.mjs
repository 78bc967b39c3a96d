// Builds the page into dist/web when what it is made of has changed since the last time. Texts lie there packed, too.
import {createHash} from "node:crypto";
import {existsSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync} from "node:fs";
import path from "node:path";
import {fileURLToPath} from "node:url";
import {brotliCompressSync, gzipSync, constants as zlib} from "node:zlib";

const root = fileURLToPath(new URL("..", import.meta.url));
const stamp = path.join(root, "dist", ".page-sources");
const web = path.join(root, "dist", "web");
const building = `${web}-${process.pid}`; // beside it, so that who is served the old page gets all of it

/** Files and folders that the page is made of; of src all but what only Node runs. */
const made = [
  "package.json",
  "package-lock.json",
  "tsconfig.json",
  "vite.config.ts",
  "scripts/page.mjs",
  "examples",
  "src",
];
const apart = ["cli", "node", "server"].map(name => path.join("src", name));

/** Files that also lie there packed. */
const PACKED = /\.(?:html|js|css|svg|csv|yaml)$/;
const LEAST_PACKED = 1000; // [bytes]; below that a packet of the net holds it anyhow

const want = hashOf(made);
if (!isBuilt()) await build();

function isBuilt() {
  return existsSync(stamp) && existsSync(path.join(web, "index.html")) && readFileSync(stamp, "utf8") === want;
}

async function build() {
  console.log("Building the page (once) …");
  process.env.NODE_ENV = "production"; // a test runner sets another, and would get the slow React of developers
  try {
    const vite = await import("vite");
    const outDir = building;
    await vite.build({configFile: path.join(root, "vite.config.ts"), logLevel: "error", build: {outDir}});
    pack(outDir);
    if (!isBuilt()) takeOver(outDir); // another process may have been as quick
  } catch (error) {
    console.error(`The page could not be built. ${error.message}`);
    process.exitCode = 1;
  } finally {
    rmSync(building, {recursive: true, force: true});
  }
}

/** The new page in the place of the old one. */
function takeOver(folder) {
  rmSync(stamp, {force: true}); // whoever breaks off here leaves no page that looks whole
  const old = `${building}-old`;
  if (existsSync(web)) renameSync(web, old);
  renameSync(folder, web);
  writeFileSync(stamp, want);
  rmSync(old, {recursive: true, force: true});
}

/** Each text beside itself as .br and .gz, as web servers look for them. */
function pack(folder) {
  for (const name of readdirSync(folder, {recursive: true})) {
    const file = path.join(folder, name);
    if (!PACKED.test(name) || statSync(file).size < LEAST_PACKED) continue;
    const bytes = readFileSync(file);
    const params = {[zlib.BROTLI_PARAM_QUALITY]: 9, [zlib.BROTLI_PARAM_SIZE_HINT]: bytes.length}; // 11: a minute
    writeFileSync(`${file}.br`, brotliCompressSync(bytes, {params}));
    writeFileSync(`${file}.gz`, gzipSync(bytes, {level: 9}));
  }
}

/** Over names and contents, so that neither a fresh checkout nor a touched file counts as a change. */
function hashOf(places) {
  const hash = createHash("sha256");
  for (const file of places.flatMap(filesOf)) {
    const bytes = readFileSync(path.join(root, file));
    hash.update(`${file}\n${bytes.length}\n`).update(bytes);
  }
  return hash.digest("hex");
}

/** All files at or below a place, in one order. */
function filesOf(place) {
  const full = path.join(root, place);
  if (apart.includes(place) || !existsSync(full)) return [];
  if (!statSync(full).isDirectory()) return [place];
  return readdirSync(full)
    .sort()
    .flatMap(name => filesOf(path.join(place, name)));
}

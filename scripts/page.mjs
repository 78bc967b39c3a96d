// Builds the page into dist/web when what it is made of has changed since the last time.
import {createHash} from "node:crypto";
import {existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync} from "node:fs";
import path from "node:path";
import {fileURLToPath} from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const stamp = path.join(root, "dist", ".page-sources");
const page = path.join(root, "dist", "web", "index.html");

/** Files and folders that the page is made of; of src all but what only Node runs. */
const made = ["package.json", "package-lock.json", "tsconfig.json", "vite.config.ts", "examples", "src"];
const apart = ["cli", "node", "server"].map(name => path.join("src", name));

const want = hashOf(made);
const have = existsSync(stamp) && existsSync(page) ? readFileSync(stamp, "utf8") : "";
if (have !== want) await build();

async function build() {
  console.log("Building the page (once) …");
  rmSync(stamp, {force: true}); // a build that breaks off leaves half a page
  try {
    const vite = await import("vite");
    await vite.build({configFile: path.join(root, "vite.config.ts"), logLevel: "error"});
  } catch (error) {
    console.error(`The page could not be built. ${error.message}`);
    process.exit(1);
  }
  mkdirSync(path.dirname(stamp), {recursive: true});
  writeFileSync(stamp, want);
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

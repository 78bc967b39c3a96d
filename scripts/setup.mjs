// Runs on whatever Node the machine has, before anything is installed: brings node_modules in line with the lock file.
// One of the packages is Node 24 itself; npm scripts find it before the machine's own.
import {execFileSync, spawnSync} from "node:child_process";
import {createHash} from "node:crypto";
import {existsSync, lstatSync, readFileSync, writeFileSync} from "node:fs";
import {fileURLToPath} from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const windows = process.platform === "win32";
const stamp = `${root}node_modules/.installed`;
const want = createHash("sha256")
  .update(readFileSync(`${root}package-lock.json`))
  .digest("hex");
const have = existsSync(stamp) ? readFileSync(stamp, "utf8") : "";
if (have !== want) install();

function install() {
  // npm would empty the folder that it leads to, which may be another checkout's.
  if (lstatSync(`${root}node_modules`, {throwIfNoEntry: false})?.isSymbolicLink())
    stop("node_modules is a link to another folder: remove the link, then try again.");
  console.log("Installing the packages named in package-lock.json (once) …");
  try {
    execFileSync("npm", ["ci", "--no-audit", "--no-fund", "--loglevel=error"], {
      cwd: root,
      stdio: "inherit",
      shell: windows,
    });
  } catch (error) {
    stop(error.code === "ENOENT" ? "npm was not found." : "npm could not install the packages; see above.");
  }
  const runtime = windows ? "node_modules/node/bin/node.exe" : "node_modules/node/bin/node";
  const found = spawnSync(root + runtime, ["--version"], {encoding: "utf8"});
  if (found.status !== 0 && !process.features.typescript) {
    stop(
      `The packages are there but ${runtime}, which runs TypeScript, is not or does not start: perhaps npm is set to ` +
        "ignore install scripts. Try `npm rebuild node --ignore-scripts=false`, or use Node 24 or newer.",
    );
  }
  writeFileSync(stamp, want);
}

function stop(message) {
  console.error(message);
  process.exit(1);
}

// Runs on whatever Node the machine has, before anything is installed: brings node_modules in line with the lock file.
import {execFileSync} from "node:child_process";
import {createHash} from "node:crypto";
import {existsSync, readFileSync, writeFileSync} from "node:fs";
import {fileURLToPath} from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const stamp = `${root}node_modules/.installed`;
const want = createHash("sha256")
  .update(readFileSync(`${root}package-lock.json`))
  .digest("hex");
const have = existsSync(stamp) ? readFileSync(stamp, "utf8") : "";
if (have !== want) {
  console.log("Installing the packages named in package-lock.json (once) …");
  execFileSync("npm", ["ci", "--no-audit", "--no-fund", "--loglevel=error"], {
    cwd: root,
    stdio: "inherit",
    shell: process.platform === "win32",
  });
  writeFileSync(stamp, want);
}

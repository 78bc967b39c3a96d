// The tests of the page need Chromium: found, or installed where that can be done, or the way to install it told.
import {spawnSync} from "node:child_process";
import {existsSync} from "node:fs";
import path from "node:path";
import {fileURLToPath} from "node:url";

/** Where Debian's, Ubuntu's and the maker's packages put it. */
export const BROWSERS = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];

/** As `npm test` asks for it. */
const INSTALL = [
  ["apt-get", "update", "-q"],
  ["apt-get", "install", "-q", "-y", "--no-install-recommends", "chromium"],
];

/**
 * What is to be done on a machine.
 *
 * @param {{found: string | undefined, platform: string, isDebian: boolean, hasApt: boolean, isRoot: boolean}} machine
 * @returns {{kind: "nothing"} | {kind: "install"} | {kind: "tell", message: string}}
 */
export function stepFor({found, platform, isDebian, hasApt, isRoot}) {
  if (found !== undefined) return {kind: "nothing"};
  if (isDebian && hasApt) return isRoot ? {kind: "install"} : {kind: "tell", message: tellOf("debian")};
  return {kind: "tell", message: tellOf(platform)};
}

/** How to get the browser, by the system. */
function tellOf(system) {
  const need = "The tests of the page need Chromium, which was not found";
  if (system === "debian")
    return `${need}. Install it with\n  sudo apt-get update && sudo apt-get install -y --no-install-recommends chromium`;
  if (system === "linux")
    return `${need} at any of ${BROWSERS.join(", ")}. Install the package chromium of your distribution.`;
  return `${need}. They run on Linux, with it at any of ${BROWSERS.join(", ")}: in a container of Debian, say.`;
}

/** The browser that is there. */
export function foundBrowser() {
  return BROWSERS.find(place => existsSync(place));
}

function thisMachine() {
  const folders = (process.env.PATH ?? "").split(path.delimiter);
  return {
    found: foundBrowser(),
    platform: process.platform,
    isDebian: existsSync("/etc/debian_version"),
    hasApt: folders.some(folder => existsSync(path.join(folder, "apt-get"))),
    isRoot: process.getuid?.() === 0,
  };
}

function install() {
  console.log("Installing Chromium, which the tests of the page need, by apt-get (once) …");
  for (const [program, ...words] of INSTALL) {
    const {status, stdout, stderr} = spawnSync(program, words, {
      encoding: "utf8",
      env: {...process.env, DEBIAN_FRONTEND: "noninteractive"},
    });
    if (status !== 0) stop(`${[program, ...words].join(" ")} failed:\n${stdout ?? ""}${stderr ?? ""}`);
  }
  if (!foundBrowser()) stop(tellOf("linux")); // a package that only leads to another store
}

function stop(message) {
  console.error(message);
  process.exit(1);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const step = stepFor(thisMachine());
  if (step.kind === "install") install();
  else if (step.kind === "tell") stop(step.message);
}

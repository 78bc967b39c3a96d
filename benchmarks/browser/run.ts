/**
 * The same eliminations and response models as response/run.ts, in a page of Chromium with two web workers: with memory
 * that threads share, and without, when messages are copied. One JSON line a measurement on standard output. Needs
 * Chromium, which install-yardsticks.sh installs.
 *
 *   node benchmarks/browser/run.ts
 */
import {execFileSync, spawn} from "node:child_process";
import {mkdtempSync, rmSync} from "node:fs";
import {tmpdir} from "node:os";
import path from "node:path";
import {build} from "vite";
import {tell} from "../line.ts";
import {encode} from "../response/message.ts";
import {subjects} from "../section.ts";
import {openServer} from "./server.ts";

const FLAGS = [
  "--headless",
  "--no-sandbox", // it is started by root in a container
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];
const LONGEST = 15 * 60_000; // [ms]

const versions = {
  chromium: /[\d.]+/.exec(execFileSync("chromium", ["--version"], {encoding: "utf8"}))?.[0] ?? "unknown",
};
const folder = mkdtempSync(path.join(tmpdir(), "seamwright-page-"));
try {
  await bundle(folder);
  for (const isolated of [true, false]) {
    const server = await openServer({
      folder,
      subjects: encode(subjects()),
      isolated,
      onLine: line => tell({...JSON.parse(line), versions}),
    });
    try {
      await visit(server.address, server.ended);
    } finally {
      server.close();
    }
  }
} finally {
  rmSync(folder, {recursive: true, maxRetries: 5}); // a browser that has just ended may still be writing
}

/** The page and its workers' module, each in one file. */
async function bundle(outDir: string): Promise<void> {
  for (const [name, entry] of [
    ["page", "page.ts"],
    ["worker", path.join("..", "response", "worker.ts")],
  ]) {
    await build({
      configFile: false,
      root: import.meta.dirname,
      logLevel: "error",
      build: {
        outDir,
        emptyOutDir: false,
        target: "esnext",
        modulePreload: false,
        rolldownOptions: {
          input: {[name]: path.join(import.meta.dirname, entry)},
          output: {entryFileNames: "[name].js", codeSplitting: false},
        },
      },
    });
  }
}

/** Opens the page in a browser of its own and waits until it has told everything. */
async function visit(address: string, ended: Promise<void>): Promise<void> {
  const profile = mkdtempSync(path.join(tmpdir(), "seamwright-chromium-"));
  const browser = spawn("chromium", [...FLAGS, `--user-data-dir=${profile}`, address], {stdio: "ignore"});
  const left = new Promise<void>(resolve => browser.once("exit", () => resolve()));
  const timer = new AbortController();
  const late = new Promise<never>((_, reject) => {
    const after = setTimeout(
      () => reject(new Error(`the page told nothing within ${LONGEST / 60_000} minutes`)),
      LONGEST,
    );
    timer.signal.addEventListener("abort", () => clearTimeout(after));
  });
  const gone = left.then(() => {
    throw new Error("chromium ended before the page did");
  });
  try {
    await Promise.race([ended, late, gone]);
  } finally {
    timer.abort();
    browser.kill();
    await left;
    rmSync(profile, {recursive: true, maxRetries: 5});
  }
}

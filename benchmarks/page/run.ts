/**
 * How the page starts: bytes sent, time to the first section, until it can be used, and to the first answer, in Chromium
 * with its main thread slowed down fourfold, which stands for a laptop of the middle. One JSON line a visit on standard
 * output; writes docs/page-start.md. Needs Chromium; two minutes.
 *
 *   node benchmarks/page/run.ts [--dry]
 */
import {execFileSync} from "node:child_process";
import {mkdtempSync, rmSync, writeFileSync} from "node:fs";
import {availableParallelism, loadavg, tmpdir} from "node:os";
import path from "node:path";
import {type Browser, type BrowserContext, chromium} from "playwright-core";
import {foundBrowser} from "../../scripts/browser.mjs";
import {createApp} from "../../src/server/app.ts";
import {tell} from "../line.ts";
import {machineRows} from "../machine.ts";
import {medianOf} from "../times.ts";
import {startPage} from "./document.ts";
import {dialogTime, type Start, WATCH, watched} from "./visit.ts";

const ROOT = path.resolve(import.meta.dirname, "../..");
const PAGE = path.join(ROOT, "docs", "page-start.md");
const SLOWER = 4; // times, main thread of the page
const RUNS = 5;

const executablePath = foundBrowser();
if (!executablePath) throw new Error("Chromium is needed: node scripts/browser.mjs tells how to get it.");
execFileSync(process.execPath, [path.join(ROOT, "scripts", "page.mjs")], {stdio: "inherit"});

const folder = mkdtempSync(path.join(tmpdir(), "seamwright-start-"));
const app = createApp({page: path.join(ROOT, "dist", "web"), workspace: path.join(folder, "workspace")});
let sent = 0; // bodies as they were sent, packed where they were [bytes]
app.addHook("onResponse", async (_request, reply) => {
  sent += Number(reply.getHeader("content-length") ?? 0);
});
const address = `${await app.listen({host: "127.0.0.1", port: 0})}/`;
const before = loadavg()[0]; // of others: nothing of ours has run for a minute
const browser = await chromium.launch({executablePath, args: ["--no-sandbox", "--disable-gpu"]});
try {
  const visits: Record<"first" | "again", Start[]> = {first: [], again: []};
  for (let k = 0; k <= RUNS; k++) {
    const {first, again} = await bothVisits(browser);
    if (k === 0) continue; // the file system is warm from now on
    visits.first.push(first);
    visits.again.push(again);
    tell({what: "first visit", ...first});
    tell({what: "again", ...again});
  }
  const versions = {chromium: browser.version()};
  const others = `load of ${before.toFixed(1)} on ${availableParallelism()} cores in the minute before`;
  const machine = [...machineRows([{what: "page", ms: 0, versions}]), ["other work", others] as const];
  tell({what: "other work", others});
  if (!process.argv.includes("--dry"))
    writeFileSync(
      PAGE,
      startPage({machine, slower: SLOWER, runs: RUNS, first: medians(visits.first), again: medians(visits.again)}),
    );
} finally {
  await browser.close();
  await app.close();
  rmSync(folder, {recursive: true, maxRetries: 5});
}

/** With a new profile, and once more with what the browser has kept. */
async function bothVisits(own: Browser): Promise<{readonly first: Start; readonly again: Start}> {
  const context = await own.newContext({viewport: {width: 1280, height: 720}});
  try {
    return {first: await visit(context), again: await visit(context)};
  } finally {
    await context.close();
  }
}

async function visit(context: BrowserContext): Promise<Start> {
  const page = await context.newPage();
  const debug = await context.newCDPSession(page);
  await debug.send("Emulation.setCPUThrottlingRate", {rate: SLOWER});
  await page.addInitScript(WATCH);
  sent = 0;
  await page.goto(address);
  const ready = await watched(page);
  const untilReady = sent;
  const dialog = await dialogTime(page);
  await page.keyboard.press("Escape");
  await page.getByText("Lives of the study as it stands").waitFor({timeout: 300_000});
  const answer = await page.evaluate(() => (globalThis as unknown as {start: {answer: number}}).start.answer);
  const start = {...ready, dialog, answer, kilobytes: untilReady / 1e3, allKilobytes: sent / 1e3};
  await page.close();
  return start;
}

function medians(all: readonly Start[]): Start {
  const of = (key: keyof Start): number => medianOf(all.map(start => start[key]));
  return {
    painted: of("painted"),
    drawn: of("drawn"),
    interactive: of("interactive"),
    busy: of("busy"),
    dialog: of("dialog"),
    answer: of("answer"),
    kilobytes: of("kilobytes"),
    allKilobytes: of("allKilobytes"),
  };
}

/**
 * The page from any web server: plain files, no interface behind them, no headers that isolate it; and then no network.
 *
 * Expected: what the page does with its own server, apart from the workspace folder.
 */
import {createReadStream, existsSync} from "node:fs";
import {createServer, type Server} from "node:http";
import type {AddressInfo} from "node:net";
import path from "node:path";
import {strFromU8, unzipSync} from "fflate";
import type {Page} from "playwright-core";
import {afterAll, beforeAll, expect, test} from "vitest";
import {solved, stage, toView} from "./harness.ts";
import {button, chooseLayer, downloaded, drop, lives, openFiles, otherLives, textOf, write} from "./steps.ts";
import {QUICK} from "./studies.ts";

const {browser, built} = stage();
const TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html",
  ".js": "text/javascript",
  ".css": "text/css",
  ".svg": "image/svg+xml",
};

let server: Server;
let page: Page;
let refused: RegExp | null = null; // addresses that the server cannot give out for now
const missing = new Set<string>(); // addresses at which there was nothing
const failures: string[] = []; // of scripts; that there is no workspace is no failure

beforeAll(async () => {
  const folder = built();
  server = createServer((request, response) => {
    const {pathname} = new URL(request.url!, "http://localhost");
    const file = path.join(folder, pathname.replace(/\/$/, "/index.html"));
    if (refused?.test(pathname)) return void response.writeHead(503).end();
    if (!existsSync(file)) {
      missing.add(pathname);
      response.writeHead(404, {"Content-Type": "text/html"}).end("<p>Nothing here.</p>");
      return;
    }
    response.writeHead(200, {"Content-Type": TYPES[path.extname(file)] ?? "application/octet-stream"});
    createReadStream(file).pipe(response);
  });
  await new Promise<void>(resolve => server.listen(0, "127.0.0.1", resolve));
  page = await (await browser().newContext({viewport: {width: 1280, height: 720}})).newPage();
  page.setDefaultTimeout(60_000);
  page.on("pageerror", error => failures.push(error.message));
  await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
}, 300_000);

afterAll(async () => {
  server?.closeAllConnections();
  server?.close();
  expect(failures).toEqual([]);
});

test("the example opens and is solved without shared memory", async () => {
  expect(await page.evaluate(() => [typeof SharedArrayBuffer, crossOriginIsolated])).toEqual(["undefined", false]);
  await solved(page);
  const found = await lives(page);
  expect(found).toHaveLength(2);
  for (const life of found) expect(life).toMatch(/^[\d.]+ years/);
});

test("saved as a ZIP that opens again with all its files", async () => {
  const text = (await textOf(page)).replace("County road", "Other road"); // to be told from what comes by itself
  await page.getByLabel("Study, YAML").fill(text);
  await button(page, "Take the text over").click();
  const {name, bytes} = await downloaded(page, () => button(page, "Save").click());
  expect(name).toBe("county-road.zip");
  const inside = unzipSync(bytes);
  // The files that the example names, by reading it.
  const named = [...text.matchAll(/\b(?:file|law_file): ([\w./-]+)/g)].map(match => match[1]);
  expect(named.length).toBeGreaterThan(6);
  expect(Object.keys(inside).sort()).toEqual(["county-road.yaml", ...named].sort());
  expect(strFromU8(inside["county-road.yaml"])).toBe(text);

  const other = await page.context().newPage();
  other.setDefaultTimeout(60_000);
  other.on("pageerror", error => failures.push(error.message));
  await other.goto(page.url());
  await button(other, "Open").click();
  await drop(other, other.getByRole("dialog").locator(".note.empty"), [{name, content: bytes}]);
  await other.getByRole("dialog").waitFor({state: "hidden"});
  await other.getByRole("heading", {level: 1, name: /^Other road/}).waitFor();
  expect(await textOf(other)).toBe(text);
  await other.getByRole("heading", {name: "No faults"}).waitFor();
  expect(await other.getByText("missing", {exact: true}).count()).toBe(0);
  await other.close();
});

test("without a network the page edits, solves and reports on", async () => {
  // Views that were never opened are fetched some seconds after the start, all the same.
  const isFetched = (): Promise<boolean> =>
    page.evaluate(() => {
      const names = performance.getEntriesByType("resource").map(entry => entry.name);
      return ["costs", "pays", "thickness", "wheel", "climate"].every(view =>
        names.some(name => name.includes(`/${view}-`)),
      );
    });
  await expect.poll(isFetched, {timeout: 60_000}).toBe(true);
  await page.waitForLoadState("networkidle");
  await page.context().setOffline(true);
  const before = await lives(page);
  await chooseLayer(page, "base");
  await write(page.locator(".inspector").getByLabel("Thickness", {exact: true}), "230");
  const after = await otherLives(page, before);
  expect(after).toHaveLength(2);
  for (const view of [
    "Pavement",
    "Materials",
    "Climate",
    "Traffic",
    "Under the wheel",
    "Where it pays",
    "How thick",
    "Costs",
    "As text",
  ]) {
    await toView(page, view);
    await page.locator("main h2").first().waitFor();
    expect(await page.getByText("This view has failed").count()).toBe(0);
  }
  await toView(page, "Report");
  await page.getByRole("button", {name: "Download the report"}).and(page.locator(":enabled")).waitFor();
  const {name, bytes} = await downloaded(page, () => button(page, "Download the report").click());
  expect(name).toMatch(/\.html$/);
  expect(bytes.toString("utf8")).toContain(`${Number.parseFloat(after[0])}`);
  const kept = await downloaded(page, () => button(page, "Save").click());
  expect(kept.name).toBe("county-road.zip");
  expect(strFromU8(unzipSync(kept.bytes)["county-road.yaml"])).toContain("thickness_mm: 230");

  await page.context().setOffline(false);
});

/** Another visit, with nothing kept of earlier ones, while the server cannot give out some files. */
async function visitWithout(script: RegExp): Promise<Page> {
  const other = await (await browser().newContext()).newPage();
  other.setDefaultTimeout(60_000);
  refused = script;
  await other.goto(page.url());
  return other;
}

test("threads of a study cannot be fetched: told in words, and tried again", async () => {
  const other = await visitWithout(/\/life\.worker/);
  await openFiles(other, [{name: "quick.yaml", content: QUICK}]);
  await other.getByRole("heading", {level: 1, name: "Quick road"}).waitFor();
  await other.getByText("Cannot be computed").waitFor();
  refused = null;
  await button(other, "Try again").click();
  await solved(other);
  expect(await lives(other)).toHaveLength(1);
  await other.context().close();
});

test("the computing thread cannot be fetched: told in words", async () => {
  const other = await visitWithout(/\/study\.worker/);
  await other.getByText("The computing thread has failed to start. Reload the page: the study is kept.").waitFor();
  refused = null;
  await other.reload();
  await other.getByText(/^Computing, /).waitFor();
  await other.context().close();
});

test("nothing was asked of the server but what is in the folder, and once whether there is a workspace", () => {
  expect([...missing]).toEqual(["/api/workspace"]);
});

/**
 * Files that nobody means well with: each is answered in words, the page lives on, and the study that was there is untouched.
 *
 * Expected: the former study's text to the letter; names as text wherever they are shown; no script run; cells that begin like
 * a formula written so that no spreadsheet program takes them for one (an apostrophe before =, +, −, @: common practice).
 */
import {randomFillSync} from "node:crypto";
import {parse} from "csv-parse/sync";
import {strToU8, unzipSync, zipSync} from "fflate";
import type {Page} from "playwright-core";
import {beforeAll, expect, test} from "vitest";
import {solved, stage, toView} from "./harness.ts";
import {button, downloaded, drop, type Given, lives, openFiles, openSolved, textOf, undoButton} from "./steps.ts";
import {QUICK, TWO} from "./studies.ts";

const {open} = stage({expected: /404/}); // what the server says of a way out of its folder
let page: Page;
let before: string[];

beforeAll(async () => {
  page = await open();
  page.on("dialog", dialog => {
    void dialog.dismiss();
    throw new Error(`a dialog was opened: ${dialog.message()}`);
  });
  await openSolved(page, QUICK);
  before = await lives(page);
}, 300_000);

/** A ZIP of one file with another length than it has: bytes 22 of the local and 24 of the central header say it. */
function zipClaiming(bytes: number, content: Uint8Array): Buffer {
  const zip = Buffer.from(zipSync({"study.yaml": content}));
  const central = zip.indexOf(Buffer.from("PK\x01\x02", "latin1"));
  zip.writeUInt32LE(bytes, 22);
  zip.writeUInt32LE(bytes, central + 24);
  return zip;
}

const bomb = (): Buffer => zipClaiming(4_000_000_000, strToU8(QUICK)); // as much as the field can say, nearly

const LAUGHS = `a: &a [${"x,".repeat(10)}]\n${Array.from({length: 12}, (_, k) => {
  const [above, own] = [String.fromCharCode(97 + k), String.fromCharCode(98 + k)];
  return `${own}: &${own} [${`*${above},`.repeat(10)}]\n`;
}).join("")}`;

// 137 80 78 71 begins every PNG; the rest does not matter.
const PNG = Buffer.concat([Buffer.from([137, 80, 78, 71, 13, 10, 26, 10]), randomFillSync(Buffer.alloc(500))]);

const REFUSED: readonly (readonly [what: string, file: Given, words: RegExp])[] = [
  ["nothing at all", {name: "empty.yaml", content: ""}, /empty\.yaml: neither a study/],
  ["a megabyte of chance", {name: "noise.yaml", content: randomFillSync(Buffer.alloc(1_000_000))}, /not text in UTF-8/],
  ["UTF-16", {name: "wide.yaml", content: Buffer.from(`\uFEFF${QUICK}`, "utf16le")}, /wide\.yaml is not text in UTF-8/],
  ["a picture by another name", {name: "picture.yaml", content: PNG}, /picture\.yaml is not text in UTF-8/],
  ["aliases of aliases", {name: "laughs.yaml", content: LAUGHS}, /laughs\.yaml: neither a study/],
  ["a ZIP that claims gigabytes", {name: "bomb.zip", content: bomb()}, /bomb\.zip cannot be unpacked: it holds more/],
  [
    "a ZIP of far more than it claims",
    {name: "lies.zip", content: zipClaiming(9, new Uint8Array(80e6))},
    /neither a study/,
  ],
  ["a ZIP cut short", {name: "torn.zip", content: bomb().subarray(0, 60)}, /torn\.zip cannot be unpacked/],
  ["an old workbook", {name: "table.xls", content: PNG}, /is a workbook/],
  ["YAML that is no map", {name: "list.yaml", content: "- 1\n- 2\n"}, /list\.yaml: neither a study/],
];

test.each(REFUSED)("%s is refused in words", async (_, file, words) => {
  await openFiles(page, [file]);
  await page.locator(".notices").getByText(words).waitFor();
  await button(page, "Dismiss").click();
  expect(await lives(page)).toEqual(before);
  expect(await textOf(page)).toBe(QUICK);
});

test("aliases of aliases within a study: opened with a fault in words, and undone", async () => {
  await openFiles(page, [{name: "laughs.yaml", content: `${QUICK}${LAUGHS}`}]);
  await page.getByText("1 fault in the study").waitFor();
  await toView(page, "As text");
  await page.getByText(/an alias cannot be resolved/).waitFor();
  await undoButton(page).click();
  await solved(page);
  expect(await textOf(page)).toBe(QUICK);
  expect(await lives(page)).toEqual(before);
});

test("a ZIP with ways out of its folder: names only, and none of them on the way back", async () => {
  const text = QUICK.replace(/ {4}crack_growth: .*\n {4}fatigue_line: .*\n/, "    law_file: ../../outside.yaml\n");
  const zip = Buffer.from(zipSync({"../../outside.yaml": strToU8("law_format: 1\n"), "deep/road.yaml": strToU8(text)}));
  await openFiles(page, [{name: "ways.zip", content: zip}]);
  await page.getByText(/faults? in the study/).waitFor(); // the law has nothing in it
  await toView(page, "As text");
  await page.getByText(/this is no law file that can be used/).waitFor();
  const {name, bytes} = await downloaded(page, () => button(page, "Download with its files").click());
  expect(name).toBe("road.zip");
  const names = Object.keys(unzipSync(bytes));
  expect(names.sort()).toEqual(["outside.yaml", "road.yaml"]);
  // The folder of the server refuses what leads out of it.
  await button(page, "Save").click();
  await page
    .locator(".notices")
    .getByText(/cannot be saved/)
    .waitFor();
  await undoButton(page).click();
  await solved(page);
  expect(await textOf(page)).toBe(QUICK);
});

test("a law with wrong content is told beside its material", async () => {
  const text = QUICK.replace(/ {4}crack_growth: .*\n {4}fatigue_line: .*\n/, "    law_file: law.yaml\n");
  await openFiles(page, [
    {name: "road.yaml", content: text},
    {name: "law.yaml", content: "law_format: 1\nmaterial: asphalt\ncrack_growth: {A_mm_per_cycle: lots, n: -4}\n"},
  ]);
  await page.getByText(/faults? in the study/).waitFor();
  await toView(page, "Materials");
  await page
    .getByText(/this is no law file that can be used/)
    .first()
    .waitFor();
  await undoButton(page).click();
  await solved(page);
  expect(await textOf(page)).toBe(QUICK);
});

test("names full of markup are text in views, charts and report, and nothing in them runs", async () => {
  const trap = `<img src=x onerror="__hit=1"><script>__hit=1</script>"'&`; // names have at most 80 characters
  const quoted = (name: string) => JSON.stringify(`${name} ${trap}`);
  const text = TWO.replace("name: Quick road", `name: ${quoted("road")}`)
    .replace("  asphalt:\n", `  ${quoted("mix")}:\n`)
    .replaceAll("material: asphalt,", `material: ${quoted("mix")},`)
    .replace("name: Plain overlay", `name: ${quoted("plain")}`)
    .replace("name: Thicker overlay", `name: ${quoted("thicker")}`)
    .replace("{name: overlay,", `{name: ${quoted("course")},`)
    .replaceAll("source: invented", `source: ${quoted("source")}`);
  await openFiles(page, [{name: `${trap.replaceAll("/", "")}.yaml`, content: text}]);
  await page.getByRole("heading", {level: 1, name: `road ${trap}`, exact: true}).waitFor();
  await solved(page);
  const hit = (at: Page) => at.evaluate(() => (window as unknown as {__hit?: number}).__hit);
  for (const view of [
    "Pavement",
    "Materials",
    "Climate",
    "Traffic",
    "Under the wheel",
    "How sure",
    "Where it pays",
    "How thick",
  ]) {
    await toView(page, view);
    await page.locator("main h2").first().waitFor();
    expect(await page.getByText("This view has failed").count()).toBe(0);
    expect(await page.locator("main img, main script").count()).toBe(0);
    expect(await hit(page)).toBeUndefined();
  }
  await toView(page, "Pavement");
  await page.getByRole("heading", {name: `plain ${trap}`, exact: true}).waitFor();
  const chart = page.locator("article.treatment .plot-picture svg").first();
  await chart.waitFor();
  expect((await chart.innerHTML()).match(/<img|<script/)).toBeNull();

  await toView(page, "Report");
  await page.getByRole("button", {name: "Download the report"}).and(page.locator(":enabled")).waitFor();
  const {name, bytes} = await downloaded(page, () => button(page, "Download the report").click());
  expect(name).toMatch(/^[\w-]+\.html$/);
  const report = await page.context().newPage();
  await report.setContent(bytes.toString("utf8"));
  await report.getByText(`plain ${trap}`).first().waitFor();
  expect(await report.locator("img, script").count()).toBe(0);
  expect(await hit(report)).toBeUndefined();
  await report.close();
  expect(await hit(page)).toBeUndefined();
  await undoButton(page).click();
  await solved(page);
});

/** Cells of a table that a spreadsheet program would take for a formula. */
function formulas(csv: Buffer): string[] {
  const rows: string[][] = parse(csv, {bom: true, relax_column_count: true});
  return rows.flat().filter(cell => /^[=+@\t\r-]/.test(cell) && !Number.isFinite(Number(cell)));
}

const TRICKS = [`=HYPERLINK("http://localhost","x")`, "+1+1", "@SUM(A1)", "-2+3"];

test("names like formulas are no formulas in the tables that are handed out", async () => {
  const text = TWO.replace("name: Plain overlay", `name: ${JSON.stringify(TRICKS[0])}`).replace(
    "name: Thicker overlay",
    `name: "${TRICKS[2]}"`,
  );
  await openFiles(page, [{name: "tricks.yaml", content: text}]);
  await page.getByText(TRICKS[0]).first().waitFor();
  await solved(page);
  await toView(page, "Report");
  const {bytes} = await downloaded(page, () => button(page, "Lives as CSV").click());
  expect(bytes.toString("utf8")).toContain("HYPERLINK");
  expect(formulas(bytes)).toEqual([]);
  await undoButton(page).click();
  await solved(page);

  await toView(page, "Laboratory");
  const table = `specimen,material,temperature [°C],frequency [Hz],strain [µm/m],cycles to failure,run-out\n${TRICKS.map(
    (trick, k) => `"${trick.replaceAll('"', '""')}",mix,10,25,${100 + 20 * k},${900_000 - 150_000 * k},no\n`,
  ).join("")}`;
  await drop(page, page.locator(".laboratory-drop"), [{name: "tricks.csv", content: table}]);
  await button(page, "Use these columns").click();
  const rows = page.getByRole("grid", {name: "Specimens"});
  for (const trick of TRICKS) await rows.getByRole("rowheader", {name: trick, exact: true}).waitFor();
  await button(page, /^tricks\.csv/).click(); // unfolds it
  const saved = await downloaded(page, () => button(page, "Save as CSV with reasons").click());
  expect(saved.bytes.toString("utf8")).toContain("HYPERLINK");
  expect(formulas(saved.bytes)).toEqual([]);
});

test("a file that falls beside its place is not opened in the page's stead", async () => {
  // A browser opens a file unless the page takes the event; whether it was taken is seen after the page's own listeners.
  await page.evaluate(() => {
    const seen: string[] = [];
    window.addEventListener("dragover", event =>
      seen.push(`${event.defaultPrevented ? "taken" : "left"} ${event.dataTransfer?.dropEffect}`),
    );
    Object.assign(window, {seenDrags: seen});
  });
  await drop(page, page.getByRole("heading", {level: 2}).first(), [
    {name: "other.html", content: "<h1>Another page</h1>"},
  ]);
  const seen = () => page.evaluate(() => (window as unknown as {seenDrags: string[]}).seenDrags);
  await expect.poll(seen).not.toEqual([]);
  for (const drag of await seen()) expect(drag).toBe("taken none");
  expect(await lives(page)).toEqual(before);
});

/**
 * Growth laws fitted to beams on the page are those of the command line, to the last printed digit: the expected values are
 * those of the other program, which computes in Node's threads, whose own exponentials and logarithms are not the browser's.
 */
import {mkdtempSync, readdirSync, readFileSync, rmSync} from "node:fs";
import {tmpdir} from "node:os";
import path from "node:path";
import {parseHTML} from "linkedom";
import type {Page} from "playwright-core";
import {afterAll, beforeAll, expect, test} from "vitest";
import {root, stage} from "./harness.ts";
import {button, chooseLaboratory, commandLine, differences, downloaded} from "./steps.ts";

const {open} = stage();
const folder = mkdtempSync(path.join(tmpdir(), "seamwright-beams-"));
afterAll(() => rmSync(folder, {recursive: true}));

let page: Page;
let report: string; // of the command line

beforeAll(async () => {
  const [file, laws] = [path.join(folder, "beams.html"), path.join(folder, "laws")];
  await commandLine(["beams", path.join(root, "examples/laboratory"), "--report", file, "--laws", laws]);
  report = readFileSync(file, "utf8");

  page = await open();
  await chooseLaboratory(page);
  await button(page, /^Use all \d+ files$/).click();
  await page.getByRole("region", {name: "Bending fatigue tests"}).locator(".plot-picture svg").first().waitFor();
  await button(page, "Fit growth laws to 8 beams").and(page.locator(":enabled")).click();
  await page.getByRole("heading", {name: "Each beam predicted without it"}).waitFor({timeout: 240_000});
}, 300_000);

/** Rows of a table, without the gaps between cells: the report has value and interval in one. */
function rowsOf(tables: Iterable<Element>, caption: string): string[] {
  const table = [...tables].find(t => t.querySelector("caption")?.textContent?.startsWith(caption));
  const rows = [...(table?.querySelectorAll("tbody tr") ?? [])];
  return rows.map(row => (row.textContent ?? "").replaceAll(/\s+/g, ""));
}

test("laws and predicted passes", async () => {
  const html = await page.getByRole("region", {name: "Wheel-tracked beams"}).innerHTML();
  const [shown, told] = [html, report].map(text => [...parseHTML(text).document.querySelectorAll("table")]);
  for (const [caption, rows] of [
    ["Passes to breaking", 8],
    ["dc/dN", 3],
  ] as const) {
    const expected = rowsOf(told, caption);
    expect(expected).toHaveLength(rows);
    expect(rowsOf(shown, caption)).toEqual(expected);
  }
});

test("law files, to the last of their seven figures", async () => {
  const withoutDay = (text: string): string => text.replace(/^ {2}date: .*\n/m, "");
  const names = readdirSync(path.join(folder, "laws"));
  expect(names).toHaveLength(3);
  for (const name of names) {
    const {bytes} = await downloaded(page, () => button(page, `Save ${name}`).click());
    const told = readFileSync(path.join(folder, "laws", name), "utf8");
    expect(told).toMatch(/ln_A_n: -\d\.\d{5,}/);
    expect(withoutDay(bytes.toString("utf8"))).toBe(withoutDay(told));
  }
});

test("the laboratory's report", async () => {
  const {bytes} = await downloaded(page, () => button(page, "Save the report").click());
  expect(differences(bytes.toString("utf8"), report)).toEqual([]);
});

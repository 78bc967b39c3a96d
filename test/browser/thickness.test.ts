/**
 * How thick: the page's search is the command line's. Expected values are those that the other program prints for the same
 * question; in inches, the same lengths by 25.4 mm.
 */
import {mkdtempSync, readFileSync, rmSync, writeFileSync} from "node:fs";
import {tmpdir} from "node:os";
import path from "node:path";
import type {Page} from "playwright-core";
import {afterAll, beforeAll, expect, test} from "vitest";
import {openStudy, solved, stage, toView} from "./harness.ts";
import {smallFiles} from "./smallStudy.ts";
import {button, commandLine, differences, downloaded, write} from "./steps.ts";

const {open} = stage();
const folder = mkdtempSync(path.join(tmpdir(), "seamwright-thickness-"));
afterAll(() => rmSync(folder, {recursive: true}));

const TARGET = 10; // [years]
let page: Page;
let told: {readonly table: string; readonly report: string};

beforeAll(async () => {
  for (const {name, text} of smallFiles()) writeFileSync(path.join(folder, name), text);
  const report = path.join(folder, "search.html");
  const range = ["--from", "50", "--to", "80", "--step", "10"];
  const study = path.join(folder, "small.yaml");
  const table = await commandLine(["search", study, "--target", String(TARGET), ...range, "--report", report]);
  told = {table, report: readFileSync(report, "utf8")};
  page = await open();
  await openStudy(page, smallFiles());
  await page.getByRole("heading", {level: 1, name: "Small road"}).waitFor();
  await solved(page);
  await toView(page, "How thick");
}, 300_000);

const spaces = (text: string): string => text.replaceAll(/\s+/g, " ").trim();
const answer = () => page.getByRole("region", {name: "Answer"});

test("a range that goes down, and steps of nothing, are told beside their fields; nothing can be begun", async () => {
  const begin = button(page, "Find the thickness");
  await write(page.getByLabel("Thinnest"), "90");
  await write(page.getByLabel("Thickest"), "50");
  await page.getByText("It is thicker than the thickest.").waitFor();
  expect(await begin.isDisabled()).toBe(true);
  await write(page.getByLabel("Thickest"), "0");
  await write(page.getByLabel("In steps of"), "0");
  await expect.poll(() => page.getByText("It must be above 0.").count()).toBe(2);
  await page.getByLabel("In steps of").fill("5,000");
  await page.getByText("No number, or two").waitFor();
  expect(await begin.isDisabled()).toBe(true);
});

test("a search is stopped, and goes on", async () => {
  await write(page.getByLabel("Thinnest"), "50");
  await write(page.getByLabel("Thickest"), "80");
  await write(page.getByLabel("In steps of"), "10");
  await write(page.getByLabel("Life to be reached"), String(TARGET));
  await button(page, "Find the thickness").click();
  await button(page, "Stop").click();
  await page.getByText("Stopped. What is finished is kept").waitFor();
  await button(page, "Find the thickness").click();
  await answer().waitFor({timeout: 240_000});
}, 300_000);

test("headline and table are those of the command line", async () => {
  const printed = spaces(told.table);
  const lines = await answer().locator("> p").allInnerTexts();
  expect(lines.length).toBeGreaterThan(2);
  for (const line of lines.slice(0, -1)) expect(printed).toContain(spaces(line)); // the last one is a caution, as in the report
  const rows = await answer()
    .locator("tbody tr")
    .evaluateAll(all => all.map(row => [...row.children].map(cell => cell.textContent)));
  expect(rows).toHaveLength(2);
  for (const [name, least, life, below, remark] of rows) {
    expect(printed).toContain(spaces(`${name} ${least} ${life} ${below}`));
    expect(printed).toContain(spaces(`${name}: ${remark}`));
  }
});

test("the report is the command line's", async () => {
  const {bytes} = await downloaded(page, () => button(page, "Download the report").click());
  expect(differences(bytes.toString("utf8"), told.report)).toEqual([]);
});

test("in inches for who reads US units", async () => {
  const metric = (await answer().locator("tbody tr td").first().textContent())!;
  await button(page, /Units$/).click();
  await page.getByRole("option", {name: "US units", exact: true}).click();
  const inches = Number(/[\d.]+/.exec(metric)![0]) / 25.4;
  await expect
    .poll(async () => Number.parseFloat((await answer().locator("tbody tr td").first().textContent())!))
    .toBeCloseTo(inches, 1);
  expect(Number(await page.getByLabel("Thickest").inputValue())).toBeCloseTo(80 / 25.4, 3);
});

/**
 * The whole job: from a laboratory's tables to laws, into the study, to lives and the report.
 *
 * Expected: what is read on one view is what stands in the next, in the exported table and in the report. The hash is computed
 * here again from the study and its files.
 */
import {createHash} from "node:crypto";
import {readFileSync} from "node:fs";
import path from "node:path";
import {parse} from "csv-parse/sync";
import type {Page} from "playwright-core";
import {beforeAll, expect, test} from "vitest";
import {hashedText} from "../../src/schema/index.ts";
import {root, stage, toView} from "./harness.ts";
import {button, chooseLaboratory, downloaded, lives, openSolved, otherLives, textOf} from "./steps.ts";
import {QUICK} from "./studies.ts";

const {open} = stage();
const REASON = "clamp slipped; seen on the film";

// The study has one of the laboratory's materials by its name, with a fatigue line so weak that fatigue ends its life.
const STUDY = QUICK.replace("  asphalt:\n", "  dense asphalt:\n")
  .replace("material: asphalt", "material: dense asphalt")
  .replace("strain_at_million_microstrain: 100", "strain_at_million_microstrain: 15");
let page: Page;

beforeAll(async () => {
  page = await open();
  await openSolved(page, STUDY);
}, 300_000);

test("a laboratory's folder is chosen and its columns are found right", async () => {
  await chooseLaboratory(page);
  await button(page, /^Use all \d+ files$/).waitFor();
  // What a column was understood as is shown before it is used.
  const card = page.getByRole("group", {name: /^fatigue\/dense-asphalt\.csv/});
  await card.getByRole("row", {name: /cycles to failure/}).waitFor();
  expect(await page.getByRole("heading", {name: "Bending fatigue tests"}).count()).toBe(0);
  await button(page, /^Use all \d+ files$/).click();
  const section = page.getByRole("region", {name: "Bending fatigue tests"});
  await section.locator(".plot-picture svg").first().waitFor();
  for (const material of ["dense asphalt", "soft interlayer", "stiff binder course"])
    await section.getByRole("rowheader", {name: material, exact: true}).first().waitFor();
  await page.getByRole("region", {name: "Wheel-tracked beams"}).getByText("D20 plain").first().waitFor();
});

test("a specimen is set aside with a reason, which goes into the table that is handed out", async () => {
  const section = page.getByRole("region", {name: "Bending fatigue tests"});
  const line = section.getByRole("row", {name: /^dense asphalt/}).first();
  const before = await line.textContent();
  await button(page, "Set aside… D1").click();
  const dialog = page.getByRole("dialog");
  expect(await dialog.getByRole("button", {name: "Set aside"}).isDisabled()).toBe(true); // not without a reason
  await dialog.getByLabel("Reason").fill(REASON);
  await dialog.getByRole("button", {name: "Set aside"}).click();
  await section.getByText(`set aside: ${REASON}`).waitFor();
  await expect.poll(() => line.textContent()).not.toBe(before); // the line is another without it

  await button(page, /^fatigue\/dense-asphalt\.csv/).click(); // unfolds it
  const card = page.getByRole("group", {name: /^fatigue\/dense-asphalt\.csv/});
  const {bytes} = await downloaded(page, () => card.getByRole("button", {name: "Save as CSV with reasons"}).click());
  const rows: string[][] = parse(bytes, {bom: true, relax_column_count: true, comment: "#"});
  expect(rows.find(([specimen]) => specimen === "D1")).toContain(REASON);
  expect(rows.filter(row => row.includes(REASON))).toHaveLength(1);
});

test("laws are put into the study, and lives follow", async () => {
  const governing = page.locator(".answers .why");
  expect(await governing.textContent()).toContain("fatigue");
  const before = await lives(page);
  const laws = page.getByRole("region", {name: "Laws found"});
  await laws.getByText("dense asphalt: fatigue line").waitFor();
  await button(page, "Put these laws into the study").click();
  await page.getByText("dense asphalt has its fatigue line from the laboratory").waitFor();
  // By the laboratory's line fatigue is no matter: what is left is the growth of cracks, as the study itself says.
  const after = await otherLives(page, before);
  expect(await governing.textContent()).toBe("reflection by traffic");
  expect(Number.parseFloat(after[0])).toBeGreaterThan(Number.parseFloat(before[0]));
  const text = await textOf(page);
  await page.getByRole("heading", {name: "No faults"}).waitFor();
  expect(text).toBe(
    STUDY.replace(/ {4}fatigue_line: .*\n/, "").replace(
      /( {4}source: invented\n)(?= {2}cracked base)/,
      "$1    law_file: laboratory/laws/dense-asphalt.yaml\n",
    ),
  );
});

test("a growth law from another laboratory's file: other lives; the report tells them", async () => {
  const before = await lives(page);
  await toView(page, "As text");
  const law = "laws/beams.yaml";
  const text = STUDY.replace(/ {4}crack_growth: .*\n {4}fatigue_line: .*\n/, `    law_file: ${law}\n`);
  await page.getByLabel("Study, YAML").fill(text);
  await button(page, "Take the text over").click();
  await page.getByText(/^\d faults? in the study/).waitFor();
  const content = readFileSync(path.join(root, "examples/laboratory/laws/dense-asphalt.yaml"), "utf8");
  const zone = page.locator("main input[type=file]");
  await zone.setInputFiles({name: "beams.yaml", mimeType: "text/yaml", buffer: Buffer.from(content)});
  const after = await otherLives(page, before);

  await toView(page, "Report");
  await page.getByRole("button", {name: "Download the report"}).and(page.locator(":enabled")).waitFor();
  const {name, bytes} = await downloaded(page, () => button(page, "Download the report").click());
  const report = bytes.toString("utf8");
  expect(name).toBe("quick-road.html");
  expect(report).toMatch(/^<!doctype html>/i);
  expect(report).toContain("Quick road");
  expect(report).toContain(after[0].replace(/ years.*$/, ""));
  const hash = createHash("sha256")
    .update(hashedText(text, {[law]: content}))
    .digest("hex");
  expect(report).toContain(hash);
});

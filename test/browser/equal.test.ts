/**
 * What the page says is what the command line says, to the last printed digit: the expected values are those of the other
 * program, which computes in Node's threads and writes its report with another DOM.
 */
import {mkdtempSync, readFileSync, rmSync, writeFileSync} from "node:fs";
import {tmpdir} from "node:os";
import path from "node:path";
import {parseHTML} from "linkedom";
import type {Page} from "playwright-core";
import {afterAll, beforeAll, describe, expect, test} from "vitest";
import {blankWorkbook} from "../../src/web/state/blank.ts";
import {root, solved, stage, toView} from "./harness.ts";
import {button, commandLine, differences, downloaded} from "./steps.ts";

const {open} = stage();

const folder = mkdtempSync(path.join(tmpdir(), "seamwright-equal-"));
afterAll(() => rmSync(folder, {recursive: true}));

interface Told {
  readonly table: string; // as the command line prints it
  readonly report: string;
}

async function toldOf(study: string): Promise<Told> {
  const report = path.join(folder, `${path.basename(study)}.html`);
  const table = await commandLine(["life", study, "--report", report]);
  return {table, report: readFileSync(report, "utf8")};
}

interface Row {
  readonly mechanism: string;
  readonly governs: boolean;
  readonly years: string;
  readonly ratio: string;
}

interface Treatment {
  readonly name: string;
  readonly rows: readonly Row[];
  readonly governs: string; // in words
}

/** The printed table read back: rows of a treatment stand below its name. */
function printed(table: string): Treatment[] {
  const [, , ...blocks] = table.split("\n\n");
  return [table.split("\n\n")[1], ...blocks].flatMap(block => {
    const lines = block.split("\n").filter(line => !line.startsWith("Life by mechanism"));
    const rows = lines.flatMap(line => {
      const found = /^([▸ ]) (\S.*?) {2,}(\S.*?) {2,}(\S.*?) {2,}(\S.*?) {2,}(\S.*)$/.exec(line);
      return found ? [{governs: found[1] === "▸", mechanism: found[2], years: found[3], ratio: found[6].trim()}] : [];
    });
    if (rows.length === 0) return [];
    const words = / {2}Governs: ([\s\S]*?)\.\n(?= {2}Costs|$)/.exec(`${lines.join("\n")}\n`)?.[1] ?? "";
    return [{name: lines[0], rows, governs: words.replaceAll(/\s+/g, " ")}];
  });
}

/** The same off the page. */
async function shown(page: Page): Promise<Treatment[]> {
  return page.evaluate(() => {
    const text = (element: Element | null | undefined): string => (element?.textContent ?? "").trim();
    const answers = [...document.querySelectorAll(".answers .answer")];
    return [...document.querySelectorAll("article.treatment")].map((column, k) => ({
      name: text(column.querySelector("h2")),
      rows: [...column.querySelectorAll("tbody tr")].map(row => ({
        governs: row.hasAttribute("data-governs"),
        mechanism: text(row.querySelector("th")).replace(" (governs)", ""),
        years: text(row.querySelectorAll("td")[0]),
        ratio: text(row.querySelectorAll("td")[1]) || "×1", // the control's own column is left out on the page
      })),
      governs: (answers[k].querySelector(".why")?.getAttribute("title") ?? "").replaceAll(/\s+/g, " "),
    }));
  });
}

/** Rows of the table of costs: treatment, first construction, life, renewals, present worth, annual cost. */
function reportedCosts(report: string): string[][] {
  const {document} = parseHTML(report);
  const table = [...document.querySelectorAll("table")].find(t =>
    t.querySelector("caption")?.textContent?.startsWith("Costs of a square metre"),
  );
  const rows = [...(table?.querySelectorAll("tbody tr") ?? [])].map(row =>
    [...row.children].map(cell => (cell.textContent ?? "").replaceAll(/\s+/g, " ").trim()),
  );
  return rows.map(([name, first, life, renewals, , ...rest]) => [name, first, life, renewals, ...rest]);
}

async function shownCosts(page: Page): Promise<string[][]> {
  await toView(page, "Costs");
  await page.getByRole("heading", {level: 2, name: "Costs"}).waitFor();
  return page
    .locator("table.plain tbody tr")
    .evaluateAll(rows =>
      rows.map(row => [...row.children].map(cell => (cell.textContent ?? "").replaceAll(/\s+/g, " ").trim())),
    );
}

async function downloadedReport(page: Page): Promise<string> {
  await toView(page, "Report");
  const {bytes} = await downloaded(page, () => button(page, "Download the report").click());
  return bytes.toString("utf8");
}

const hashIn = (report: string): string => /input ([0-9a-f]{64})/.exec(report)?.[1] ?? "none";

const STUDIES = [
  {title: "County road", file: path.join(root, "examples/county-road.yaml"), hasCosts: true},
  {title: "Apron", file: path.join(root, "examples/apron.yaml"), hasCosts: true},
  {title: "New study", file: path.join(folder, blankWorkbook().name), hasCosts: false},
];

describe.each(STUDIES)("$title", ({title, file, hasCosts}) => {
  let page: Page;
  let told: Told;
  beforeAll(async () => {
    writeFileSync(path.join(folder, blankWorkbook().name), blankWorkbook().text);
    told = await toldOf(file);
    page = await open();
    await page.getByRole("button", {name: "Open", exact: true}).click();
    await page.getByRole("dialog").getByRole("button", {name: title}).click();
    await page.getByRole("dialog").waitFor({state: "detached"});
    await page.waitForFunction(
      names => names.every(name => document.querySelector(`article[aria-label="${name}"]`)),
      printed(told.table).map(t => t.name),
    );
    await solved(page);
  }, 600_000);
  afterAll(async () => await page?.context().close());

  test("lives, ratios and what governs", async () => {
    const expected = printed(told.table);
    expect(expected.length).toBeGreaterThan(1);
    expect(expected.every(({rows, governs}) => rows.length > 2 && governs !== "")).toBe(true);
    await toView(page, "Pavement");
    expect(await shown(page)).toEqual(expected);
  });

  test.runIf(hasCosts)("costs", async () => {
    const expected = reportedCosts(told.report);
    expect(expected.map(row => row.length)).toEqual(expected.map(() => 6));
    expect(expected.length).toBeGreaterThan(1);
    expect(await shownCosts(page)).toEqual(expected);
  });

  test("the report, with the hash of its inputs", async () => {
    const own = await downloadedReport(page);
    expect(hashIn(own)).toMatch(/^[0-9a-f]{64}$/);
    expect(hashIn(own)).toBe(hashIn(told.report));
    expect(differences(own, told.report)).toEqual([]);
  });
});

/**
 * Charts are saved as SVG, CSV and PNG; those of the views that need no minutes. Expected: SVG is what the browser's own XML parser takes, with something drawn; PNG
 * begins with its signature and is so many pixels as its header says (PNG specification, third edition, 5.2 and 11.2.1, from
 * memory); CSV has rows of equal length below a heading (RFC 4180, section 2).
 */
import {parse} from "csv-parse/sync";
import type {Page} from "playwright-core";
import {beforeAll, expect, test} from "vitest";
import {openStudy, solved, stage, toView} from "./harness.ts";
import {smallFiles} from "./smallStudy.ts";
import {downloaded} from "./steps.ts";

const {open} = stage();
let page: Page;

beforeAll(async () => {
  page = await open();
  await openStudy(page, smallFiles());
  await page.getByRole("heading", {level: 1, name: "Small road"}).waitFor();
  await solved(page);
}, 300_000);

/** Saves what one menu offers. */
async function saved(chart: string, form: string): Promise<Buffer> {
  const {bytes} = await downloaded(page, async () => {
    await page.getByRole("button", {name: chart, exact: true}).first().click();
    await page.getByRole("menuitem", {name: form}).click();
  });
  return bytes;
}

/** Width and height of a picture, and how many lines, areas and texts it has. */
async function drawn(svg: string): Promise<{width: number; height: number; marks: number}> {
  return page.evaluate(text => {
    const parsed = new DOMParser().parseFromString(text, "image/svg+xml");
    const {documentElement} = parsed;
    if (documentElement.localName !== "svg" || parsed.querySelector("parsererror"))
      throw new Error(`no SVG: ${parsed.querySelector("parsererror")?.textContent ?? documentElement.localName}`);
    return {
      width: Number(documentElement.getAttribute("width")),
      height: Number(documentElement.getAttribute("height")),
      marks: documentElement.querySelectorAll("path, line, rect, circle, text").length,
    };
  }, svg);
}

const SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
const FINER = 3; // pixels of a PNG to one of the page

test.each([
  ["Pavement", 4],
  ["Climate", 4],
  ["Traffic", 4],
  ["Costs", 1],
  ["Under the wheel", 2],
])(
  "%s",
  async (view, least) => {
    await toView(page, view);
    const buttons = page.getByRole("button", {name: /^Save the chart/});
    await buttons.first().waitFor();
    await expect.poll(() => buttons.count()).toBeGreaterThanOrEqual(least);
    const charts = await buttons.evaluateAll(all => all.map(b => b.getAttribute("aria-label")!));
    expect(new Set(charts).size).toBe(charts.length); // each can be told from the others
    for (const chart of charts) {
      const button = page.getByRole("button", {name: chart, exact: true});
      await button.scrollIntoViewIfNeeded();
      const picture = page.locator("figure", {has: button}).locator(".plot-picture svg");
      if (await page.locator("figure", {has: button}).count()) await picture.first().waitFor();
      const {width, height, marks} = await drawn((await saved(chart, "Picture, SVG")).toString("utf8"));
      expect(marks, chart).toBeGreaterThan(5);
      if (chart === charts[0]) {
        const png = await saved(chart, "Picture, PNG"); // made of the SVG, in the same way for all
        expect(png.subarray(0, 8), chart).toEqual(SIGNATURE);
        expect([png.readUInt32BE(16), png.readUInt32BE(20)], chart).toEqual([FINER * width, FINER * height]);
      }
      const rows: string[][] = parse(await saved(chart, "Numbers, CSV"), {bom: true}); // throws where rows differ in length
      expect(rows.length, chart).toBeGreaterThan(1);
      expect(
        rows[0].every(title => title !== ""),
        chart,
      ).toBe(true);
    }
  },
  240_000,
);

/**
 * One time for everything: the slider below the sections, the charts of fronts and the record of temperature.
 *
 * Expected: cracks only grow, so a crack drawn later reaches at least as far; a place on a chart stands for the time that its
 * axis says there; and a year has 365 days.
 */
import type {Locator, Page} from "playwright-core";
import {beforeAll, expect, test} from "vitest";
import {openStudy, solved, stage, toView} from "./harness.ts";
import {smallFiles} from "./smallStudy.ts";

const {open} = stage();
let page: Page; // a road with two treatments and a record

beforeAll(async () => {
  page = await open();
  await openStudy(page, smallFiles());
  await page.getByRole("heading", {level: 1, name: "Small road"}).waitFor();
  await solved(page);
}, 300_000);

const slider = () => page.getByRole("slider", {name: "Time"});
const years = async (): Promise<number> => Number(await slider().inputValue());

/** Heights of the cracks drawn in each treatment, one after another [px]. */
const cracks = (): Promise<number[][]> =>
  page
    .locator("article.treatment")
    .evaluateAll(all =>
      all.map(article =>
        [...article.querySelectorAll<SVGPathElement>(".section-drawing > svg > .cracks path")].map(
          p => p.getBBox().height,
        ),
      ),
    );

const sum = (heights: readonly number[]): number => heights.reduce((a, b) => a + b, 0);

test("the slider moves the cracks of every treatment", async () => {
  await slider().focus();
  await page.keyboard.press("Home");
  await expect.poll(years).toBe(0);
  const atFirst = await cracks();
  expect(atFirst).toHaveLength(2);
  for (const heights of atFirst) expect(sum(heights)).toBeLessThan(1);
  const seen = [atFirst];
  for (let k = 0; k < 3; k++) {
    const before = await years();
    for (let n = 0; n < 40; n++) await page.keyboard.press("ArrowRight"); // a tenth of the axis
    await expect.poll(years).toBeGreaterThan(before);
    seen.push(await cracks());
  }
  for (const treatment of [0, 1]) {
    const lengths = seen.map(all => sum(all[treatment]));
    expect(lengths).toEqual([...lengths].sort((a, b) => a - b));
    expect(lengths.at(-1)).toBeGreaterThan(lengths[0] + 2); // px
  }
  // Without interlayer cracks are further at the same time.
  expect(sum(seen.at(-1)![0])).toBeGreaterThan(sum(seen.at(-1)![1]));
});

/** Where a chart's axis has two of its numbers: their values and places on the screen. */
async function axisOf(chart: Locator): Promise<readonly {readonly value: number; readonly x: number}[]> {
  const ticks = await chart.locator("svg text").evaluateAll(all =>
    all
      .filter(t => /^\d+$/.test(t.textContent.trim()))
      .map(t => {
        const {left, right, bottom} = t.getBoundingClientRect();
        return {value: Number(t.textContent), x: (left + right) / 2, y: bottom};
      }),
  );
  const lowest = Math.max(...ticks.map(t => t.y));
  return ticks.filter(t => Math.abs(t.y - lowest) < 2).sort((a, b) => a.x - b.x);
}

test("pointing at a chart of fronts moves the time everywhere", async () => {
  const charts = page.locator("article.treatment .plot-picture");
  const chart = charts.nth(1);
  await chart.scrollIntoViewIfNeeded();
  await chart.locator("svg").first().waitFor();
  const axis = await axisOf(chart);
  const [first, last] = [axis[0], axis.at(-1)!];
  const before = await cracks();
  const wanted = last.value * 0.62;
  const x = first.x + ((wanted - first.value) / (last.value - first.value)) * (last.x - first.x);
  const box = (await chart.boundingBox())!;
  await page.mouse.move(x, box.y + box.height / 2);
  await expect.poll(years).toBeCloseTo(wanted, 0);
  expect(await cracks()).not.toEqual(before);
  // The other chart marks the same time, at the same place of its own axis.
  await page.mouse.move(2, 2);
  const other = charts.nth(0);
  const mark = (await other.locator(".plot-line:not(.pointer)").boundingBox())!;
  const ticks = await axisOf(other);
  const [a, b] = [ticks[0], ticks.at(-1)!];
  const marked = a.value + ((mark.x + mark.width / 2 - a.x) / (b.x - a.x)) * (b.value - a.value);
  expect(marked).toBeCloseTo(await years(), 0);
});

test("the view of temperatures marks the day, and pointing there moves it", async () => {
  const at = await years();
  await toView(page, "Climate");
  const chart = page.locator(".plot", {has: page.getByRole("heading", {name: "The year’s temperatures"})});
  const mark = chart.locator(".plot-line:not(.pointer)");
  await mark.waitFor();
  const picture = (await chart.locator(".plot-picture").boundingBox())!;
  const from = (await mark.boundingBox())!.x;
  await page.mouse.move(picture.x + picture.width * 0.5, picture.y + picture.height / 2);
  await expect.poll(async () => (await mark.boundingBox())!.x).not.toBe(from);
  const line = (await mark.boundingBox())!;
  expect(Math.abs(line.x + line.width / 2 - (picture.x + picture.width * 0.5))).toBeLessThan(2);
  await toView(page, "Pavement");
  const after = await years();
  expect(Math.floor(after)).toBe(Math.floor(at)); // another day of the same year
  expect(after).not.toBe(at);
});

test("any chart is drawn wider, and what was in its middle stays there", async () => {
  await toView(page, "Traffic");
  const frame = page.locator(".plot").first();
  await frame.locator(".plot-picture svg").waitFor();
  // Asked of the frame, which stays, not of the picture, which is another after each drawing.
  const width = (): Promise<number> =>
    frame.evaluate(e => e.querySelector(".plot-picture svg")!.getBoundingClientRect().width);
  const atFirst = await width();
  await frame.getByRole("button", {name: "Zoom in"}).click();
  await expect.poll(width).toBeCloseTo(2 * atFirst, 0);
  await frame.getByRole("button", {name: "Zoom in"}).click();
  await expect.poll(width).toBeCloseTo(4 * atFirst, 0);
  const box = frame.locator(".plot-box");
  const middle = await box.evaluate(e => (e.scrollLeft + e.clientWidth / 2) / e.scrollWidth);
  expect(middle).toBeCloseTo(0.5, 2);
  // It is scrolled by keyboard; the page itself has not become wider.
  await box.focus();
  const before = await box.evaluate(e => e.scrollLeft);
  await page.keyboard.press("ArrowRight");
  await expect.poll(() => box.evaluate(e => e.scrollLeft)).toBeGreaterThan(before);
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
  await frame.getByRole("button", {name: "Zoom out"}).click();
  await frame.getByRole("button", {name: "Zoom out"}).click();
  await expect.poll(width).toBeCloseTo(atFirst, 0);
  expect(await frame.getByRole("button", {name: "Zoom out"}).isDisabled()).toBe(true);
});

test("on paper every chart is drawn, also those that nobody has scrolled to", async () => {
  const other = await open();
  await openStudy(other, smallFiles());
  await other.getByRole("heading", {level: 1, name: "Small road"}).waitFor();
  await solved(other);
  await toView(other, "Traffic");
  await other.locator(".plot-picture svg").first().waitFor();
  const undrawn = (): Promise<number> => other.locator(".plot-picture .drawn:empty").count();
  expect(await undrawn()).toBeGreaterThan(0);
  await other.pdf();
  expect(await undrawn()).toBe(0);
  await other.close();
});

/**
 * Every view, in what states a user finds it, in both colour themes, wide and narrow: axe-core finds nothing that is serious
 * or critical, by its rules for WCAG 2.2 A and AA and its own best practices.
 */
import {readFileSync} from "node:fs";
import path from "node:path";
import type {AxeResults} from "axe-core";
import type {Page} from "playwright-core";
import {beforeAll, expect, test} from "vitest";
import {openStudy, root, solved, stage, toView} from "./harness.ts";
import {smallFiles} from "./smallStudy.ts";

const {open} = stage();

const AXE = readFileSync(path.join(root, "node_modules/axe-core/axe.min.js"), "utf8");

const SIZES = [
  {width: 1280, height: 720},
  {width: 820, height: 1180},
] as const;
const THEMES = ["light", "dark"] as const;
const GRAVE = ["serious", "critical"];

/** What is wrong with the page as it stands, a line each. */
async function violations(page: Page): Promise<string[]> {
  await page.evaluate(AXE); // by the debugger, so that the page's own policy of contents stays in force
  const {violations: found} = await page.evaluate(
    // The report in its frame runs no scripts, and is looked at by itself below.
    () => (window as unknown as {axe: {run(options: object): Promise<AxeResults>}}).axe.run({iframes: false}),
  );
  return found
    .filter(({impact}) => GRAVE.includes(impact ?? ""))
    .flatMap(({id, nodes}) =>
      nodes.map(({target, any, all}) => `${id}: ${target.join(" ")}: ${[...any, ...all][0]?.message ?? ""}`),
    );
}

/** The same over themes and sizes; the page is as it was afterwards. */
async function everyLook(page: Page): Promise<string[]> {
  const found = new Set<string>();
  for (const size of SIZES) {
    await page.setViewportSize(size);
    for (const theme of THEMES) {
      // By its state alone: the button for it would close what is open.
      await page.evaluate(name => {
        document.documentElement.dataset.theme = name;
      }, theme);
      await page.waitForFunction(() => document.getAnimations().every(a => a.playState !== "running"));
      for (const line of await violations(page)) found.add(`${theme}, ${size.width} px: ${line}`);
    }
  }
  await page.setViewportSize(SIZES[0]);
  await page.evaluate(name => {
    document.documentElement.dataset.theme = name;
  }, THEMES[0]);
  return [...found];
}

let page: Page;
beforeAll(async () => {
  page = await open({colorScheme: "light"});
  await openStudy(page, smallFiles());
  await solved(page);
}, 300_000);

test("axe sees what it is for", async () => {
  await page.evaluate(() => {
    const bad = document.createElement("button");
    bad.id = "nameless";
    document.body.append(bad);
  });
  expect(await violations(page)).toContainEqual(expect.stringMatching(/^button-name: #nameless/));
  await page.evaluate(() => document.getElementById("nameless")?.remove());
});

test("pavement, whatever is chosen", async () => {
  await toView(page, "Pavement");
  const inspector = page.getByRole("complementary", {name: "What is chosen"});
  const found = [...(await everyLook(page))];
  const choices = [
    page.getByRole("button", {name: /^overlay 60 mm/}).first(),
    page.getByRole("button", {name: /^interlayer 10 mm/i}),
    page.getByRole("button", {name: "Joint, Plain overlay"}),
    page.getByRole("button", {name: "Edit With interlayer"}),
  ];
  for (const choice of choices) {
    await choice.click();
    await inspector.getByText("Nothing is chosen").waitFor({state: "detached"});
    found.push(...(await everyLook(page)));
  }
  await page.getByRole("button", {name: "Magnify the joint"}).click();
  found.push(...(await everyLook(page)));
  expect(found).toEqual([]);
});

test.each(["Materials", "Climate", "Traffic", "Costs", "Report", "As text"])("%s", async name => {
  await toView(page, name);
  await page.getByRole("heading", {level: 2}).first().waitFor();
  await page.getByText("Loading…").waitFor({state: "detached"});
  expect(await everyLook(page)).toEqual([]);
});

test("under the wheel", async () => {
  await toView(page, "Under the wheel");
  await page.getByText("Axle from the joint").waitFor();
  await page.locator("canvas").first().waitFor({timeout: 120_000});
  expect(await everyLook(page)).toEqual([]);
});

test("how sure, before and after", async () => {
  await toView(page, "How sure");
  await page.getByRole("button", {name: "What is uncertain, and by how much"}).click();
  const found = await everyLook(page);
  await page.getByRole("button", {name: "Draw samples"}).click();
  await page.getByRole("button", {name: "Stop"}).waitFor();
  found.push(...(await everyLook(page)));
  await page.getByRole("button", {name: "Draw samples"}).waitFor({timeout: 240_000});
  await page.getByRole("region", {name: "Answer"}).waitFor();
  found.push(...(await everyLook(page)));
  expect(found).toEqual([]);
});

test("how thick, before and after", async () => {
  await toView(page, "How thick");
  await page.getByRole("button", {name: "Find the thickness"}).waitFor();
  const found = await everyLook(page);
  await page.getByLabel("Thinnest").fill("60");
  await page.getByLabel("Thickest").fill("60");
  await page.getByRole("button", {name: "Find the thickness"}).click();
  await page.getByRole("button", {name: "Stop"}).waitFor();
  found.push(...(await everyLook(page)));
  await page.getByRole("region", {name: "Answer"}).waitFor({timeout: 240_000});
  found.push(...(await everyLook(page)));
  expect(found).toEqual([]);
});

test("where it pays, before and after", async () => {
  await toView(page, "Where it pays");
  await page.getByRole("button", {name: "Draw the map"}).waitFor();
  const found = await everyLook(page);
  await page.getByRole("button", {name: "Draw the map"}).click();
  await page.getByRole("region", {name: "Answer"}).waitFor({timeout: 240_000}); // its first picture is a map as any other
  await page.getByRole("button", {name: "Stop"}).click();
  await page.getByRole("button", {name: "Draw the map"}).waitFor({timeout: 120_000});
  found.push(...(await everyLook(page)));
  expect(found).toEqual([]);
});

test("laboratory, empty and at work", async () => {
  await toView(page, "Laboratory");
  const example = page.getByRole("button", {name: "Use the example laboratory"});
  await example.waitFor();
  const found = await everyLook(page);
  await example.click();
  await page.getByRole("heading", {name: "Wheel-tracked beams", exact: true}).waitFor({timeout: 120_000});
  await page.getByRole("heading", {name: "Bending fatigue tests", exact: true}).waitFor({timeout: 120_000});
  found.push(...(await everyLook(page)));
  expect(found).toEqual([]);
});

test("the dialog, and a study with faults", async () => {
  await toView(page, "Pavement");
  await page.getByRole("button", {name: "Open", exact: true}).click();
  await page.getByRole("dialog").waitFor();
  const found = await everyLook(page);
  await page.keyboard.press("Escape");
  await page.getByRole("dialog").waitFor({state: "detached"});
  await page
    .getByRole("button", {name: /^base 200 mm/})
    .first()
    .click();
  const thickness = page.getByRole("textbox", {name: "Thickness"});
  await thickness.fill("-3");
  await thickness.press("Enter");
  await page.getByText("1 fault in the study").waitFor();
  found.push(...(await everyLook(page)));
  await toView(page, "As text");
  found.push(...(await everyLook(page)));
  expect(found).toEqual([]);
});

test("the report that is handed out", async () => {
  const other = await open({colorScheme: "light"});
  await openStudy(other, smallFiles());
  await solved(other);
  await toView(other, "Report");
  const [saved] = await Promise.all([
    other.waitForEvent("download"),
    other.getByRole("button", {name: "Download the report"}).click(),
  ]);
  const text = readFileSync((await saved.path())!, "utf8");
  const alone = await other.context().newPage();
  await alone.setContent(text);
  expect(await violations(alone)).toEqual([]);
  await other.context().close();
});

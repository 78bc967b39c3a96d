/**
 * Nothing is lost: computations are cancelled and begun anew; tabs keep their own workbooks; files in the workspace folder
 * are written whole or not at all.
 *
 * Expected: the text as it was edited, to the letter.
 */
import {mkdirSync, readFileSync, writeFileSync} from "node:fs";
import path from "node:path";
import type {Page} from "playwright-core";
import {expect, test} from "vitest";
import {root, solved, stage, toView} from "./harness.ts";
import {button, chooseLayer, lives, openFiles, openSolved, textOf, undoButton, write} from "./steps.ts";
import {OTHER, QUICK} from "./studies.ts";

const {open, another, workspace, address, browser} = stage({expected: /412/}); // what the browser tells of a file that others have changed

const withThickness = (text: string, millimetres: number): string =>
  text.replace("material: asphalt, thickness_mm: 80", `material: asphalt, thickness_mm: ${millimetres}`);

async function setThickness(page: Page, millimetres: number): Promise<void> {
  await chooseLayer(page, "overlay");
  await write(page.locator(".inspector").getByLabel("Thickness", {exact: true}), String(millimetres));
}

/** Waits until the browser keeps a text: it is written after a moment of quiet. */
async function kept(page: Page, text: string): Promise<void> {
  const all = () =>
    page.evaluate(
      () =>
        new Promise<string[]>(resolve => {
          const asked = indexedDB.open("seamwright");
          asked.onsuccess = () => {
            const found = asked.result.transaction("workbooks").objectStore("workbooks").getAll();
            found.onsuccess = () => {
              asked.result.close();
              resolve((found.result as {workbook: {text: string}}[]).map(k => k.workbook.text));
            };
          };
        }),
    );
  await expect.poll(all, {timeout: 20_000}).toContain(text);
}

test("a computation is cancelled and begun anew", async () => {
  const page = await open();
  await button(page, "Cancel").click(); // of the example, which takes its seconds
  await button(page, "Compute lives").waitFor();
  await page.getByText(/^(?:Stopped|Not computed)/).waitFor();
  expect(await lives(page)).toEqual([]);
  await openSolved(page, QUICK);
  const before = await lives(page);
  await toView(page, "As text");
  const finer = withThickness(QUICK, 85).replace("accuracy_percent: 5", "accuracy_percent: 0.1"); // takes long
  await page.getByLabel("Study, YAML").fill(finer);
  await button(page, "Take the text over").click();
  await button(page, "Cancel").click();
  await page.getByText("Stopped; these lives are of an earlier study.").waitFor();
  expect(await lives(page)).toEqual(before);
  expect(await page.locator(".answers .stale").count()).toBe(1);
  await button(page, "Compute lives").click();
  await page.getByText(/^Computing, /).waitFor();
  await button(page, "Cancel").click();
  await page.getByText("Stopped; these lives are of an earlier study.").waitFor();
  await undoButton(page).click();
  await solved(page);
  expect(await lives(page)).toEqual(before);
});

test("a study that is opened while the first one is still on its way is not overtaken by it", async () => {
  const page = await (await browser().newContext()).newPage();
  let release = (): void => {};
  const opened = new Promise<void>(resolve => {
    release = resolve;
  });
  await page.route(/county-road.*\.yaml/, async route => {
    await opened;
    await route.continue();
  });
  const late = page.waitForResponse(/county-road.*\.yaml/);
  await page.goto(address());
  await openFiles(page, [{name: "quick-road.yaml", content: QUICK}]);
  await page.getByRole("heading", {level: 1, name: "Quick road"}).waitFor();
  release();
  await (await late).finished();
  await solved(page);
  expect(await textOf(page)).toBe(QUICK);
  await page.context().close();
});

test("what is being typed as text outlives a reload", async () => {
  const page = await open();
  await openSolved(page, QUICK);
  await toView(page, "As text");
  const box = page.getByLabel("Study, YAML");
  const typed = withThickness(QUICK, 83);
  await box.fill(typed); // the box keeps the focus: nothing has taken it over
  await page.reload();
  await solved(page);
  expect(await textOf(page)).toBe(typed);
  expect(await box.inputValue()).toBe(typed);
  await undoButton(page).waitFor();
});

test("reloading, closing and a second tab keep every workbook", async () => {
  const first = await open();
  await openSolved(first, QUICK);
  const second = await another(first);
  // A new tab does not take what another has open: it begins with the example.
  await second.getByRole("heading", {level: 1, name: /County road/}).waitFor();
  await openSolved(second, OTHER, "other-road.yaml");

  await setThickness(first, 81);
  await setThickness(second, 82);
  await kept(first, withThickness(QUICK, 81));
  await kept(second, withThickness(OTHER, 82));
  await Promise.all([first.reload(), second.reload()]);
  await Promise.all([solved(first), solved(second)]);
  expect(await textOf(first)).toBe(withThickness(QUICK, 81));
  expect(await textOf(second)).toBe(withThickness(OTHER, 82));

  await setThickness(first, 83);
  await kept(second, withThickness(QUICK, 83));
  await first.close();
  const third = await another(second);
  await solved(third);
  expect(await textOf(third)).toBe(withThickness(QUICK, 83));
  expect(await textOf(second)).toBe(withThickness(OTHER, 82));
});

test("an edit in the moment before the tab is closed is kept", async () => {
  const page = await open();
  await openSolved(page, QUICK);
  await kept(page, QUICK);
  await chooseLayer(page, "overlay");
  const box = page.locator(".inspector").getByLabel("Thickness", {exact: true});
  await box.fill("83");
  // In one task of the page: nothing that is written in the background has time to be.
  await box.evaluate(element => {
    element.dispatchEvent(new KeyboardEvent("keydown", {key: "Enter", bubbles: true}));
    location.reload();
  });
  await page.getByRole("heading", {level: 1, name: "Quick road"}).waitFor();
  expect(await textOf(page)).toBe(withThickness(QUICK, 83));
});

test("saved to the workspace folder; what others changed there meanwhile is left alone", async () => {
  const page = await open();
  await openSolved(page, QUICK, "saved-road.yaml");
  await button(page, "Save").click();
  await page.getByText("Saved as saved-road.yaml in the workspace folder.").waitFor();
  const file = path.join(workspace(), "saved-road.yaml");
  expect(readFileSync(file, "utf8")).toBe(QUICK);

  await setThickness(page, 90);
  await page.getByText("not saved to a file").waitFor();
  await page.keyboard.press("Control+s");
  await expect.poll(() => readFileSync(file, "utf8")).toBe(withThickness(QUICK, 90));
  await page.getByText("saved", {exact: true}).waitFor();

  const theirs = `${QUICK}# changed by somebody else\n`;
  writeFileSync(file, theirs);
  await setThickness(page, 95);
  await button(page, "Save").click();
  await page.getByText(/saved-road\.yaml was changed in the workspace folder since it was opened here/).waitFor();
  expect(readFileSync(file, "utf8")).toBe(theirs);
  expect(await textOf(page)).toBe(withThickness(QUICK, 95));
  await page.getByText("not saved to a file").waitFor();

  // Another study of that name is not written over it either.
  const other = await open();
  await openSolved(other, OTHER, "saved-road.yaml");
  await button(other, "Save").click();
  await other.getByText(/saved-road\.yaml is in the workspace folder already, with other content/).waitFor();
  expect(readFileSync(file, "utf8")).toBe(theirs);
});

test("opened from the workspace folder with the files that it names, and saved back beside them", async () => {
  const folder = path.join(workspace(), "roads");
  mkdirSync(path.join(folder, "laws"), {recursive: true});
  const law = readFileSync(path.join(root, "examples/laboratory/laws/dense-asphalt.yaml"), "utf8").replace(
    "material: dense asphalt",
    "material: asphalt",
  );
  const text = QUICK.replace(/ {4}crack_growth: .*\n {4}fatigue_line: .*\n/, "    law_file: laws/asphalt.yaml\n");
  writeFileSync(path.join(folder, "laws/asphalt.yaml"), law);
  writeFileSync(path.join(folder, "with-law.yaml"), text);
  const page = await open();
  await button(page, "Open").click();
  await button(page, "roads/with-law.yaml").click();
  await page.getByRole("dialog").waitFor({state: "hidden"});
  await solved(page);
  expect(await textOf(page)).toBe(text);
  await page.getByRole("heading", {name: "No faults"}).waitFor(); // the law has come with it
  await setThickness(page, 84);
  await button(page, "Save").click();
  await page.getByText("Saved as roads/with-law.yaml in the workspace folder.").waitFor();
  expect(readFileSync(path.join(folder, "with-law.yaml"), "utf8")).toBe(withThickness(text, 84));
  expect(readFileSync(path.join(folder, "laws/asphalt.yaml"), "utf8")).toBe(law);
});

test("opening another study can be undone, with its way to the file", async () => {
  const page = await open();
  await openSolved(page, QUICK, "first.yaml");
  await button(page, "Save").click();
  await page.getByText("Saved as first.yaml in the workspace folder.").waitFor();
  await openFiles(page, [{name: "second.yaml", content: OTHER}]);
  await page.getByRole("heading", {level: 1, name: "Other road"}).waitFor();
  await undoButton(page).click();
  await page.getByRole("heading", {level: 1, name: "Quick road"}).waitFor();
  await setThickness(page, 88);
  await button(page, "Save").click();
  const file = path.join(workspace(), "first.yaml");
  await expect.poll(() => readFileSync(file, "utf8")).toBe(withThickness(QUICK, 88));
});

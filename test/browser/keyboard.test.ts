/**
 * The whole of the page by the keyboard: no pointer is moved in these tests.
 *
 * Expected: where focus stands it is seen (WCAG 2.2, 2.4.7) and keys do what buttons do (2.1.1); a dialog gives the focus back
 * to where it came from.
 */
import type {Locator, Page} from "playwright-core";
import {expect, test} from "vitest";
import {solved, stage} from "./harness.ts";
import {button, lives, openSolved, otherLives} from "./steps.ts";
import {QUICK} from "./studies.ts";

const {open} = stage();

/** What is wrong with the focus as it stands, or null: it is somewhere, in sight, and marked. */
async function focusFault(page: Page): Promise<string | null> {
  return page.evaluate(() => {
    const element = document.activeElement;
    if (!(element instanceof HTMLElement) || element === document.body) return "the focus is nowhere";
    const told = `${element.tagName} ${element.className} ${element.ariaLabel ?? element.textContent.slice(0, 30)}`;
    // Of a slider's hidden input and a text box within its frame the mark is around what is seen of it.
    const shown = [
      element,
      element.parentElement,
      element.parentElement?.parentElement,
      element.parentElement?.parentElement?.parentElement,
    ];
    const isMarked = shown.some(at => {
      if (!at) return false;
      const {outlineStyle, outlineWidth, boxShadow} = getComputedStyle(at);
      return (outlineStyle !== "none" && Number.parseFloat(outlineWidth) >= 1) || boxShadow !== "none";
    });
    return isMarked ? null : `no mark of focus on ${told}`;
  });
}

/** Goes on by the Tab key until something has the focus; every stop on the way must be seen. */
async function tabTo(page: Page, wanted: Locator, key: "Tab" | "Shift+Tab" = "Tab"): Promise<void> {
  await wanted.first().waitFor();
  for (let n = 0; n < 150; n++) {
    await page.keyboard.press(key);
    const at = await wanted.first().evaluate(element => element === document.activeElement);
    const nowhere = await page.evaluate(() => document.activeElement === document.body);
    if (!nowhere) expect(await focusFault(page)).toBeNull(); // at the end of the page the focus goes round by the browser
    if (at) return;
  }
  throw new Error(`${wanted} is not reached by ${key}`);
}

test("the first key leads past the head to the view", async () => {
  const page = await open();
  await page.getByRole("heading", {level: 1}).waitFor();
  await page.keyboard.press("Tab");
  const skip = page.locator(".skip");
  expect(await skip.evaluate(element => element === document.activeElement)).toBe(true);
  const box = (await skip.boundingBox())!;
  expect(box.y).toBeGreaterThanOrEqual(0); // in sight now
  await page.keyboard.press("Enter");
  expect(await page.evaluate(() => document.activeElement?.tagName)).toBe("MAIN");
});

test("a layer is reached and changed, and the change undone", async () => {
  const page = await open();
  await openSolved(page, QUICK);
  const before = await lives(page);
  await tabTo(page, page.locator("article.treatment .layer-label").first());
  await page.keyboard.press("Enter");
  const thickness = page.locator(".inspector").getByLabel("Thickness", {exact: true});
  await tabTo(page, thickness);
  await page.keyboard.press("Control+a");
  await page.keyboard.type("90");
  await page.keyboard.press("Enter");
  const after = await otherLives(page, before);
  expect(await thickness.evaluate(element => element === document.activeElement)).toBe(true);
  await page.keyboard.press("Control+a");
  await page.keyboard.type("95");
  await page.keyboard.press("Control+z"); // first what is not yet in the study …
  expect(await thickness.inputValue()).toBe("90");
  expect(await lives(page)).toEqual(after);
  await page.keyboard.press("Control+z"); // … then the study
  await otherLives(page, after);
  expect(await lives(page)).toEqual(before);
  expect(await thickness.inputValue()).toBe("80");
  await page.keyboard.press("Control+Shift+z");
  await otherLives(page, before);
  expect(await lives(page)).toEqual(after);
});

test("views are opened; computations started and cancelled", async () => {
  const page = await open(); // the example, which takes its seconds
  await tabTo(page, button(page, "Cancel"));
  await page.keyboard.press("Enter");
  // The button that begins anew stands where the other stood, and has the focus.
  const compute = button(page, "Compute lives");
  await compute.waitFor();
  expect(await compute.evaluate(element => element === document.activeElement)).toBe(true);
  expect(await focusFault(page)).toBeNull();
  await page.keyboard.press("Enter");
  await button(page, "Cancel").waitFor();
  await page.keyboard.press("Space");
  await compute.waitFor();
  await tabTo(page, page.getByRole("link", {name: "As text"}));
  await page.keyboard.press("Enter");
  await page.getByRole("heading", {name: "As text"}).waitFor();
  expect(page.url()).toMatch(/#text$/);
});

test("a dialog takes the focus, keeps it, and gives it back", async () => {
  const page = await open();
  const opener = button(page, "Open");
  await tabTo(page, opener);
  await page.keyboard.press("Enter");
  const dialog = page.getByRole("dialog");
  await dialog.waitFor();
  const within = () => dialog.evaluate(element => element.contains(document.activeElement));
  for (let n = 0; n < 12; n++) {
    await page.keyboard.press("Tab");
    expect(await within()).toBe(true);
    expect(await focusFault(page)).toBeNull();
  }
  await page.keyboard.press("Escape");
  await dialog.waitFor({state: "hidden"});
  await expect.poll(() => opener.evaluate(element => element === document.activeElement)).toBe(true);

  await page.keyboard.press("Enter");
  await tabTo(page, button(page, "New study"));
  await page.keyboard.press("Enter");
  await dialog.waitFor({state: "hidden"});
  await page.getByRole("heading", {level: 1, name: "New study"}).waitFor();
  await expect.poll(() => opener.evaluate(element => element === document.activeElement)).toBe(true);
  await page.keyboard.press("Tab");
  expect(await focusFault(page)).toBeNull();
  await solved(page);
});

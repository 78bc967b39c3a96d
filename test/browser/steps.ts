/** What a person does on the page, for the tests of journeys. */
import {execFile} from "node:child_process";
import {mkdtempSync, readFileSync, rmSync, writeFileSync} from "node:fs";
import {tmpdir} from "node:os";
import path from "node:path";
import {promisify} from "node:util";
import {parseHTML} from "linkedom";
import type {Locator, Page} from "playwright-core";
import {expect, onTestFinished} from "vitest";
import {root, solved, toView} from "./harness.ts";

export interface Given {
  readonly name: string;
  readonly content: string | Buffer;
}

const payload = ({name, content}: Given) => ({
  name,
  mimeType: "application/octet-stream",
  buffer: Buffer.from(content),
});

/** Chooses files in the dialog “Open”; it closes whatever comes of them. */
export async function openFiles(page: Page, files: readonly Given[]): Promise<void> {
  await page.getByRole("button", {name: "Open", exact: true}).click();
  await page.locator(".sheet input[type=file]").setInputFiles(files.map(payload));
  await page.getByRole("dialog").waitFor({state: "hidden"});
}

/** Opens a study and waits for its lives. */
export async function openSolved(page: Page, text: string, name = "quick-road.yaml"): Promise<void> {
  await openFiles(page, [{name, content: text}]);
  const title = /^name: (.*)$/m.exec(text)![1];
  await page.getByRole("heading", {level: 1, name: title}).waitFor();
  await solved(page);
}

/** Lets files fall onto a place of the page, as they come from a file manager. */
export async function drop(page: Page, onto: Locator, files: readonly Given[]): Promise<void> {
  const folder = mkdtempSync(path.join(tmpdir(), "seamwright-dropped-"));
  const places = files.map(({name, content}) => {
    writeFileSync(path.join(folder, name), content);
    return path.join(folder, name);
  });
  await onto.scrollIntoViewIfNeeded();
  const {x, y, width, height} = (await onto.boundingBox())!;
  const input = await page.context().newCDPSession(page);
  for (const type of ["dragEnter", "dragOver", "drop"] as const)
    await input.send("Input.dispatchDragEvent", {
      type,
      x: x + width / 2,
      y: y + height / 2,
      data: {items: [], files: places, dragOperationsMask: 1}, // 1: copying
    });
  await input.detach();
  onTestFinished(() => rmSync(folder, {recursive: true})); // the page may still be reading
}

/** The study as the view “As text” shows it; the page is there afterwards. */
export async function textOf(page: Page): Promise<string> {
  await toView(page, "As text");
  return page.getByLabel("Study, YAML").inputValue();
}

/** The file that comes of an action, as it arrives on the disk. */
export async function downloaded(page: Page, act: () => Promise<void>): Promise<{name: string; bytes: Buffer}> {
  const [file] = await Promise.all([page.waitForEvent("download"), act()]);
  return {name: file.suggestedFilename(), bytes: readFileSync(await file.path())};
}

/** Chooses the folder of the example laboratory; its files are not in use yet. */
export async function chooseLaboratory(page: Page): Promise<void> {
  await toView(page, "Laboratory");
  const folder = page.locator(".laboratory-drop input[type=file][webkitdirectory]");
  await folder.setInputFiles(path.join(root, "examples/laboratory"));
}

/** What the command line prints, meanwhile other things go on. */
export async function commandLine(words: readonly string[]): Promise<string> {
  const program = [path.join(root, "src/cli/main.ts"), ...words];
  return (await promisify(execFile)(process.execPath, program)).stdout;
}

/** Lives over the views as they are written: “9.2 years”. */
export async function lives(page: Page): Promise<string[]> {
  const texts = await page.locator(".answers .years").allInnerTexts();
  return texts.map(text => text.trim());
}

/** Waits until the study has a life that is none of these, dimmed ones aside. */
export async function otherLives(page: Page, before: readonly string[]): Promise<string[]> {
  await expect.poll(() => lives(page), {timeout: 120_000}).not.toEqual(before);
  await solved(page);
  return lives(page);
}

export const button = (page: Page, name: string | RegExp): Locator =>
  page.getByRole("button", typeof name === "string" ? {name, exact: true} : {name});

export const undoButton = (page: Page): Locator => button(page, /^(?:Undo:|Nothing to undo)/);
export const redoButton = (page: Page): Locator => button(page, /^(?:Do again:|Nothing to do again)/);

/** Chooses a layer on the drawing of the first treatment, in the view “Pavement”. */
export async function chooseLayer(page: Page, name: string): Promise<void> {
  await toView(page, "Pavement");
  const own = page.getByText(name, {exact: true});
  await page.locator("article.treatment").first().locator(".layer-label", {has: own}).click();
  await page.locator(".inspector").getByRole("heading", {name}).waitFor();
}

/** Writes into a box and leaves it by the Enter key. */
export async function write(box: Locator, text: string): Promise<void> {
  await box.fill(text);
  await box.press("Enter");
}

/**
 * Elements and texts of a document in their order, without attributes: places in charts follow the screen's pixels, and
 * differ from the tenth figure on where lives do, because the page's solution is one that can be asked "what if".
 */
function contents(report: string): string[] {
  const found: string[] = [];
  const visit = (node: Node): void => {
    if (node.nodeType === 3) found.push(node.textContent ?? "");
    if (node.nodeType !== 1) return;
    found.push(`<${(node as Element).localName}>`);
    for (const child of node.childNodes) visit(child as Node);
  };
  visit(parseHTML(report).document.documentElement as unknown as Node);
  return found;
}

/** The first places where two documents do not say the same. */
export function differences(own: string, other: string): [string, string][] {
  const [mine, theirs] = [contents(own), contents(other)];
  expect(mine.length).toBeGreaterThan(200); // it is a report
  const longer = mine.length > theirs.length ? mine : theirs;
  return longer
    .flatMap((_, k): [string, string][] => (mine[k] === theirs[k] ? [] : [[mine[k] ?? "", theirs[k] ?? ""]]))
    .slice(0, 5)
    .map(([a, b]) => [a.slice(0, 300), b.slice(0, 300)]);
}

/** The built page in a real browser: Debian's Chromium, its own server on a free port, a new profile for each test. */
import {spawnSync} from "node:child_process";
import {cpSync, mkdtempSync, rmSync} from "node:fs";
import {tmpdir} from "node:os";
import path from "node:path";
import {type Browser, type BrowserContext, type BrowserContextOptions, chromium, type Page} from "playwright-core";
import {afterAll, beforeAll, expect} from "vitest";
import {foundBrowser} from "../../scripts/browser.mjs";
import {createApp} from "../../src/server/app.ts";

export const root = path.resolve(import.meta.dirname, "../..");

const FLAGS = [
  "--no-sandbox", // it is started by root in a container
  "--disable-gpu",
  "--disable-background-networking",
  "--disable-component-update",
];

/** Where the browser is; how to get it where there is none. */
export function browserPath(): string {
  const found = foundBrowser();
  if (!found) throw new Error("The tests of the page need Chromium: node scripts/browser.mjs tells how to get it.");
  return found;
}

/** The page as it is served, built if its sources have changed. */
export function builtPage(): string {
  const built = spawnSync(process.execPath, [path.join(root, "scripts/page.mjs")], {encoding: "utf8"});
  if (built.status !== 0) throw new Error(`the page cannot be built:\n${built.stdout}${built.stderr}`);
  return path.join(root, "dist/web");
}

export interface Stage {
  readonly address: () => string; // of the page, with the slash at its end
  readonly workspace: () => string; // folder
  readonly built: () => string; // folder of the page
  /** A page in a profile of its own, with nothing kept. What goes wrong in it fails the test at its end. */
  open(options?: BrowserContextOptions): Promise<Page>;
  /** Another page of the same profile. */
  another(page: Page): Promise<Page>;
  browser(): Browser;
}

/**
 * Opens server and browser for the tests of a file.
 *
 * @param options.expected  of errors on the browser's console that are no trouble: answers of the server that a test wants
 */
export function stage(options: {readonly expected?: RegExp} = {}): Stage {
  const contexts: BrowserContext[] = [];
  const troubles: string[] = [];
  let browser: Browser;
  let app: ReturnType<typeof createApp>;
  let folder: string;
  let address: string;
  beforeAll(async () => {
    folder = mkdtempSync(path.join(tmpdir(), "seamwright-browser-"));
    const page = path.join(folder, "page"); // a copy: who edits the sources meanwhile may build anew
    cpSync(builtPage(), page, {recursive: true});
    app = createApp({page, workspace: path.join(folder, "workspace")});
    address = `${await app.listen({host: "127.0.0.1", port: 0})}/`;
    browser = await chromium.launch({executablePath: browserPath(), args: FLAGS});
  }, 300_000); // the page may have to be built
  afterAll(async () => {
    await browser?.close();
    await app?.close();
    rmSync(folder, {recursive: true, maxRetries: 5});
    expect(troubles).toEqual([]);
  });
  const watched = (page: Page): Page => {
    page.setDefaultTimeout(60_000); // a loaded machine takes its time
    page.on("pageerror", error => troubles.push(error.message));
    page.on("console", message => {
      if (message.type() === "error" && !options.expected?.test(message.text())) troubles.push(message.text());
    });
    return page;
  };
  return {
    address: () => address,
    workspace: () => path.join(folder, "workspace"),
    built: () => path.join(folder, "page"),
    browser: () => browser,
    open: async (options = {}) => {
      const context = await browser.newContext({viewport: {width: 1280, height: 720}, ...options});
      contexts.push(context);
      const page = watched(await context.newPage());
      await page.goto(address);
      return page;
    },
    another: async page => {
      const other = watched(await page.context().newPage());
      await other.goto(address);
      return other;
    },
  };
}

/** Waits until the lives on the page are of the study as it stands. */
export async function solved(page: Page): Promise<void> {
  await page.getByText("Lives of the study as it stands").waitFor({timeout: 240_000});
}

/** Goes to a view by its name in the list; afterwards nothing of the view before is there any more. */
export async function toView(page: Page, name: string): Promise<void> {
  const named = new RegExp(`^${name}(?: has faults)?$`);
  const link = page.getByRole("navigation", {name: "Views"}).getByRole("link", {name: named});
  await link.click();
  await link.and(page.locator("[aria-current=page]")).waitFor();
  await page.getByText("Loading…", {exact: true}).waitFor({state: "hidden"});
}

/** What stands in the answer of a treatment, "14.8 years", "×1.7" and so on, by line. */
export async function answerOf(page: Page, treatment: string): Promise<string> {
  const card = page.locator(".answers .answer", {has: page.locator(".name", {hasText: treatment})});
  return (await card.first().locator("> div").allTextContents()).join(" ");
}

/** Opens files by the dialog, as if they had been chosen there. */
export async function openStudy(
  page: Page,
  files: readonly {readonly name: string; readonly text: string}[],
): Promise<void> {
  await page.getByRole("button", {name: "Open", exact: true}).click();
  const dialog = page.getByRole("dialog");
  await dialog
    .locator("input[type=file]")
    .setInputFiles(files.map(({name, text}) => ({name, mimeType: "text/plain", buffer: Buffer.from(text)})));
  await dialog.waitFor({state: "detached"});
}

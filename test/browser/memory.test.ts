/**
 * An afternoon of edits on one page: memory of the page and of its computing thread stays bounded, whatever is kept to be
 * undone.
 */
import type {CDPSession, Page} from "playwright-core";
import {expect, test} from "vitest";
import {openStudy, solved, stage, toView} from "./harness.ts";
import {smallFiles} from "./smallStudy.ts";

const {open} = stage();

const FIRST = 50; // edits, after which everything that is loaded once is loaded
const ALL = 200; // edits; as many steps as can be undone

/**
 * From the first to the last count. Of the page: 150 steps more to be undone, each with the text and its values, some 20 kB
 * together, 3 MB, and twice that for what the engine collects late; the record of temperatures is shared by all. Of the
 * thread: what is remembered of the texts read last, no more after 200 edits than after 50.
 */
const GROWTH = {page: 6e6, thread: 3e6} as const; // [bytes]; observed 1.1e6 and 0.2e6
const MORE_NODES = 1.1; // by so much [–]

interface Held {
  readonly page: number; // [bytes] of JavaScript's heap, after collection
  readonly thread: number; // the same of the computing thread
  readonly nodes: number; // of the DOM
}

/** Sends to the computing thread through the debugger of the whole browser. */
async function threadSession(page: Page): Promise<(method: string) => Promise<Record<string, number>>> {
  const session = await page.context().newCDPSession(page);
  const found = Promise.withResolvers<string>();
  session.on("Target.attachedToTarget", ({sessionId, targetInfo}) => {
    if (targetInfo.type === "worker" && targetInfo.url.includes("study.worker")) found.resolve(sessionId);
  });
  await session.send("Target.setAutoAttach", {autoAttach: true, waitForDebuggerOnStart: false, flatten: false});
  const sessionId = await found.promise;
  const answers = new Map<number, (result: Record<string, number>) => void>();
  session.on("Target.receivedMessageFromTarget", ({message, sessionId: from}) => {
    if (from !== sessionId) return;
    const {id, result} = JSON.parse(message) as {id?: number; result?: Record<string, number>};
    if (id !== undefined) answers.get(id)?.(result ?? {});
  });
  let last = 0;
  return async method => {
    const id = ++last;
    const answer = new Promise<Record<string, number>>(resolve => answers.set(id, resolve));
    await session.send("Target.sendMessageToTarget", {sessionId, message: JSON.stringify({id, method})});
    return answer;
  };
}

async function held(session: CDPSession, thread: (method: string) => Promise<Record<string, number>>): Promise<Held> {
  for (let k = 0; k < 3; k++) await session.send("HeapProfiler.collectGarbage"); // what a finaliser frees goes next time
  await thread("HeapProfiler.collectGarbage");
  const {metrics} = await session.send("Performance.getMetrics");
  const of = (name: string): number => metrics.find(m => m.name === name)?.value ?? Number.NaN;
  const {usedSize} = await thread("Runtime.getHeapUsage");
  return {page: of("JSHeapUsedSize"), thread: usedSize, nodes: of("Nodes")};
}

/** Edits of two fields by turns, every fifth undone and done again. */
async function editing(page: Page, from: number, to: number): Promise<void> {
  for (let k = from; k < to; k++) {
    await page
      .getByRole("button", {name: k % 2 === 0 ? /^overlay \d+ mm/ : /^base \d+ mm/})
      .first()
      .click();
    const box = page.getByRole("textbox", {name: "Thickness"});
    await box.fill(String(k % 2 === 0 ? 60 + (k % 7) : 200 + (k % 11) * 5));
    await box.press("Enter");
    if (k % 5 === 4) {
      await page.getByRole("button", {name: /^Undo: /}).click();
      await page.getByRole("button", {name: /^Do again: /}).click();
    }
  }
}

test("200 edits", async () => {
  const page = await open();
  await openStudy(page, smallFiles());
  await solved(page);
  await toView(page, "Pavement");
  const session = await page.context().newCDPSession(page);
  await session.send("Performance.enable");
  await session.send("HeapProfiler.enable");
  const thread = await threadSession(page);
  const counts: Held[] = [];
  for (const [from, to] of [
    [0, FIRST],
    [FIRST, ALL],
  ]) {
    await editing(page, from, to);
    await solved(page);
    counts.push(await held(session, thread));
  }
  const [first, last] = counts;
  const mega = (bytes: number): string => `${(bytes / 1e6).toFixed(1)} MB`;
  for (const [edits, h] of [
    [FIRST, first],
    [ALL, last],
  ] as const)
    console.log(`${edits} edits: page ${mega(h.page)}, thread ${mega(h.thread)}, ${h.nodes} nodes`);
  expect(first.page).toBeGreaterThan(1e6); // the numbers are there
  expect(first.thread).toBeGreaterThan(1e6);
  expect(last.nodes).toBeLessThan(MORE_NODES * first.nodes);
  expect(last.page - first.page).toBeLessThan(GROWTH.page);
  expect(last.thread - first.thread).toBeLessThan(GROWTH.thread);
});

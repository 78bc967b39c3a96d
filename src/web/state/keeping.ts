/**
 * The workbook is kept in the browser while it is edited, so that nothing is lost by closing a tab. Every tab keeps its own:
 * a lock tells which are open.
 */
import {createStore, del, entries, set as put} from "idb-keyval";
import {tell} from "./notices.ts";
import {EMPTY_LABORATORY, type LaboratoryChoices, type Place, useWorkbook, type Workbook} from "./workbook.ts";

interface Kept {
  readonly workbook: Workbook;
  readonly saved: Workbook | null;
  readonly place: Place | null;
  readonly laboratory?: LaboratoryChoices; // left out: empty, or too large to be kept
  readonly at: number; // [ms since 1970]
}

const MOST_KEPT = 12;
const LARGEST_LABORATORY = 40e6; // of files that are kept [bytes]
const AFTER = 250; // of quiet, before it is written [ms]
const TURNS = 5;
const TURN = 60; // [ms]
const TAB = "seamwright tab";
const LAST = "seamwright last edit, "; // and the tab's name

const store = createStore("seamwright", "workbooks");

/** Holds the lock of a tab's workbook as long as the page lives; false: another tab has it. */
function hold(tab: string): Promise<boolean> {
  return new Promise(resolve => {
    void navigator.locks.request(`seamwright ${tab}`, {ifAvailable: true}, lock => {
      resolve(lock !== null);
      return lock === null ? undefined : new Promise<never>(() => undefined);
    });
  });
}

/**
 * What this tab had before a reload, or the last workbook of a tab that is closed.
 *
 * @returns its name, and the workbook if there is one
 */
async function adopt(): Promise<{readonly tab: string; readonly kept: Kept | null}> {
  const all = new Map((await entries<string, Kept>(store)).sort(([, a], [, b]) => b.at - a.at));
  const own = sessionStorage.getItem(TAB);
  for (const tab of [...all.keys()].slice(MOST_KEPT)) {
    if (tab === own || !(await hold(tab))) continue; // an open tab has it
    all.delete(tab);
    await del(tab, store);
    localStorage.removeItem(LAST + tab);
  }
  // After a reload the lock of the page before may take a moment to be given back.
  for (let turn = 0; own !== null && turn < TURNS; turn++) {
    if (await hold(own)) return {tab: own, kept: withLastEdit(own, all.get(own))};
    await new Promise(resolve => setTimeout(resolve, TURN));
  }
  for (const tab of all.keys()) if (await hold(tab)) return {tab, kept: withLastEdit(tab, all.get(tab))};
  const tab = crypto.randomUUID();
  await hold(tab);
  return {tab, kept: null};
}

let isTold = false;

function tellOnce(error: unknown): void {
  if (isTold) return;
  isTold = true;
  tell({kind: "bad", text: `The browser does not keep your work (${(error as Error).message}): save it to a file.`});
}

function isKept(laboratory: LaboratoryChoices): boolean {
  const size = laboratory.files.reduce((sum, {bytes}) => sum + bytes.length, 0);
  return laboratory !== EMPTY_LABORATORY && size <= LARGEST_LABORATORY;
}

/** The text alone, at once: what is written in the background does not outlive a tab that is closed in the same moment. */
interface LastEdit {
  readonly name: string;
  readonly text: string;
  readonly path: string | null; // of its place
  readonly at: number; // [ms since 1970]
}

function keepLastEdit(tab: string, {name, text}: Workbook, place: Place | null): void {
  const path = place?.path ?? null;
  try {
    localStorage.setItem(LAST + tab, JSON.stringify({name, text, path, at: Date.now()} satisfies LastEdit));
  } catch {
    // No room, or not allowed: then the copy in the background has to do.
  }
}

function withLastEdit(tab: string, kept: Kept | undefined): Kept | null {
  if (!kept) return null;
  try {
    const last = JSON.parse(localStorage.getItem(LAST + tab) ?? "null") as LastEdit | null;
    if (last === null || last.at <= kept.at) return kept;
    const workbook = {...kept.workbook, name: last.name, text: last.text};
    // Another study must never be saved in the place of the one that is kept.
    return last.path === (kept.place?.path ?? null)
      ? {...kept, workbook}
      : {...kept, workbook, place: null, saved: null};
  } catch {
    return kept;
  }
}

/** Begins to keep the workbook; gives back what was kept. */
export async function startKeeping(): Promise<Kept | null> {
  const {tab, kept} = await adopt();
  sessionStorage.setItem(TAB, tab);
  let timer: ReturnType<typeof setTimeout> | undefined;
  const write = (): void => {
    clearTimeout(timer);
    timer = undefined;
    const {present: workbook, saved, place, laboratory} = useWorkbook.getState();
    const kept: Kept = {workbook, saved, place, ...(isKept(laboratory) && {laboratory}), at: Date.now()};
    if (workbook.text !== "") put(tab, kept, store).catch(tellOnce);
  };
  useWorkbook.subscribe(({present, saved, place, laboratory}, before) => {
    if (present === before.present && saved === before.saved && laboratory === before.laboratory) return;
    if (present !== before.present) keepLastEdit(tab, present, place);
    clearTimeout(timer);
    timer = setTimeout(write, AFTER);
  });
  document.addEventListener("visibilitychange", () => document.visibilityState === "hidden" && timer && write());
  return kept;
}

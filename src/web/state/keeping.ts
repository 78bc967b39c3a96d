/**
 * The workbook is kept in the browser while it is edited, so that nothing is lost by closing a tab. Every tab keeps its own:
 * a lock tells which are open.
 */
import {createStore, delMany, entries, set as put} from "idb-keyval";
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
const TAB = "seamwright tab";

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
  await delMany([...all.keys()].slice(MOST_KEPT), store);
  const own = sessionStorage.getItem(TAB);
  for (const tab of own === null ? all.keys() : [own, ...all.keys()])
    if (await hold(tab)) return {tab, kept: all.get(tab) ?? null};
  const tab = crypto.randomUUID();
  await hold(tab);
  return {tab, kept: null};
}

function isKept(laboratory: LaboratoryChoices): boolean {
  const size = laboratory.files.reduce((sum, {bytes}) => sum + bytes.length, 0);
  return laboratory !== EMPTY_LABORATORY && size <= LARGEST_LABORATORY;
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
    if (workbook.text !== "") void put(tab, kept, store);
  };
  useWorkbook.subscribe(({present, saved, laboratory}, before) => {
    if (present === before.present && saved === before.saved && laboratory === before.laboratory) return;
    clearTimeout(timer);
    timer = setTimeout(write, AFTER);
  });
  document.addEventListener("visibilitychange", () => document.visibilityState === "hidden" && timer && write());
  return kept;
}

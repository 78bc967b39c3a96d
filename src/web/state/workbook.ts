/**
 * The study on the page: its text and the files that it names, with what went before and what was undone. The text is the
 * only model; everything on the page is read from it, and every edit changes it.
 */
import {create} from "zustand";
import {type DocumentEdit, editedText, parsedText} from "../../schema/editing/index.ts";
import type {LaboratoryFile, SetAsideRow} from "../../schema/laboratory/index.ts";
import {tell} from "./notices.ts";

export interface Workbook {
  readonly name: string; // of the study's file
  readonly text: string;
  readonly files: Readonly<Record<string, string>>; // by name, as the study names them
}

/** What the user has put into the laboratory and said about it; all else there follows from it. */
export interface LaboratoryChoices {
  readonly files: readonly LaboratoryFile[];
  readonly used: readonly string[]; // names of files whose columns a person has found right
  readonly setAside: readonly SetAsideRow[];
  readonly programmeText: string | null;
}

/** Where the workbook lives beside this page; null: nowhere yet. */
export interface Place {
  readonly path: string; // in the workspace folder
  readonly versions: Readonly<Record<string, string>>; // of the files there as last seen, by path
}

/** What is known of a workbook's files outside of the page. */
interface Outside {
  readonly place: Place | null;
  readonly saved: Workbook | null; // as it was last saved or opened
}

interface Step {
  readonly workbook: Workbook;
  readonly laboratory: LaboratoryChoices;
  readonly label: string; // of what was done to it next
  readonly outside: Outside | null; // where another study was opened: that of this one
}

interface WorkbookState extends Outside {
  readonly present: Workbook;
  readonly laboratory: LaboratoryChoices;
  readonly past: readonly Step[];
  readonly future: readonly Step[];
  /** Values of the text; not checked. */
  readonly raw: unknown;
}

/** Steps that can be undone. Steps share their files; texts are some kilobytes each. */
const MOST_STEPS = 200;

const EMPTY: Workbook = {name: "study.yaml", text: "", files: {}};
export const EMPTY_LABORATORY: LaboratoryChoices = {files: [], used: [], setAside: [], programmeText: null};

export const useWorkbook = create<WorkbookState>(() => ({
  present: EMPTY,
  laboratory: EMPTY_LABORATORY,
  past: [],
  future: [],
  place: null,
  saved: null,
  raw: null,
}));

const {getState: state, setState: set} = useWorkbook;

export function present(): Workbook {
  return state().present;
}

/** Opens a workbook; the one that was there comes back by undoing. The laboratory stays as it is. */
export function openWorkbook(workbook: Workbook, place: Place | null = null, saved: Workbook | null = workbook): void {
  const {present: before, laboratory, past, place: placeBefore, saved: savedBefore} = state();
  const step: Step = {
    workbook: before,
    laboratory,
    label: `open ${workbook.name}`,
    outside: {place: placeBefore, saved: savedBefore},
  };
  set({
    present: workbook,
    past: before === EMPTY ? [] : [...past.slice(-(MOST_STEPS - 1)), step],
    future: [],
    place,
    saved,
    raw: parsedText(workbook.text),
  });
}

/** The workbook as it is is safe at a place; null: in a file of the user's. */
export function markSaved(workbook: Workbook, place: Place | null): void {
  set({saved: workbook, place});
}

/** @param outside  where it becomes another; null: it stays */
function step(label: string, next: Workbook, outside: Outside | null = null): void {
  const {present: before, laboratory, past, place, saved} = state();
  if (next.text === before.text && next.files === before.files && next.name === before.name) return;
  set({
    present: next,
    past: [...past.slice(-(MOST_STEPS - 1)), {workbook: before, laboratory, label, outside: outside && {place, saved}}],
    future: [],
    ...outside,
    raw: next.text === before.text ? state().raw : parsedText(next.text),
  });
}

/** What was put into the laboratory or said about it, in one step. */
export function chooseInLaboratory(label: string, choices: Partial<LaboratoryChoices>): void {
  const {present: workbook, laboratory, past} = state();
  set({
    laboratory: {...laboratory, ...choices},
    past: [...past.slice(-(MOST_STEPS - 1)), {workbook, laboratory, label, outside: null}],
    future: [],
  });
}

/** The laboratory as it was kept. */
export function restoreLaboratory(laboratory: LaboratoryChoices): void {
  set({laboratory});
}

/**
 * Values of the document, changed in one step.
 *
 * @param label  what was done, for the buttons that undo it and do it again
 */
export function edit(label: string, edits: readonly DocumentEdit[]): void {
  addFiles(label, null, edits);
}

export function setText(label: string, text: string): void {
  step(label, {...state().present, text});
}

/** The text made another by a rule that may find that it cannot be done, and then says why. Whether it was done. */
export function rewrite(label: string, rule: (text: string) => string): boolean {
  try {
    setText(label, rule(state().present.text));
    return true;
  } catch (error) {
    tell({kind: "bad", text: `Nothing was changed: ${(error as Error).message}.`}); // the text is no YAML at present
    return false;
  }
}

/**
 * Files put beside the study, together with edits of it.
 *
 * @param files  by name; null: none
 */
export function addFiles(
  label: string,
  files: Readonly<Record<string, string>> | null,
  edits: readonly DocumentEdit[] = [],
): void {
  const {present: before} = state();
  try {
    const text = edits.length > 0 ? editedText(before.text, edits) : before.text;
    step(label, {...before, text, ...(files && {files: {...before.files, ...files}})});
  } catch (error) {
    tell({kind: "bad", text: `Nothing was changed: ${(error as Error).message}.`}); // the text is no YAML at present
  }
}

export function undo(): void {
  const {past, future, ...now} = state();
  const last = past.at(-1);
  if (last) set({...backTo(last), past: past.slice(0, -1), future: [{...last, ...left(last, now)}, ...future]});
}

export function redo(): void {
  const {past, future, ...now} = state();
  const [next] = future;
  if (next) set({...backTo(next), past: [...past, {...next, ...left(next, now)}], future: future.slice(1)});
}

function backTo({workbook, laboratory, outside}: Step): Partial<WorkbookState> {
  return {
    laboratory,
    ...(workbook !== state().present && {present: workbook, raw: parsedText(workbook.text)}),
    ...outside,
  };
}

/** What is left behind by going over a step. */
function left(
  {outside}: Step,
  now: Outside & {readonly present: Workbook; readonly laboratory: LaboratoryChoices},
): Omit<Step, "label"> {
  const {present: workbook, laboratory, place, saved} = now;
  return {workbook, laboratory, outside: outside && {place, saved}};
}

export function renameStudyFile(wanted: string): void {
  const {present: before} = state();
  const next = wanted.trim();
  if (next === "" || next === before.name) return;
  const name = /\.(ya?ml|json)$/i.test(next) ? next : `${next}.yaml`;
  step("file name", {...before, name}, {place: null, saved: null});
}

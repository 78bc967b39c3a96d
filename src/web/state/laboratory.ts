/**
 * The laboratory on the page: files as they were dropped, what is left out of them, and what they say. Everything follows from
 * files, choices and programme, and is worked out anew by the laboratory's own thread whenever one of them changes.
 */
import {proxy, type Remote, wrap} from "comlink";
import {useMemo} from "react";
import {create} from "zustand";
import type {Calibration} from "../../engine/laboratory/index.ts";
import type {Fault} from "../../schema/index.ts";
import {
  type LaboratoryFile,
  type LaboratoryLook,
  type ProgrammeDocument,
  readProgramme,
} from "../../schema/laboratory/index.ts";
import type {Progress} from "../worker/channel.ts";
import type {BeamsLook, FatigueAnswer, LaboratoryComputer, LaboratoryTask} from "../worker/laboratoryChannel.ts";
import {chooseInLaboratory, EMPTY_LABORATORY, type LaboratoryChoices, useWorkbook} from "./workbook.ts";

/** What the fit of beams is doing. */
export type Fitting =
  | {readonly status: "idle"}
  | {readonly status: "running"; readonly progress: Progress}
  | {readonly status: "stopped"}
  | {readonly status: "failed"; readonly message: string};

/** Laws of beams, and of which tables. */
export interface FittedBeams {
  readonly calibration: Calibration;
  readonly look: BeamsLook;
  readonly task: LaboratoryTask;
}

interface Laboratory extends LaboratoryChoices {
  readonly looks: readonly LaboratoryLook[]; // of the files, in their order
  readonly fatigue: FatigueAnswer | null; // null: no table of specimens is used
  readonly beams: BeamsLook | null; // null: no table of beams is used
  readonly fitted: FittedBeams | null; // the last fit
  readonly fitting: Fitting;
  readonly isReading: boolean;
  readonly problem: string | null; // what went wrong with the last thing done, for people
}

const EMPTY: Laboratory = {
  ...EMPTY_LABORATORY,
  looks: [],
  fatigue: null,
  beams: null,
  fitted: null,
  fitting: {status: "idle"},
  isReading: false,
  problem: null,
};

export const useLaboratory = create<Laboratory>(() => EMPTY);

const {getState: state, setState: set} = useLaboratory;

/** Choices are part of what can be undone and is kept; everything else here follows them. */
function follow(choices: LaboratoryChoices): void {
  set(choices);
  void work();
}

let thread: Remote<LaboratoryComputer> | undefined;

function computer(): Remote<LaboratoryComputer> {
  thread ??= wrap<LaboratoryComputer>(started());
  return thread;
}

function started(): Worker {
  const worker = new Worker(new URL("../worker/laboratory.worker.ts", import.meta.url), {
    type: "module",
    name: "laboratory",
  });
  worker.addEventListener("error", ({message}) => {
    turn++; // nothing that was asked is answered any more
    const problem = `The laboratory’s thread has failed${message ? `: ${message}` : " to start"}. Reload the page: your files are kept.`;
    set({isReading: false, problem});
  });
  return worker;
}

/** Largest file taken [bytes]: hours of a history row by row. */
const LARGEST_FILE = 200e6;

/**
 * Adds files; one of a name that is there already takes its place. A programme is a text in YAML and no table; law files and
 * others of YAML are passed over.
 *
 * @param isKnown the files come with the page, and nobody needs to look through their columns
 */
export function addLaboratoryFiles(files: readonly LaboratoryFile[], isKnown = false): void {
  const large = files.filter(({bytes}) => bytes.length > LARGEST_FILE);
  const texts = files.filter(({name}) => /\.ya?ml$/i.test(name)).map(({bytes}) => new TextDecoder().decode(bytes));
  const programmes = texts.filter(text => /^\s*"?programme_format"?\s*:/m.test(text));
  const tables = files.filter(({name, bytes}) => !/\.ya?ml$/i.test(name) && bytes.length <= LARGEST_FILE);
  const names = new Set(tables.map(({name}) => name));
  const {files: before, used, setAside} = state();
  const problem = large.length
    ? `${large.map(({name}) => name).join(", ")}: larger than ${LARGEST_FILE / 1e6} MB, not taken.`
    : tables.length + programmes.length === 0 && files.length > 0
      ? "There is no table and no programme among these files."
      : null;
  set({problem});
  if (tables.length + programmes.length === 0) return;
  chooseInLaboratory(`add ${names.size === 1 ? [...names][0] : "files"} to the laboratory`, {
    files: [...before.filter(({name}) => !names.has(name)), ...tables],
    used: [...used.filter(name => !names.has(name)), ...(isKnown ? names : [])],
    setAside: setAside.filter(({file}) => !names.has(file)),
    ...(programmes.length > 0 && {programmeText: programmes.at(-1)!}),
  });
}

export function removeLaboratoryFile(name: string): void {
  const {files, used, setAside} = state();
  chooseInLaboratory(`remove ${name}`, {
    files: files.filter(f => f.name !== name),
    used: used.filter(u => u !== name),
    setAside: setAside.filter(({file}) => file !== name),
  });
}

/** Takes a file into the evaluation, its columns being right, or out of it. */
export function chooseFiles(names: readonly string[], isUsed: boolean): void {
  const others = state().used.filter(u => !names.includes(u));
  chooseInLaboratory(isUsed ? "use tables" : "leave tables out", {used: isUsed ? [...others, ...names] : others});
}

/** Leaves a row out with its reason, or takes it back, whatever its table says. */
export function setRowAside(file: string, row: string, reason: string | null): void {
  const others = state().setAside.filter(s => s.file !== file || s.row !== row);
  chooseInLaboratory(reason === null ? "take a row back" : "set a row aside", {
    setAside: [...others, {file, row, reason}],
  });
}

export function setProgramme(text: string | null): void {
  chooseInLaboratory("programme", {programmeText: text});
}

export function emptyLaboratory(): void {
  cancelBeams();
  chooseInLaboratory("empty the laboratory", EMPTY_LABORATORY);
}

/** The programme as it is, or what is wrong with it. */
export function programmeState(text: string | null): {
  readonly programme: ProgrammeDocument | null;
  readonly faults: readonly Fault[];
  readonly warnings: readonly Fault[];
} {
  if (text === null) return {programme: null, faults: [], warnings: []};
  const outcome = readProgramme(text);
  if (outcome.kind === "faults") return {programme: null, faults: outcome.faults, warnings: []};
  return {programme: outcome.programme, faults: [], warnings: outcome.warnings};
}

/** The same of the programme on the page. */
export function useProgramme(): ReturnType<typeof programmeState> {
  const text = useLaboratory(s => s.programmeText);
  return useMemo(() => programmeState(text), [text]);
}

/** The last fit, unless tables, choices or programme have changed since. */
export function useCurrentFit(): FittedBeams | null {
  return useLaboratory(({fitted}) => (fitted !== null && isSameTask(fitted.task, laboratoryTask()) ? fitted : null));
}

/** Everything that the thread needs to know. */
export function laboratoryTask(): LaboratoryTask {
  const {files, used, looks, setAside, programmeText} = state();
  const usedWith = (...kinds: readonly string[]): string[] =>
    looks.filter(look => used.includes(look.name) && look.tables.some(t => kinds.includes(t))).map(({name}) => name);
  return {files, fatigue: usedWith("fatigue"), beams: usedWith("beams", "readings"), setAside, programmeText};
}

/** Whether two tasks give the same laws. */
export function isSameTask(a: LaboratoryTask, b: LaboratoryTask): boolean {
  const same = (x: readonly unknown[], y: readonly unknown[]): boolean =>
    x.length === y.length && x.every((value, i) => value === y[i]);
  return (
    same(a.files, b.files) &&
    same(a.fatigue, b.fatigue) &&
    same(a.beams, b.beams) &&
    same(a.setAside, b.setAside) &&
    a.programmeText === b.programmeText
  );
}

let turn = 0; // counts what was begun, so that an answer that comes late is not taken for the present one

let looked: readonly LaboratoryFile[] = EMPTY.files; // of which the looks are

/** Reads and fits anew what can be had at once. */
async function work(): Promise<void> {
  const own = ++turn;
  const {files} = state();
  set({isReading: true});
  try {
    if (looked !== files) {
      const looks = await computer().readFiles(files);
      if (own !== turn) return;
      set({looks});
      looked = files;
    }
    const task = laboratoryTask();
    const [fatigue, beams] = await Promise.all([
      task.fatigue.length ? computer().fatigue(task) : null,
      task.beams.length ? computer().readBeams(task) : null,
    ]);
    if (own === turn) set({fatigue, beams});
  } catch (error) {
    if (own === turn) set({problem: (error as Error).message});
  } finally {
    if (own === turn) set({isReading: false});
  }
}

/** Fits growth laws to the beams; minutes of work. */
export async function fitBeams(): Promise<void> {
  const {beams: look} = state();
  if (!look) return;
  const task = laboratoryTask();
  set({fitting: {status: "running", progress: {done: 0, doing: ""}}});
  try {
    const outcome = await computer().beams(
      task,
      proxy((progress: Progress) => {
        if (state().fitting.status === "running") set({fitting: {status: "running", progress}});
      }),
    );
    if (outcome.kind === "done") set({fitted: {calibration: outcome.value, look, task}, fitting: {status: "idle"}});
    else if (outcome.kind === "cancelled") set({fitting: {status: "stopped"}});
    else set({fitting: outcome.kind === "failed" ? {status: "failed", message: outcome.message} : {status: "idle"}});
  } catch (error) {
    set({fitting: {status: "failed", message: (error as Error).message}});
  }
}

export function cancelBeams(): void {
  if (state().fitting.status === "running") void computer().cancel();
}

useWorkbook.subscribe(({laboratory}, before) => {
  if (laboratory !== before.laboratory) follow(laboratory);
});
if (useWorkbook.getState().laboratory !== EMPTY_LABORATORY) follow(useWorkbook.getState().laboratory);

/** The tables of a file as CSV, with the reasons for what is left out. */
export function tableCopies(file: string): Promise<readonly {readonly name: string; readonly text: string}[]> {
  return computer().tableCopies(laboratoryTask(), file);
}

/** What is known of the present study: how it was read, its lives, and what is being computed. */
import {create} from "zustand";
import type {ChangedLife} from "../../engine/life/index.ts";
import type {LifeResult} from "../../engine/life/types.ts";
import {pathOfText, pathText} from "../../schema/editing/index.ts";
import type {Fault} from "../../schema/index.ts";
import type {Progress, Reading, StudyReading} from "../worker/channel.ts";
import type {Path} from "./value.ts";
import type {Workbook} from "./workbook.ts";

export type Solving =
  | {readonly status: "idle"}
  | {readonly status: "running"; readonly progress: Progress}
  | {readonly status: "stopped"}
  | {readonly status: "failed"; readonly message: string};

interface Answers {
  readonly reading: Reading | null;
  readonly readOf: Workbook | null;
  readonly study: StudyReading | null; // the last reading of which lives can be computed
  readonly result: LifeResult | null; // the last solution
  readonly resultOf: Workbook | null; // of which workbook
  readonly solution: number; // by which the thread knows it
  readonly quick: readonly ChangedLife[] | null; // of the present study, by the last solution
  readonly solving: Solving;
}

export const useAnswers = create<Answers>(() => ({
  reading: null,
  readOf: null,
  study: null,
  result: null,
  resultOf: null,
  solution: 0,
  quick: null,
  solving: {status: "idle"},
}));

/** What lives can be computed of; null: nothing. */
export function studyIn(reading: Reading | null): StudyReading | null {
  return reading?.kind === "faults" ? reading.unpriced : reading;
}

export const NO_FAULTS: readonly Fault[] = [];

/** Faults, or warnings, of the document. */
export function useFaults(): readonly Fault[] {
  return useAnswers(({reading}) => (reading?.kind === "faults" ? reading.faults : NO_FAULTS));
}

export function useWarnings(): readonly Fault[] {
  return useAnswers(({reading}) => reading?.warnings ?? NO_FAULTS);
}

/** Whether a fault's path, as it is told, is this one. */
export function isAbout(fault: Fault, path: Path): boolean {
  return fault.path === pathText(path);
}

/** Whether it is about something at or below this path. */
export function isWithin(fault: Fault, path: Path): boolean {
  const place = pathOfText(fault.path);
  return path.every((step, k) => step === place[k]);
}

/** Whether the solution is of the workbook at hand. */
export function isCurrent(resultOf: Workbook | null, present: Workbook): boolean {
  return resultOf !== null && resultOf.text === present.text && resultOf.files === present.files;
}

/** Why nothing can be computed of the study as it stands; null: it can. */
export function obstacleOf(reading: Reading | null): string | null {
  if (reading === null) return "The study is being read.";
  return reading.kind === "faults"
    ? "The study has faults: mend them first. The line of lives above leads to them."
    : null;
}

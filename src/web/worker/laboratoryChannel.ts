/** What the page asks of its laboratory thread, and what it answers. All of it plain data. */
import type {Calibration, FatigueResult} from "../../engine/laboratory/index.ts";
import type {
  BeamOutcome,
  FatigueFiles,
  LaboratoryFile,
  LaboratoryLook,
  SetAsideRow,
} from "../../schema/laboratory/index.ts";
import type {Outcome, Progress} from "./channel.ts";

/** Files that a person has looked through, with what is left out of them. */
export interface LaboratoryTask {
  readonly files: readonly LaboratoryFile[]; // all of them: tables name histories
  readonly fatigue: readonly string[]; // names of files whose columns are to be used
  readonly beams: readonly string[]; // the same, of beams and of readings
  readonly setAside: readonly SetAsideRow[];
  readonly programmeText: string | null; // what the tables do not say
}

/** Tables of specimens and what follows from them. */
export interface FatigueAnswer {
  readonly reading: FatigueFiles;
  readonly result: FatigueResult | null; // null: no specimen is left, or there is a problem
  readonly problem: string | null; // why no line could be fitted
}

/** Tables of beams as they were read; nothing is fitted yet. */
export interface BeamsLook {
  readonly reading: BeamOutcome;
  readonly unknown: readonly string[]; // materials of which the programme says nothing
  readonly missing: readonly string[]; // fatigue tables that the programme names and that are not used
}

/** A table as CSV with the reasons for what is left out. */
export interface TableCopy {
  readonly name: string; // of the file, such as beams.csv
  readonly text: string;
}

export interface LaboratoryComputer {
  /** What the files are, each by itself. */
  readFiles(files: readonly LaboratoryFile[]): Promise<readonly LaboratoryLook[]>;
  fatigue(task: LaboratoryTask): Promise<FatigueAnswer>;
  readBeams(task: LaboratoryTask): Promise<BeamsLook>;
  /** Growth laws of the beams, with those fatigue lines that bear on them. */
  beams(task: LaboratoryTask, onProgress: (progress: Progress) => void): Promise<Outcome<Calibration>>;
  /** Stops the fit of beams. */
  cancel(): void;
  tableCopies(task: LaboratoryTask, file: string): Promise<readonly TableCopy[]>;
}

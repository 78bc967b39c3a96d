/** What the page asks of its computing thread, and what it answers. All of it plain data. */
import type {ChangedLife, JointField} from "../../engine/life/index.ts";
import type {LifeResult, Study} from "../../engine/life/types.ts";
import type {GridLevel, MissByAxis, PointOutcome, ThicknessGoal} from "../../engine/survey/index.ts";
import type {RiskPlan, RiskResult} from "../../engine/uncertainty/index.ts";
import type {SearchCase, SurveyInput} from "../../report/live/index.ts";
import type {Fault} from "../../schema/index.ts";
import type {Workbook} from "../state/workbook.ts";

export interface StudyReading {
  readonly kind: "study";
  readonly study: Study;
  readonly risk: RiskPlan;
  readonly warnings: readonly Fault[];
  readonly files: Readonly<Record<string, string>>; // that were read, and count in the hash
  readonly hash: string; // of all inputs, as the command line tells it
  /** Lives at once, where the last solution tells them. */
  readonly quick: readonly ChangedLife[] | null;
}

/** A workbook as it was read. */
export type Reading =
  | StudyReading
  | {
      readonly kind: "faults";
      readonly faults: readonly Fault[];
      readonly warnings: readonly Fault[];
      /** The study without its prices, where nothing but those is faulty. */
      readonly unpriced: StudyReading | null;
    };

export interface Progress {
  readonly done: number; // of all work [–]
  readonly doing: string;
}

/** A study solved. */
export interface Solution {
  readonly result: LifeResult;
  readonly number: number; // by which the thread knows it
}

export type Outcome<T> =
  | {readonly kind: "done"; readonly value: T}
  | {readonly kind: "cancelled"}
  | {readonly kind: "failed"; readonly message: string};

/** Factors by which the user asks "what if". */
export interface WhatIf {
  readonly passes: number; // [–]
  readonly loads: number; // [–]
  readonly temperatures: number; // departures from the strain-free temperature [–]
  readonly coefficients: Readonly<Record<string, number>>; // of growth laws, by material [–]
}

export interface AskedAxis {
  readonly name: string; // path of a number in the study, or a special one
  readonly from: number;
  readonly to: number;
  readonly count: number;
}

export interface AskedMap {
  readonly x: AskedAxis;
  readonly y: AskedAxis;
  readonly treatment: string;
}

/** The least thickness that is asked for, of all treatments. */
export interface AskedThickness extends ThicknessGoal {
  readonly layer: string; // of the section
  readonly reliability: number | null; // [–]; null: the best estimate
}

/** A survey of two inputs, its outcomes as a list. */
export interface MapResult {
  readonly study: string; // its name
  readonly accuracy: number; // in tip strain [–]
  readonly x: {readonly input: SurveyInput; readonly values: readonly number[]; readonly log: boolean};
  readonly y: {readonly input: SurveyInput; readonly values: readonly number[]; readonly log: boolean};
  readonly treatments: readonly [control: string, treated: string];
  readonly hasInterlayer: boolean;
  readonly level: GridLevel;
  readonly outcomes: readonly {readonly i: number; readonly j: number; readonly outcome: PointOutcome}[];
  readonly missed: MissByAxis | null;
  readonly computed: number;
  readonly isFinished: boolean;
}

/** A number of the study that may be varied along an axis. */
export interface VariableField {
  readonly name: string;
  readonly label: string;
  readonly base: number;
}

export interface AskedField {
  readonly treatment: number;
  readonly temperature: number; // [°C]
  readonly cracks: {readonly interlayer: number; readonly underside: number; readonly surface: number}; // [m]
}

export interface Computer {
  read(workbook: Workbook): Promise<Reading>;
  solve(workbook: Workbook, onProgress: (progress: Progress) => void): Promise<Outcome<Solution>>;
  /** Lives under factors, of a solution; null: another has come since. */
  whatIf(solution: number, factors: WhatIf): Promise<readonly ChangedLife[] | null>;
  risk(
    workbook: Workbook,
    onProgress: (progress: Progress) => void,
    onPicture: (result: RiskResult) => void,
  ): Promise<Outcome<RiskResult>>;
  variables(workbook: Workbook): Promise<readonly VariableField[]>;
  map(
    workbook: Workbook,
    asked: AskedMap,
    onProgress: (progress: Progress) => void,
    onPicture: (result: MapResult) => void,
  ): Promise<Outcome<MapResult>>;
  thickness(
    workbook: Workbook,
    asked: AskedThickness,
    onProgress: (progress: Progress) => void,
  ): Promise<Outcome<SearchCase>>;
  field(workbook: Workbook, asked: AskedField): Promise<Outcome<JointField>>;
  /** Stops what is being computed. */
  cancel(what: "solve" | "risk" | "map" | "thickness"): void;
}

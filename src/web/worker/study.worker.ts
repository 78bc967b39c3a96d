/** The computing thread of the page: reads workbooks, solves them on a pool of further threads, answers what follows. */
import "../withoutEval.ts";
import {expose} from "comlink";
import {computeRisk, memoryRun, openLiveLives, type Run} from "../../compute/index.ts";
import {InputError} from "../../engine/errors.ts";
import {type ChangedLife, changedLives, fieldRequest, type LifeModel, noChange} from "../../engine/life/index.ts";
import type {Study} from "../../engine/life/types.ts";
import {parsedText} from "../../schema/editing/index.ts";
import type {Workbook} from "../state/workbook.ts";
import type {Computer, Progress, StudyReading, WhatIf} from "./channel.ts";
import {fieldApart} from "./fieldThread.ts";
import {computeMap, variableFields} from "./maps.ts";
import {outcomeOf} from "./outcome.ts";
import {openPool, THREADS} from "./pools.ts";
import {hashOf, type ReadStudy, variationsOf, workbookReader} from "./reader.ts";
import {computeThickness} from "./search.ts";

/** How far the exponent of a growth law may move for an answer at once [–]. */
const SPAN = 0.5;

const read = workbookReader();
const live = openLiveLives({openPool, workers: THREADS, span: SPAN});
const runs = new Map<string, Run>(); // finished points of maps and samples, by what they are of
const MOST_RUNS = 4;
const stops = {
  solve: new AbortController(),
  risk: new AbortController(),
  map: new AbortController(),
  thickness: new AbortController(),
};
let model: LifeModel | null = null;
let solutions = 0; // the last is the model's

/** A new signal for a kind of computation; one that still runs is stopped. */
function begun(what: keyof typeof stops): AbortSignal {
  stops[what].abort();
  stops[what] = new AbortController();
  return stops[what].signal;
}

/** What was finished of the same before it was cancelled. */
function runOf(key: string): Run {
  const run = runs.get(key) ?? memoryRun();
  runs.delete(key);
  runs.set(key, run);
  if (runs.size > MOST_RUNS) runs.delete(runs.keys().next().value!);
  return run;
}

/** @throws InputError where the workbook has faults beside those of its prices: the page does not ask then */
function studyOf(workbook: Workbook): Study {
  const {outcome, unpriced} = read(workbook);
  if (outcome.kind === "study") return outcome.study;
  if (unpriced) return unpriced.study;
  throw new InputError("domain", "study", `${outcome.faults.length} faults`, "a study without faults");
}

const PROGRESS_EVERY = 80; // [ms]

/** No more often than a person can see. */
function sparse(tell: (progress: Progress) => void): (progress: Progress) => void {
  let last = 0;
  return progress => {
    const now = performance.now();
    if (now - last < PROGRESS_EVERY) return;
    last = now;
    tell(progress);
  };
}

const computer: Computer = {
  read: async workbook => {
    const {outcome, unpriced, files} = read(workbook);
    const told = async ({study, risk, warnings}: ReadStudy): Promise<StudyReading> => ({
      kind: "study",
      study,
      risk,
      warnings,
      files,
      hash: await hashOf(workbook.text, files),
      quick: live.quick(study)?.lives ?? null,
    });
    if (outcome.kind === "study") return told(outcome);
    return {...outcome, unpriced: unpriced && (await told(unpriced))};
  },

  solve: (workbook, onProgress) => {
    const signal = begun("solve");
    const tell = sparse(onProgress);
    return outcomeOf(async () => {
      const solved = await live.solve(studyOf(workbook), {
        signal,
        onProgress: ({done, running}) => tell({done, doing: running[0]?.label ?? ""}),
      });
      model = solved;
      return {result: solved.base, number: ++solutions};
    });
  },

  whatIf: async (solution, factors) => (model && solution === solutions ? livesUnder(model, factors) : null),

  risk: (workbook, onProgress, onPicture) => {
    const signal = begun("risk");
    const tell = sparse(onProgress);
    return outcomeOf(async () => {
      const {outcome} = read(workbook);
      if (outcome.kind === "faults") throw new InputError("domain", "study", "faults", "a study without faults");
      return computeRisk(outcome.study, outcome.risk, variationsOf(workbook), {
        openPool,
        workers: THREADS,
        run: runOf(`risk ${await hashOf(workbook.text, workbook.files)}`),
        signal,
        onPicture,
        onProgress: ({doing, done, total, secondsLeft}) =>
          tell({
            done: total > 0 ? done / total : 0,
            doing: `${doing}, ${done} of ${total}${secondsLeft === null ? "" : `; ${Math.ceil(secondsLeft)} s left`}`,
          }),
      });
    });
  },

  variables: async workbook => variableFields(parsedText(workbook.text)),

  map: (workbook, asked, onProgress, onPicture) => {
    const signal = begun("map");
    return outcomeOf(async () =>
      computeMap({
        variations: variationsOf(workbook),
        asked,
        run: runOf(
          `map ${asked.treatment} ${asked.x.name} ${asked.y.name} ${await hashOf(workbook.text, workbook.files)}`,
        ),
        signal,
        onProgress: sparse(onProgress),
        onPicture,
      }),
    );
  },

  thickness: (workbook, asked, onProgress) => {
    const signal = begun("thickness");
    return outcomeOf(async () =>
      computeThickness({
        variations: variationsOf(workbook),
        asked,
        run: runOf(`thickness ${asked.layer} ${asked.reliability} ${await hashOf(workbook.text, workbook.files)}`),
        signal,
        onProgress: sparse(onProgress),
      }),
    );
  },

  field: async (workbook, asked) => {
    const request = await outcomeOf(() => fieldRequest(studyOf(workbook), asked));
    return request.kind === "done" ? fieldApart(request.value) : request;
  },

  cancel: what => stops[what].abort(),
};

function livesUnder(solved: LifeModel, {passes, loads, temperatures, coefficients}: WhatIf): readonly ChangedLife[] {
  const same = noChange(solved);
  const laws = solved.materials.map((name, k) => ({...same.laws[k], coefficient: coefficients[name] ?? 1}));
  return changedLives(solved, {...same, laws, passes, loads, temperatures});
}

expose(computer);

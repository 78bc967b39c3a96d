/** Where a treatment pays: a survey over two inputs, for the page. */
import {
  computeSurvey,
  gridPoints,
  pointFaults,
  type Run,
  type SurveyAxis,
  type Surveyed,
  surveyAxis,
  USUAL_TOLERANCE,
} from "../../compute/index.ts";
import {InputError} from "../../engine/errors.ts";
import type {Study} from "../../engine/life/types.ts";
import {specialInputs, type Variations} from "../../schema/index.ts";
import type {AskedAxis, AskedMap, MapResult, Progress, VariableField} from "./channel.ts";
import {openPool, THREADS} from "./pools.ts";

/** Accuracy of tip strains in a map: lives move by less than the map can show [–]. */
const ACCURACY = 0.02;

export interface MapJob {
  readonly variations: Variations;
  readonly asked: AskedMap;
  readonly run: Run;
  readonly signal: AbortSignal;
  readonly onProgress: (progress: Progress) => void;
  readonly onPicture: (result: MapResult) => void;
}

/** @throws InputError on what was asked; PointFaults; Cancelled */
export async function computeMap({variations, asked, run, signal, onProgress, onPicture}: MapJob): Promise<MapResult> {
  if (variations.base.kind === "faults") throw new InputError("domain", "study", "faults", "a study without faults");
  const {study} = variations.base;
  const plane = {
    x: axisOf("across", variations, asked.x),
    y: axisOf("up", variations, asked.y),
    treatments: [study.treatments[0].name, asked.treatment] as const,
  };
  if (plane.x.input.name === plane.y.input.name)
    throw new InputError("domain", "up", plane.y.input.name, "another number than across");
  const [bad] = pointFaults(variations, gridPoints(plane));
  if (bad) throw bad;
  const told = (state: Surveyed, isFinished: boolean): MapResult => toldMap(study, plane, state, isFinished);
  const state = await computeSurvey({
    ...plane,
    variations,
    accuracy: ACCURACY,
    tolerance: USUAL_TOLERANCE,
    openPool,
    workers: THREADS,
    run,
    signal,
    onProgress: ({done, total, secondsLeft}) =>
      onProgress({
        done: total > 0 ? done / total : 0,
        doing: `point ${done} of ${total} so far${leftText(secondsLeft)}`,
      }),
    onPicture: surveyed => onPicture(told(surveyed, false)),
  });
  return told(state, true);
}

function leftText(seconds: number | null): string {
  if (seconds === null || seconds < 1) return "";
  return seconds < 90
    ? `, about ${Math.ceil(seconds)} s for these`
    : `, about ${Math.ceil(seconds / 60)} min for these`;
}

function axisOf(which: string, variations: Variations, asked: AskedAxis): SurveyAxis {
  const found = surveyAxis(variations, asked);
  if (found.kind === "fault") throw new InputError("domain", which, found.problem, found.need);
  return found.axis;
}

function toldMap(
  study: Study,
  {x, y, treatments}: {readonly x: SurveyAxis; readonly y: SurveyAxis; readonly treatments: readonly [string, string]},
  {survey: {level, outcome}, points, missed}: Surveyed,
  isFinished: boolean,
): MapResult {
  const axis = ({input: {name, words, label, unit, base}, values, log}: SurveyAxis) => ({
    input: {name, words, label, unit, present: base},
    values,
    log,
  });
  const treated = study.treatments.find(t => t.name === treatments[1]);
  return {
    study: study.name,
    accuracy: ACCURACY,
    x: axis(x),
    y: axis(y),
    treatments,
    hasInterlayer: treated?.section.layers.some(l => l.role === "interlayer") ?? false,
    level,
    outcomes: level.y.flatMap(j =>
      level.x.flatMap(i => {
        const own = outcome(i, j);
        return own ? [{i, j, outcome: own}] : [];
      }),
    ),
    missed,
    computed: points,
    isFinished,
  };
}

/** Numbers of the document that may stand along an axis, those of the structure first. */
export function variableFields(raw: unknown): VariableField[] {
  const special = Object.entries(specialInputs).map(([name, {label, base}]) => ({name, label, base}));
  return [...special, ...numbersOf(raw, "section"), ...numbersOf(raw, "treatments"), ...numbersOf(raw, "materials")];
}

function numbersOf(raw: unknown, root: string): VariableField[] {
  const found: VariableField[] = [];
  const walk = (value: unknown, name: string): void => {
    if (typeof value === "number")
      found.push({name, label: name.replaceAll("_", " ").replaceAll(".", " › "), base: value});
    else if (Array.isArray(value))
      value.forEach((entry, k) => {
        const own = (entry as {name?: unknown} | null)?.name;
        if (typeof own === "string") walk(entry, `${name}.${own}`);
        else if (typeof entry === "object") walk(entry, `${name}.${k}`);
      });
    else if (typeof value === "object" && value !== null)
      for (const [key, own] of Object.entries(value)) walk(own, `${name}.${key}`);
  };
  if (typeof raw === "object" && raw !== null) walk((raw as Record<string, unknown>)[root], root);
  return found;
}

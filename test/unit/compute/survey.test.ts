/** A survey as a page asks for it. Expected: lives that the study has by itself at each point, and the same after going on. */
import {describe, expect, test} from "vitest";
import {
  computeLife,
  computeSurvey,
  memoryRun,
  type SurveyAxis,
  type SurveyRequest,
  surveyAxis,
} from "../../../src/compute/index.ts";
import {Cancelled} from "../../../src/engine/errors.ts";
import {recordLives} from "../../../src/engine/survey/index.ts";
import {studyReader, type Variations, variedStudy} from "../../../src/schema/index.ts";
import {tinyText} from "../cli/tinyStudy.ts";
import {notedPool} from "./inProcess.ts";

const variations: Variations = studyReader({
  fileName: "study.yaml",
  readCsv: () => ({problem: "there is none"}),
}).variations(tinyText);

function axis(name: string, from: number, to: number, count: number): SurveyAxis {
  const outcome = surveyAxis(variations, {name, from, to, count});
  if (outcome.kind === "fault") throw new Error(outcome.problem);
  return outcome.axis;
}

const x = axis("section.layers.overlay.thickness_mm", 70, 90, 2);
const y = axis("traffic", 0.5, 4, 2);

const request = (change: Partial<SurveyRequest>): SurveyRequest => {
  if (variations.base.kind !== "study") throw new Error("the study is good");
  const [control, treated] = variations.base.study.treatments.map(t => t.name);
  return {
    variations,
    x,
    y,
    treatments: [control, treated],
    accuracy: 0.05,
    openPool: notedPool().openPool,
    workers: 1,
    ...change,
  };
};

describe("axes", () => {
  test("equal steps, and equal ratios from a ratio of 8 on", () => {
    expect([x.values, x.log]).toEqual([[70, 90], false]);
    const ratios = axis("traffic", 0.5, 8, 3);
    expect([ratios.values, ratios.log]).toEqual([[0.5, 2, 8], true]);
  });

  test.each([
    ["falls", {from: 2, to: 1}, "it does not go up, from 2 to 1"],
    ["one point", {count: 1}, "1 points"],
    ["part of a point", {count: 2.5}, "2.5 points"],
    ["too many", {count: 51}, "51 points"],
    ["no such input", {name: "trafic"}, "there is no trafic"],
  ])("%s", (_, change, problem) => {
    const outcome = surveyAxis(variations, {name: "traffic", from: 1, to: 2, count: 3, ...change});
    expect(outcome).toMatchObject({kind: "fault"});
    if (outcome.kind === "fault" && problem.startsWith("there is no"))
      expect(outcome.need).toBe("did you mean traffic?");
    else expect(outcome).toMatchObject({problem});
  });
});

test("broken off and gone on with: the lives of each point by itself, none computed twice", async () => {
  const run = memoryRun();
  const stop = new AbortController();
  let computed = 0;
  const seen: number[] = [];
  const broken = computeSurvey(
    request({
      run,
      signal: stop.signal,
      tolerance: -1,
      onProgress: ({done}) => {
        if (done >= 2) stop.abort();
      },
    }),
  );
  await expect(broken).rejects.toBeInstanceOf(Cancelled);
  const before = run.count;
  expect(before).toBeGreaterThan(0);
  expect(before).toBeLessThan(4);
  const pool = notedPool(task => {
    if (task.kind === "ordinary" && task.treatment === 0) computed++;
  });
  const {survey, points} = await computeSurvey(
    request({run, tolerance: -1, openPool: pool.openPool, onPicture: state => void seen.push(state.points)}),
  );
  expect(points).toBe(4);
  expect(computed).toBe(4 - before);
  expect(seen.at(-1)).toBe(4);
  const at = variedStudy(variations, [
    {input: x.input, value: x.values[1]},
    {input: y.input, value: y.values[1]},
  ]);
  if (at.kind !== "study") throw new Error("the point is good");
  const direct = await computeLife({...at.study, accuracy: 0.05}, {pool: notedPool().openPool()});
  expect(survey.outcome(1, 1)).toEqual(recordLives(direct));
});

/** Whole lives: time over that of one response model, and memory. */
import {type Line, leastOf, pick} from "../collect.ts";
import {atMost, type Comparison, type Group, timeRatio} from "./group.ts";

const MOST_MB = 300;

export function lifeGroup(lines: readonly Line[]): Group {
  const warm = pick(lines, {what: "life", state: "warm"});
  const response = pick(lines, {what: "response model between lives"});
  const one = pick(lines, {what: "life, one load class"});
  const sixty = pick(lines, {what: "life, sixty load classes"});
  const beside = pick(lines, {what: "life beside samples"});
  const light = pick(lines, {what: "ten thousand samples of laws, traffic and temperature"});
  const solved = pick(lines, {what: "two thousand samples of everything, sections solved anew, by eight of them"});
  const memory = lines.filter(line => line.what === "memory of a study");
  const named = ({what, state, study}: Line): string => `${what}${state ? `, ${state} threads` : ""}: ${study}`;
  return {
    title: "Whole lives",
    text:
      "The life of the road example: two treatments at all temperatures, with the thermal part and fatigue away from the " +
      "joint, in threads that are warm; between them response models of the same road, also warm. `seamwright life` is the " +
      "command as it is run from the shell, starting, reading and printing included, compiled code being on disk from the " +
      "run before. Memory is the most that the whole process held, compiled to JavaScript, with two threads.",
    comparisons: [
      ...timeRatio("Life of the road example ÷ one response model", warm, response, atMost(30)),
      ...timeRatio("Life under sixty load classes on four axle groups ÷ under one", sixty, one, atMost(2)),
      ...timeRatio("Ten thousand samples of laws, traffic and temperature ÷ one life", light, beside, atMost(10)),
      ...timeRatio("Two thousand samples of everything, sections solved anew ÷ one life", solved, beside, atMost(1500)),
      ...memory.map(({study, peakMB}): Comparison => {
        const what = `Peak memory of \`seamwright life ${study}\``;
        return {what, median: peakMB!, least: peakMB!, ...atMost(MOST_MB), unit: "MB"};
      }),
    ],
    tables: [
      {
        head: ["what", "ms", "least ms", "runs"],
        rows: lines
          .filter(line => /^life|^response model|^seamwright/.test(line.what))
          .map(line => [line.study ? named(line) : line.what, line.ms, leastOf(line), Number(line.runs)]),
      },
      {
        head: ["process", "threads", "peak MB"],
        rows: lines
          .filter(line => line.peakMB !== undefined)
          .map(line => [`${line.what}: ${line.study ?? line.subject}`, Number(line.workers), line.peakMB!]),
      },
    ],
    pictures: [],
  };
}

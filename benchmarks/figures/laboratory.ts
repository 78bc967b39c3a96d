/** Growth laws from beams: time over that of one beam solved. */
import {type Line, leastOf, pick} from "../collect.ts";
import {atMost, type Group, timeRatio} from "./group.ts";

/** What a fit with profiles may take: so many beams solved, and so long besides. */
const SOLVES = 60;
const BESIDES = 10_000; // [ms]

export function laboratoryGroup(lines: readonly Line[]): Group {
  const solve = pick(lines, {what: "beam solved"})!;
  const fit = pick(lines, {what: "laws fitted with profiles"});
  const without = pick(lines, {what: "each predicted without it"});
  const allowed = (beams: number): Line => ({
    what: "allowed",
    ms: beams * (SOLVES * solve.ms + BESIDES),
    leastMs: beams * (SOLVES * leastOf(solve) + BESIDES),
  });
  const beams = Number(solve.beams);
  return {
    title: "Growth laws from beams",
    text:
      `An invented programme of ${beams} wheel-tracked beams with three materials (examples/laboratory), calibrated in ` +
      "one thread; median over programmes. A beam solved is every crack state under the wheel at every place of its " +
      `travel, the mean of all ${beams}. A fit with the likelihood profiles of all parameters may take ${SOLVES} beams ` +
      `solved and ${BESIDES / 1000} s besides, the predictions of each beam by laws fitted without it ${beams} times that.`,
    comparisons: [
      ...timeRatio(
        `Laws fitted with profiles ÷ (${SOLVES} beams solved + ${BESIDES / 1000} s)`,
        fit,
        allowed(1),
        atMost(1),
      ),
      ...timeRatio(
        `Each of ${beams} beams predicted without it ÷ ${beams} times that`,
        without,
        allowed(beams),
        atMost(1),
      ),
    ],
    tables: [
      {
        head: ["what", "ms", "least ms", "runs", "in beams solved"],
        rows: lines.map(line => [line.what, line.ms, leastOf(line), Number(line.runs), line.ms / solve.ms]),
      },
    ],
    pictures: [],
  };
}

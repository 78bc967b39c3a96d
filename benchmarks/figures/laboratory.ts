/** The laboratory: growth laws over the time of one beam solved, fatigue lines, a long history. */
import {type Line, leastOf, pick} from "../collect.ts";
import {atMost, type Comparison, type Group, timeRatio} from "./group.ts";

/** What a fit with profiles may take: so many beams solved, and so long besides. */
const SOLVES = 60;
const BESIDES = 10_000; // [ms]

/** Of the fatigue lines of a programme: no delay that a person sees. */
const LINES_MS = 50;
/** Of a history that would not fit if it were held whole. */
const HISTORY_MB = 400;

const OTHERS = ["fatigue lines with bands", "history read"]; // that are not parts of a calibration

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
  const parts = lines.filter(line => !OTHERS.includes(line.what));
  const [fatigue, history] = OTHERS.map(what => pick(lines, {what}));
  return {
    title: "Laboratory",
    text:
      `An invented programme of ${beams} wheel-tracked beams with three materials (examples/laboratory), calibrated in ` +
      "one thread; median over programmes. A beam solved is every crack state under the wheel at every place of its " +
      `travel, the mean of all ${beams}. A fit with the likelihood profiles of all parameters may take ${SOLVES} beams ` +
      `solved and ${BESIDES / 1000} s besides, the predictions of each beam by laws fitted without it ${beams} times that. ` +
      "Fatigue lines are those of the same example's bending tests, by least squares and by likelihood, with their bands, " +
      "findings and comparisons. The history is CSV with a row for every cycle, read as the command `fatigue` reads it, in " +
      "a process of its own.",
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
      ...fatigueComparison(fatigue),
      ...historyComparison(history),
    ],
    tables: [
      {
        head: ["what", "ms", "least ms", "runs", "in beams solved"],
        rows: parts.map(line => [line.what, line.ms, leastOf(line), Number(line.runs), line.ms / solve.ms]),
      },
      ...(fatigue
        ? [
            {
              head: ["what", "specimens", "ms", "least ms", "runs"],
              rows: [[fatigue.what, Number(fatigue.specimens), fatigue.ms, leastOf(fatigue), Number(fatigue.runs)]],
            },
          ]
        : []),
      ...(history
        ? [
            {
              head: ["what", "MB", "rows", "s", "peak MB"],
              rows: [
                [
                  history.what,
                  Number(history.megabytes),
                  Number(history.rows),
                  history.ms / 1000,
                  Number(history.peakMB),
                ],
              ],
            },
          ]
        : []),
    ],
    pictures: [],
  };
}

function fatigueComparison(line: Line | undefined): Comparison[] {
  if (!line) return [];
  const what = `Fatigue lines with bands of ${line.specimens} specimens`;
  return [{what, median: line.ms, least: leastOf(line), ...atMost(LINES_MS), unit: "ms"}];
}

function historyComparison(line: Line | undefined): Comparison[] {
  if (!line) return [];
  const peak = Number(line.peakMB);
  const what = `Peak memory while a history of ${Math.round(Number(line.megabytes))} MB is read`;
  return [{what, median: peak, least: peak, ...atMost(HISTORY_MB), unit: "MB"}];
}

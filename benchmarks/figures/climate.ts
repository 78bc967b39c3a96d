/** What a long weather record costs. */
import {type Line, leastOf, pick} from "../collect.ts";
import {atMost, type Comparison, type Group} from "./group.ts";

/** Ten years may take so long in one thread. */
const MOST_MS = 3000;
const MOST_MB = 300;

export function climateGroup(lines: readonly Line[]): Group {
  const whole = pick(lines, {what: "a record's hours, all together"})!;
  const years = Number(whole.years);
  const peak = whole.peakMB!;
  const comparisons: Comparison[] = [
    {
      what: `${years} years of hours through heat balance, conduction and cycle counting`,
      median: whole.ms,
      least: leastOf(whole),
      ...atMost(MOST_MS),
      unit: "ms",
    },
    {what: `Peak memory with ${years} years of hours`, median: peak, least: peak, ...atMost(MOST_MB), unit: "MB"},
  ];
  return {
    title: "Long weather records",
    text:
      `${years} years of hours, the example's year again and again with weather of its own on top (seeded), on the road with its ` +
      "interlayer, in one thread: temperatures of the pavement, spin-up and what the report shows of them included, then the " +
      "cycles of tip strain counted for every crack state. The mechanical response to temperature does not depend on the " +
      "record. Memory is that of the process that measures, started from sources.",
    comparisons,
    tables: [
      {
        head: ["what", "hours", "crack states", "ms", "least ms", "runs"],
        rows: lines.map(line => [
          line.what,
          line.hours === undefined ? "" : Number(line.hours),
          line.states === undefined ? "" : Number(line.states),
          line.ms,
          leastOf(line),
          Number(line.runs),
        ]),
      },
    ],
    pictures: [],
  };
}

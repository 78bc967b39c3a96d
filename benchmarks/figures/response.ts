/** Whole response models on two cores, and the road's against the eliminations by OpenBLAS that it would need. */
import {type Line, leastOf, pick} from "../collect.ts";
import {MESHES} from "../section.ts";
import {WAYS} from "./elimination.ts";
import {atMost, type Comparison, type Group, type Table} from "./group.ts";

export const ROAD_SUBJECT = "road with interlayer";

export function roadResponse(engine: readonly Line[]): Line {
  const line = pick(engine, {what: "response model", subject: ROAD_SUBJECT, state: "warm"});
  if (!line) throw new Error("the road's response model was not measured");
  return line;
}

export function responseGroup(openblas: readonly Line[], engine: readonly Line[]): Group {
  const road = roadResponse(engine);
  const own = {median: road.ms, least: leastOf(road)};
  const sums = WAYS.map(way => ({way, sum: summed(openblas, way)}));
  const against = sums.flatMap(({way, sum}): Comparison[] => {
    if (!sum) return [];
    const what = `Response model on two cores ÷ its eliminations by OpenBLAS structured, ${way}, on one`;
    return [{what, median: own.median / sum.ms, least: own.least / leastOf(sum), ...atMost(0.35), unit: ""}];
  });
  const eliminations = sums
    .filter(({sum}) => sum !== undefined)
    .map(({way, sum}) => [`OpenBLAS structured, ${way}: ${sum!.what}`, sum!.ms, leastOf(sum!)]);
  return {
    title: "The response model",
    text:
      "Everything that one section has to be solved for at one temperature, at an accuracy of 1 %: all wavenumbers on " +
      "the coarse mesh, a third of them on the halved one, every crack state under every wheel position, assembled into " +
      "tables. Warm: two threads that have meshes and compiled code already, every run at another temperature. Cold: " +
      "threads started for the run. OpenBLAS eliminates once at each of the same wavenumbers, with its fastest kernels, " +
      "and has then solved no crack state yet.",
    comparisons: [...against, {what: "Response model on two cores, warm", ...own, ...atMost(250), unit: "ms"}],
    tables: [
      models(engine),
      ...(eliminations.length > 0 ? [{head: ["eliminations of the road", "ms", "least ms"], rows: eliminations}] : []),
    ],
    pictures: [],
  };
}

/** All wavenumbers of both meshes. */
function summed(lines: readonly Line[], way: string): Line | undefined {
  const both = MESHES.map(mesh => pick(lines, {what: `OpenBLAS structured, ${way}, all wavenumbers`, mesh}));
  if (both.some(line => line === undefined)) return undefined;
  const [coarse, halved] = both as [Line, Line];
  return {
    what: `${coarse.wavenumbers} coarse, ${halved.wavenumbers} halved`,
    ms: coarse.ms + halved.ms,
    leastMs: leastOf(coarse) + leastOf(halved),
  };
}

function models(lines: readonly Line[]): Table {
  const rows = lines
    .filter(line => line.what === "response model")
    .map(line => {
      const {subject, state, waves, halvedWaves, wheels, states, ms} = line;
      return [
        String(subject),
        `${waves} + ${halvedWaves}`,
        Number(wheels),
        Number(states),
        String(state),
        ms,
        leastOf(line),
      ];
    });
  return {head: ["section", "wavenumbers", "wheel positions", "crack states", "threads", "ms", "least ms"], rows};
}

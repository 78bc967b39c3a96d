/** The same in a page as in Node. */
import {type Line, leastOf, pick} from "../collect.ts";
import {MESHES} from "../section.ts";
import {atMost, type Group, timeRatio} from "./group.ts";
import {ROAD_SUBJECT} from "./response.ts";

const AIM = atMost(1.3);
const MEMORY = {shared: "memory shared", copied: "messages copied"} as const;

export function browserGroup(browser: readonly Line[], engine: readonly Line[]): Group {
  const alike = (line: Line, memory: string): Line | undefined => {
    const {what, kernel, matrices, mesh, subject, state} = line;
    return pick(browser, {what, kernel, matrices, mesh, subject, state, memory});
  };
  const eliminations = MESHES.flatMap(mesh => {
    const own = pick(engine, {what: "elimination", kernel: "simd", matrices: "made", mesh});
    return timeRatio(`Chromium ÷ Node: one elimination, ${mesh} mesh`, own && alike(own, "shared"), own, AIM);
  });
  const road = pick(engine, {what: "response model", subject: ROAD_SUBJECT, state: "warm"});
  const responses = (["shared", "copied"] as const).flatMap(memory =>
    timeRatio(`Chromium ÷ Node: response model, ${MEMORY[memory]}`, road && alike(road, memory), road, AIM),
  );
  const named = ({what, kernel, matrices, mesh, subject, state}: Line): string =>
    what === "elimination"
      ? `elimination, ${mesh} mesh, ${kernel === "simd" ? "128-bit" : "plain"} kernel, matrices ${matrices}`
      : `response model, ${subject}, ${state}`;
  return {
    title: "In a browser",
    text:
      "The same modules in a page of headless Chromium, with one web worker for eliminations and two for response models. " +
      "A page that its server isolates (COOP and COEP headers) has memory that its threads share; any other page has " +
      "its messages copied.",
    comparisons: [...eliminations, ...responses],
    tables: [
      {
        head: ["what", "Node, ms", "Chromium, ms", "ratio", "messages copied, ms", "ratio"],
        rows: engine.map(line => {
          const [shared, copied] = [alike(line, "shared"), alike(line, "copied")];
          const pair = (other: Line | undefined) => (other ? [other.ms, leastOf(other) / leastOf(line)] : ["", ""]);
          return [named(line), line.ms, ...pair(shared), ...pair(copied)];
        }),
      },
    ],
    pictures: [],
  };
}

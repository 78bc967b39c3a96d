/** Times of one elimination as bars. */
import * as Plot from "@observablehq/plot";
import {MUTED} from "../../src/report/palette.ts";
import {type Line, pick} from "../collect.ts";
import {MESHES} from "../section.ts";
import type {Picture} from "./group.ts";
import {COLOURS, picture} from "./pictures.ts";

export function eliminationPicture(openblas: readonly Line[], engine: readonly Line[]): Picture {
  const bars = MESHES.flatMap(mesh => {
    const own = pick(openblas, {what: "own elimination, matrices given", mesh});
    const plain = pick(engine, {what: "elimination", kernel: "plain", matrices: "given", mesh});
    const other = (way: string) => pick(openblas, {what: `OpenBLAS ${way}, fastest core`, mesh});
    return [
      {name: "own, 128-bit", line: own, own: true},
      {name: "own, plain TypeScript", line: plain, own: true},
      {name: "OpenBLAS, same tree", line: other("multifrontal"), own: false},
      {name: "OpenBLAS, steps", line: other("structured, steps"), own: false},
      {name: "OpenBLAS, dense blocks", line: other("structured, dense blocks"), own: false},
    ].flatMap(({line, ...bar}) => (line ? [{mesh: `${mesh} mesh`, ms: line.ms, ...bar}] : []));
  });
  const low = 0.6 * Math.min(...bars.map(b => b.ms));
  const text = (bar: {readonly ms: number}): string => bar.ms.toPrecision(3);
  return picture("benchmark-elimination.svg", "Time of one elimination on one core, by way and mesh", {
    height: 290,
    marginLeft: 150,
    marginRight: 90,
    x: {type: "log", label: "ms", ticks: [10, 100], tickFormat: (v: number) => String(v), grid: true},
    y: {label: null, domain: bars.slice(0, bars.length / 2).map(b => b.name)},
    fy: {label: null},
    marks: [
      Plot.ruleX([low], {stroke: MUTED}),
      Plot.barX(bars, {
        fy: "mesh",
        y: "name",
        x1: () => low,
        x2: "ms",
        fill: bar => (bar.own ? COLOURS[0] : COLOURS[3]),
        inset: 1,
      }),
      Plot.text(bars, {fy: "mesh", y: "name", x: "ms", text, textAnchor: "start", dx: 4}),
    ],
  });
}

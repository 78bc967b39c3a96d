/** One elimination: our own kernels against OpenBLAS and against each other. */
import {type Line, leastOf, pick} from "../collect.ts";
import {MESHES} from "../section.ts";
import {eliminationPicture} from "./eliminationPicture.ts";
import {atMost, type Comparison, type Group, type Table, timeRatio} from "./group.ts";

export const WAYS = ["dense blocks", "steps"] as const;
const OWN = "own elimination, matrices given";

/**
 * @param openblas  lines of openblas/run.ts, empty where that is left out
 * @param engine    lines of response/run.ts
 */
export function eliminationGroup(openblas: readonly Line[], engine: readonly Line[]): Group {
  const comparisons = [
    ...MESHES.flatMap(mesh => WAYS.flatMap(way => structured(openblas, mesh, way))),
    ...MESHES.flatMap(mesh => multifrontal(openblas, mesh)),
    ...MESHES.flatMap(mesh => {
      const own = (kernel: string) => pick(engine, {what: "elimination", kernel, matrices: "made", mesh});
      return timeRatio(`Plain TypeScript kernel ÷ 128-bit kernel, ${mesh} mesh`, own("plain"), own("simd"), atMost(5));
    }),
  ];
  return {
    title: "One elimination",
    text:
      "The system of one wavenumber of the road with its interlayer, on one core. OpenBLAS eliminates by columns of the mesh " +
      "(structured, as a block-tridiagonal system), in dense blocks or in steps that leave out what is still zero; or on " +
      "the same tree of fronts as our own code (multifrontal). OpenBLAS chooses its kernels by the processor; all of those " +
      "that could run were tried, and the fastest stand beside its choice. In the comparisons " +
      "element matrices are given to both sides, and the structured way is that of the fastest kernels. “Matrices made” " +
      "is all that a wavenumber costs: copying ready matrices from memory takes about as long as making them.",
    comparisons,
    tables: [openblas.length > 0 ? againstOpenBlas(openblas) : null, kernels(engine)].filter(t => t !== null),
    pictures: openblas.length > 0 ? [eliminationPicture(openblas, engine)] : [],
  };
}

function structured(lines: readonly Line[], mesh: string, way: string): Comparison[] {
  const other = pick(lines, {what: `OpenBLAS structured, ${way}, fastest core`, mesh});
  return timeRatio(
    `Own ÷ OpenBLAS structured, ${way}, ${mesh} mesh`,
    pick(lines, {what: OWN, mesh}),
    other,
    atMost(0.5),
  );
}

function multifrontal(lines: readonly Line[], mesh: string): Comparison[] {
  const own = pick(lines, {what: OWN, mesh});
  const chosen = pick(lines, {what: "OpenBLAS multifrontal", mesh, asked: "automatic"});
  const fastest = pick(lines, {what: "OpenBLAS multifrontal, fastest core", mesh});
  return [
    ...timeRatio(`Own ÷ OpenBLAS on the same tree, kernels of its choice, ${mesh} mesh`, own, chosen, atMost(1.3)),
    ...timeRatio(`Own ÷ OpenBLAS on the same tree, fastest kernels, ${mesh} mesh`, own, fastest, atMost(1.3)),
  ];
}

function againstOpenBlas(lines: readonly Line[]): Table {
  const ways = ["multifrontal", ...WAYS.map(way => `structured, ${way}`)];
  const rows = MESHES.flatMap(mesh => {
    const made = pick(lines, {what: "own elimination, matrices made", mesh});
    const own = [pick(lines, {what: OWN, mesh}), made];
    const others = ways.flatMap(way => [
      pick(lines, {what: `OpenBLAS ${way}`, mesh, asked: "automatic"}),
      pick(lines, {what: `OpenBLAS ${way}, fastest core`, mesh}),
    ]);
    return [...own, ...others]
      .filter(line => line !== undefined)
      .map(line => {
        const speed = typeof line.gflops === "number" ? line.gflops : "";
        const kernels = line.core ? `${line.core}${line.asked === "automatic" ? ", its choice" : ""}` : "";
        const what = line.what.replace(", fastest core", "").replace("own", "Own");
        return [mesh, what, kernels, line.ms, leastOf(line), speed, made ? made.ms / line.ms : ""];
      });
  });
  return {head: ["mesh", "elimination", "kernels", "ms", "least ms", "Gflop/s", "own, matrices made ÷ this"], rows};
}

function kernels(lines: readonly Line[]): Table {
  const rows = lines
    .filter(line => line.what === "elimination")
    .map(line => {
      const kernel = line.kernel === "simd" ? "128-bit" : "plain TypeScript";
      return [String(line.mesh), kernel, String(line.matrices), line.ms, leastOf(line)];
    });
  return {head: ["mesh", "own kernel", "element matrices", "ms", "least ms"], rows};
}

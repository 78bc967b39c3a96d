/** What a probe found, as tables for a terminal, in the units of a laboratory: mm, MPa, µε, J/m². */
import type {ProbeRequest, ProbeResult, Treatment} from "../engine/life/index.ts";
import type {LoadClass} from "../engine/traffic/index.ts";
import {heading, type Terminal} from "./terminal.ts";

interface Probe {
  readonly treatment: Treatment;
  readonly loadClass: LoadClass;
  readonly request: ProbeRequest;
  readonly result: ProbeResult;
}

type Tips = ProbeResult["points"][number]["tips"];
type TipName = keyof Tips;
type Cell = string | number;

const TIP_NAMES: readonly TipName[] = ["interlayer", "underside", "surface"];
const TIP_HEAD = ["tip", "in layer", "σx MPa", "τxz MPa", "τxy MPa", "strain µε", "G I J/m²", "G II", "G III"];
const TIP_TEXT = 2; // columns from here on are numbers

/** Stretches of the joint, in the order of the engine. */
const FACES = ["upper half", "lower half", "cut below"];

/** Digits shown: more than the accuracy, since comparing is what a probe is for. */
const DIGITS = 5;
/** A number so much smaller than the largest of its column is rounding noise about zero and shown as 0. */
const NOISE = 1e-9;

export function probeTable(probe: Probe, terminal: Pick<Terminal, "colour">): string {
  const {result} = probe;
  const parts = [
    [heading(`${probe.treatment.name}, one wheel of ${probe.loadClass.name}`, terminal), ...conditionLines(probe)],
    [heading("Crack tips, means over the process zone", terminal), ...tipTable(result)],
    [heading("Deflections, down, in mm; − is the side before the joint", terminal), ...deflectionTable(result)],
    [heading("Warming by 1 K, or by 1 K/m of gradient, at relaxation moduli", terminal), ...thermalTable(result)],
  ];
  return `${parts.map(lines => lines.join("\n")).join("\n\n")}\n`;
}

function conditionLines({treatment, request, result}: Probe): string[] {
  const {wheel, cracks} = request;
  const moduli = treatment.section.layers.map((layer, i) => `${layer.name} ${figure(result.moduli[i] / 1e6)}`);
  return [
    `wheel          ${figure(wheel.load / 1e3)} kN on ${mm(wheel.length)} mm along by ${mm(wheel.width)} mm across`,
    `moduli, MPa    ${moduli.join(", ")}`,
    `cracks, mm     ${TIP_NAMES.map(name => `${name} ${mm(cracks[name])}`).join(", ")}`,
    `load transfer  spring ${figure(result.transferSpring / 1e9)} MPa/mm; ${figure(100 * result.transferEfficiency)} % on the bare jointed layer`,
  ];
}

function tipTable({points}: ProbeResult): string[] {
  const rows = points.flatMap(({x, y, tips, contact}) =>
    tipRows(tips).map(([name, ...cells]) => {
      const closed = contact.closedCracks.some(crack => crack === name) ? " (closed)" : "";
      return [toMm(x), toMm(y), name + closed, ...cells];
    }),
  );
  return aligned([["x mm", "y mm", ...TIP_HEAD], ...rows], [2, 3]);
}

/** Name of the tip first; the rest under `TIP_HEAD`. */
function tipRows(tips: Tips): [TipName, ...Cell[]][] {
  return TIP_NAMES.flatMap((name): [TipName, ...Cell[]][] => {
    const tip = tips[name];
    if (!tip) return [];
    const tractions = [tip.opening, tip.shearXz, tip.shearXy].map(t => t / 1e6);
    const {energy} = tip;
    return [
      [
        name,
        tip.layer,
        ...tractions,
        tip.strain * 1e6,
        ...(energy ? [energy.I, energy.II, energy.III] : ["–", "–", "–"]),
      ],
    ];
  });
}

function deflectionTable({points}: ProbeResult): string[] {
  const rows = points.map(({x, y, deflection, contact}) => {
    const {surface, slab, underWheel} = deflection;
    const touching = FACES.filter((_, i) => contact.closedFaces[i]).join(", ") || "none";
    return [
      ...[x, y, surface.minus, surface.plus, slab.minus, slab.plus, underWheel].map(toMm),
      contact.settled ? touching : `${touching} (not settled)`,
    ];
  });
  const head = ["x mm", "y mm", "surface −", "surface +", "slab −", "slab +", "under wheel", "faces touching"];
  return aligned([head, ...rows], [7]);
}

function thermalTable({thermal}: ProbeResult): string[] {
  const rows = thermal.flatMap(({cause, tips, jointOpening}) =>
    tipRows(tips).map((row, i) => [i === 0 ? cause : "", ...row, i === 0 ? toMm(jointOpening) : ""]),
  );
  return aligned([["cause", ...TIP_HEAD, "joint mm"], ...rows], [0, 1, TIP_TEXT]);
}

/** @param left columns of text; the others are set to the right */
function aligned(rows: readonly (readonly Cell[])[], left: readonly number[]): string[] {
  const columns = rows[0].map((_, column) => {
    const cells = rows.map(row => row[column]);
    const largest = Math.max(0, ...cells.map(cell => (typeof cell === "number" ? Math.abs(cell) : 0)));
    const texts = cells.map(cell => {
      if (typeof cell === "string") return cell;
      return figure(Math.abs(cell) < NOISE * largest ? 0 : cell);
    });
    const width = Math.max(...texts.map(text => text.length));
    return texts.map(text => (left.includes(column) ? text.padEnd(width) : text.padStart(width)));
  });
  return rows.map((_, row) =>
    columns
      .map(column => column[row])
      .join("  ")
      .trimEnd(),
  );
}

function toMm(metres: number): number {
  return metres * 1e3;
}

function mm(metres: number): string {
  return figure(toMm(metres));
}

function figure(value: number): string {
  if (value === 0 || !Number.isFinite(value)) return String(value);
  const size = Math.abs(value);
  return size >= 1e6 || size < 1e-4 ? value.toExponential(DIGITS - 1) : String(Number(value.toPrecision(DIGITS)));
}

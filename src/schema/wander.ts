import {z} from "zod";
import type {Wander} from "../engine/traffic/types.ts";
import type {DocumentPath, Findings} from "./fault.ts";
import {quantity} from "./quantity.ts";
import {fromMm} from "./si.ts";

/**
 * Standard deviation of the lateral position by kind of pavement [mm]: on roads 10 in is a usual design value and 140 to 430
 * were measured on heavy vehicles; on taxiways three quarters of the passes keep within 70 in, on runways within 140 in,
 * and 75 % of a normal variable lie within ±1.1503 deviations.
 *
 * @source Brown & Thompson 1973, WES MP S-73-56 (title read; widths from memory); roads: from memory
 */
export const usualWander_mm = {road: 250, taxiway: 773, runway: 1546} as const;
type PavementKind = keyof typeof usualWander_mm;

/** Shares may miss 100 % by so much through rounding [%]; they are then scaled. */
const slack_percent = 0.5;

const offset = (description: string) =>
  quantity("mm", description, {min: -20_000, max: 20_000, why: "vehicles keep within 20 m of their line"});

export const wanderFields = z
  .union([
    z.enum(Object.keys(usualWander_mm) as [PavementKind, ...PavementKind[]]),
    z.strictObject({
      uniform_mm: quantity("mm", "Width over which the lateral position is spread evenly", {
        above: 0,
        max: 20_000,
        typical: [100, 6000],
      }),
    }),
    z.strictObject({
      histogram: z
        .array(
          z.strictObject({
            from_mm: offset("Lateral offset at which the cell begins"),
            to_mm: offset("… and ends; the next cell begins there"),
            share_percent: quantity("%", "Share of the passes", {min: 0, max: 100}),
          }),
        )
        .min(1, {error: "the histogram is empty"})
        .max(200, {error: "more than 200 cells"})
        .meta({description: "Measured, cell by cell"}),
    }),
  ])
  .meta({
    description:
      "Lateral wander instead of wander_mm: usual for a kind of pavement (normal, 250, 773 and 1546 mm), even over a width, or measured",
  });

export type WanderDocument = z.output<typeof wanderFields>;

export interface WanderGiven {
  readonly wander_mm?: number | undefined;
  readonly wander?: unknown;
}

/** Cells in a row without gap, and shares of all passes. */
export function checkWander(given: WanderGiven, path: DocumentPath, findings: Findings): void {
  if (given.wander_mm !== undefined && given.wander !== undefined)
    findings.fault([...path, "wander"], {
      problem: "the wander is given twice",
      accepted: "either wander_mm or wander",
    });
  const at = [...path, "wander", "histogram"];
  const cells = (given.wander as {histogram?: unknown} | undefined)?.histogram;
  if (!Array.isArray(cells) || findings.faulty(at)) return;
  cells.forEach((cell, i) => {
    if (cell.to_mm <= cell.from_mm)
      findings.fault([...at, i, "to_mm"], {problem: "the cell has no width", accepted: `more than ${cell.from_mm} mm`});
    else if (i > 0 && cell.from_mm !== cells[i - 1].to_mm)
      findings.fault([...at, i, "from_mm"], {
        problem: "the cells of the histogram do not join",
        accepted: `${cells[i - 1].to_mm} mm, where the one before ends`,
      });
  });
  const total = cells.reduce((sum: number, cell) => sum + cell.share_percent, 0);
  if (Math.abs(total - 100) > slack_percent)
    findings.fault(at, {
      problem: "the shares of the histogram do not add up to all passes",
      found: `a sum of ${Number(total.toPrecision(6))} %`,
      accepted: "100 %",
    });
}

export function toWander(given: {
  readonly wander_mm?: number | undefined;
  readonly wander?: WanderDocument | undefined;
}) {
  const {wander_mm, wander = "road"} = given;
  if (wander_mm !== undefined) return {kind: "normal", deviation: fromMm(wander_mm)} satisfies Wander;
  if (typeof wander === "string") return {kind: "normal", deviation: fromMm(usualWander_mm[wander])} satisfies Wander;
  if ("uniform_mm" in wander) return {kind: "uniform", width: fromMm(wander.uniform_mm)} satisfies Wander;
  const cells = wander.histogram;
  const total = cells.reduce((sum, cell) => sum + cell.share_percent, 0); // 100 within rounding: checkWander
  return {
    kind: "histogram",
    edges: [fromMm(cells[0].from_mm), ...cells.map(cell => fromMm(cell.to_mm))],
    shares: cells.map(cell => cell.share_percent / total),
  } satisfies Wander;
}

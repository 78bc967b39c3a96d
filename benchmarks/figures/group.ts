/** What a group of figures comes to: comparisons with what is aimed at, tables, pictures. */
import {type Line, leastOf} from "../collect.ts";

/** One number to hold against an aim. */
export interface Comparison {
  readonly what: string;
  readonly median: number;
  readonly least: number; // of the least times; the same where a thing was measured once
  readonly aim: number;
  readonly better: "less" | "more";
  readonly unit: "" | "ms" | "MB"; // "": a ratio
}

export interface Table {
  readonly head: readonly string[];
  readonly rows: readonly (readonly (string | number)[])[];
}

export interface Picture {
  readonly name: string; // of the file
  readonly label: string;
  readonly svg: string;
}

export interface Group {
  readonly title: string;
  readonly text: string;
  readonly comparisons: readonly Comparison[];
  readonly tables: readonly Table[];
  readonly pictures: readonly Picture[];
}

type Aim = Pick<Comparison, "aim" | "better">;

export const atMost = (aim: number): Aim => ({aim, better: "less"});
export const atLeast = (aim: number): Aim => ({aim, better: "more"});

/** One time over another; none when either was not measured. */
export function timeRatio(what: string, over: Line | undefined, under: Line | undefined, aim: Aim): Comparison[] {
  if (!over || !under) return [];
  return [{what, median: over.ms / under.ms, least: leastOf(over) / leastOf(under), ...aim, unit: ""}];
}

export function isReached({median, aim, better}: Comparison): boolean {
  return better === "less" ? median <= aim : median >= aim;
}

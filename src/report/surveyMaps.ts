/** The maps of a survey: ratio, lives and costs over its two inputs. */

import type {Judgement, Region} from "../engine/survey/index.ts";
import {lifeScale, type MapAxis, type MapNode, ratioScale, type SurveyMap} from "./charts/index.ts";
import {LIFE_CAP} from "./format.ts";
import type {SurveyCase, SurveyInput, SurveyView} from "./survey.ts";
import {type DisplayUnit, displayUnit, type UnitSystem} from "./units.ts";

export interface MapLook {
  readonly height: number; // [px]
  readonly units?: UnitSystem; // of the axes; metric when left out
}

type View = Pick<SurveyView, "fine" | "regions" | "points" | "present">;

/** The map of the ratio by itself. */
export function ratioMap(one: SurveyCase, view: View, look: MapLook): SurveyMap {
  const {fine, regions} = view;
  const values = fine.cells.map(row => row.map(c => c?.ratio ?? Number.NaN));
  const known = new Map(regions.map((r, k) => [keyOf(r), k]));
  return {
    ...plane(one, view, look),
    title: `Life with ${one.treatments[1]} over life with ${one.treatments[0]}`,
    values,
    blank: fine.cells.map(row => row.map(c => c === null || c.kind === "none")),
    regions: fine.cells.map(row => row.map(c => (c && known.has(keyOf(c)) ? keyOf(c) : ""))),
    badges: regions.length > 1 ? regions.map((r, k) => ({text: String(k + 1), ...r.inside})) : [],
    scale: ratioScale(values.flat()),
  };
}

function keyOf({cause, effect}: Pick<Region, "cause" | "effect">): string {
  return `${cause}/${effect}`;
}

/** What the maps of a survey share. */
function plane({x, y, survey}: SurveyCase, {points}: View, {height, units = "metric"}: MapLook) {
  const ends = (values: readonly number[]): [number, number] => [values[0]!, values.at(-1)!];
  const within = (value: number, [low, high]: readonly [number, number]): boolean => value >= low && value <= high;
  const [domainX, domainY] = [ends(survey.x.values), ends(survey.y.values)];
  const shown = within(x.present, domainX) && within(y.present, domainY);
  const [alongX, alongY] = [displayUnit(x.unit, units), displayUnit(y.unit, units)];
  const placed = (p: {readonly x: number; readonly y: number}) => ({
    x: alongX.toDisplay(p.x),
    y: alongY.toDisplay(p.y),
  });
  return {
    x: axisOf(x, {domain: domainX, log: survey.x.log}, alongX),
    y: axisOf(y, {domain: domainY, log: survey.y.log}, alongY),
    nodes: points
      .filter(p => p.kind !== "interpolated")
      .map(p => ({...placed(p), kind: nodeKind(p.kind, p.judgement)})),
    present: shown ? placed({x: x.present, y: y.present}) : null,
    height,
  };
}

function axisOf(
  {label, unit}: SurveyInput,
  {domain, log}: {readonly domain: readonly [number, number]; readonly log: boolean},
  shown: DisplayUnit,
): MapAxis {
  const text = label.endsWith(`, ${unit}`) ? `${label.slice(0, -unit.length)}${shown.unit}` : label;
  return {
    label: log ? `${text} (log scale)` : text,
    domain: [shown.toDisplay(domain[0]), shown.toDisplay(domain[1])],
    log,
  };
}

function nodeKind(kind: string, judgement: Judgement | null): MapNode["kind"] {
  if (kind === "failed") return "failed";
  return judgement && judgement.kind !== "ratio" ? "bound" : "computed";
}

/** Lives of the control and of the treated section on one scale; `open` where a life is beyond what is told. */
export function lifeMaps(
  one: SurveyCase,
  view: View,
  look: MapLook,
): {readonly maps: readonly [control: SurveyMap, treated: SurveyMap]; readonly open: boolean} {
  const livesOf = (which: "control" | "treated"): number[][] =>
    view.fine.cells.map(row => row.map(c => c?.[which].years ?? Number.NaN));
  const lives = [livesOf("control"), livesOf("treated")] as const;
  const isOpen = (v: number): boolean => !(v <= LIFE_CAP);
  const scale = lifeScale(lives.flat(2).filter(v => !isOpen(v)));
  const map = (k: 0 | 1): SurveyMap => ({
    ...plain(one, view, look),
    title: `Life with ${one.treatments[k]}, years`,
    values: lives[k],
    blank: lives[k].map(row => row.map(isOpen)),
    scale,
  });
  return {maps: [map(0), map(1)], open: lives.flat(2).some(isOpen)};
}

/** Present worth over that of the control; null without prices. */
export function costMap(one: SurveyCase, view: View, look: MapLook): SurveyMap | null {
  const values = view.fine.cells.map(row => row.map(c => c?.cost ?? Number.NaN));
  if (values.flat().every(Number.isNaN)) return null;
  return {
    ...plain(one, view, look),
    title: `Present worth with ${one.treatments[1]} over present worth with ${one.treatments[0]}`,
    values,
    blank: values.map(row => row.map(Number.isNaN)),
    scale: ratioScale(values.flat(), "below"),
  };
}

/** A map without regions and points. */
function plain(one: SurveyCase, view: View, look: MapLook) {
  return {...plane(one, view, look), nodes: [], regions: null, badges: []};
}

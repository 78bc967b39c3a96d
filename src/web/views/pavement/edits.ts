/** Edits of the section and its treatments, as changes of the document. */
import type {Layer, Section} from "../../../engine/section/types.ts";
import {copiedEntry, movedEntry} from "../../../schema/editing/index.ts";
import {listAt, numberAt, type Path, textAt, valueAt} from "../../state/value.ts";
import {useCursor} from "../../state/view.ts";
import {edit, rewrite, useWorkbook} from "../../state/workbook.ts";

const raw = (): unknown => useWorkbook.getState().raw;

export const LAYERS: Path = ["section", "layers"];
export const changesOf = (treatment: number): Path => ["treatments", treatment, "changes"];

/** Place of a layer in the document's section; −1 where a treatment has brought it in. */
export function placeOfLayer(document: unknown, name: string): number {
  return listAt(document, LAYERS).findIndex(l => textAt(l, ["name"]) === name);
}

/** Place among a treatment's own layers; −1: it does not change this one. */
export function placeOfChange(document: unknown, treatment: number, name: string): number {
  return listAt(document, [...changesOf(treatment), "layers"]).findIndex(l => textAt(l, ["name"]) === name);
}

const round = (metres: number): number => Number((metres * 1e3).toPrecision(9)); // [mm]

/**
 * A layer made thicker in one treatment's drawing: where the treatment has a thickness of its own, that; else the section's,
 * and so every treatment's.
 *
 * @param thickness  as drawn [m]
 */
export function setThickness(section: Section, treatment: number, name: string, thickness: number): void {
  const layer = section.layers.find(l => l.name === name);
  const document = raw();
  const path = layer && thicknessPath(document, layer, treatment);
  const written = path ? numberAt(document, path) : null;
  if (!layer || !path || written === null) return;
  // Of a course with an interlayer in its place only the rest is drawn: what is written changes by as much as what is drawn.
  edit(`thickness of ${name}`, [{path, value: round(written / 1e3 + thickness - layer.thickness)}]);
}

/** Where the thickness of a layer of a treatment is written; null: nowhere. */
function thicknessPath(document: unknown, {name, role}: Layer, treatment: number): Path | null {
  const changes = changesOf(treatment);
  if (role === "interlayer") return [...changes, "interlayer", "thickness_mm"];
  const own: Path = [...changes, "layers", placeOfChange(document, treatment, name), "thickness_mm"];
  if (numberAt(document, own) !== null) return own;
  const whole: Path = [...changes, "overlay_thickness_mm"];
  if (role === "overlay" && numberAt(document, whole) !== null) return whole;
  const place = placeOfLayer(document, name);
  return place < 0 ? null : [...LAYERS, place, "thickness_mm"];
}

function freeName(wanted: string, taken: readonly string[]): string {
  for (let k = 1; ; k++) {
    const name = k === 1 ? wanted : `${wanted} ${k}`;
    if (!taken.includes(name)) return name;
  }
}

/** A layer like this one below it. */
export function addLayerBelow(name: string): void {
  const from = placeOfLayer(raw(), name);
  if (from < 0) return;
  const names = listAt(raw(), LAYERS).map(l => textAt(l, ["name"]));
  const edits = [{path: ["name"], value: freeName(name, names)}];
  rewrite("add layer", text => copiedEntry(text, LAYERS, {from, to: from + 1, edits}));
}

export function removeLayer(name: string): void {
  const place = placeOfLayer(raw(), name);
  if (place >= 0) edit("remove layer", [{path: [...LAYERS, place], value: undefined}]);
}

/**
 * A further treatment, chosen at once so that it can be made another.
 *
 * @param like  the treatment that it begins as; null: none
 */
export function addTreatment(like: number | null): void {
  const names = listAt(raw(), ["treatments"]).map(t => textAt(t, ["name"]));
  const to = names.length;
  if (like === null) {
    edit("add treatment", [{path: ["treatments", to], value: {name: freeName("Treatment", names)}}]);
  } else {
    const edits = [{path: ["name"], value: freeName(names[like], names)}];
    rewrite("add treatment", text => copiedEntry(text, ["treatments"], {from: like, to, edits}));
  }
  if (listAt(raw(), ["treatments"]).length > to) useCursor.setState({selection: {kind: "treatment", treatment: to}});
}

export function removeTreatment(treatment: number): void {
  edit("remove treatment", [{path: ["treatments", treatment], value: undefined}]);
}

/** The treatment becomes the first, with which the others are compared. */
export function makeControl(treatment: number): void {
  rewrite("change the control", text => movedEntry(text, ["treatments"], {from: treatment, to: 0}));
}

/** A map or an entry of the document comes or goes. */
export function toggle(label: string, path: Path, value: unknown): void {
  edit(label, [{path, value: valueAt(raw(), path) === undefined ? value : undefined}]);
}

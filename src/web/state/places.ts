/** Where on the page a fault of the document is mended, and its place in words. */
import {fieldInfo, labelOf, pathOfText} from "../../schema/editing/index.ts";
import type {Fault} from "../../schema/index.ts";
import {type Path, textAt, valueAt} from "./value.ts";
import {type Selection, useCursor, type ViewName} from "./view.ts";

/** By the first key of the path; all else is mended as text. */
const VIEW_OF: Readonly<Record<string, ViewName>> = {
  name: "pavement",
  analysis_period_years: "pavement",
  section: "pavement",
  treatments: "pavement",
  materials: "materials",
  climate: "climate",
  surface: "climate",
  temperature_bins: "climate",
  neutral_temperature_C: "climate",
  thermal_loading: "climate",
  numerical: "climate",
  traffic: "traffic",
  uncertainty: "certainty",
  costs: "costs",
};

export function viewOf({path}: Fault): ViewName {
  const [root] = pathOfText(path);
  return (typeof root === "string" && Object.hasOwn(VIEW_OF, root) && VIEW_OF[root]) || "text";
}

/** "Costs › Reinforcements › grid"; entries of lists by their names. */
export function placeWords(raw: unknown, fault: Fault): string {
  const path = pathOfText(fault.path);
  return path.map((_, k) => stepWords(raw, path.slice(0, k + 1))).join(" › ") || "The document";
}

function stepWords(raw: unknown, path: Path): string {
  const last = path.at(-1)!;
  if (typeof last === "number") return textAt(valueAt(raw, path), ["name"]) || String(last + 1);
  return fieldInfo(path.slice(0, -1))?.shape.kind === "names" ? last : labelOf(last);
}

/** Chooses what the fault is about, on the drawing or in the list of materials, so that its field is there. */
export function chooseFor(raw: unknown, fault: Fault): void {
  const path = pathOfText(fault.path);
  if (viewOf(fault) === "pavement") useCursor.setState({selection: selectionFor(raw, path)});
  else if (path[0] === "materials" && typeof path[1] === "string") useCursor.setState({material: path[1]});
}

function selectionFor(raw: unknown, [root, part, entry]: Path): Selection {
  if (root === "treatments" && typeof part === "number") return {kind: "treatment", treatment: part};
  if (root !== "section") return null;
  const name = part === "layers" && typeof entry === "number" ? textAt(raw, ["section", "layers", entry, "name"]) : "";
  return name === "" ? {kind: "joint"} : {kind: "layer", name, treatment: 0};
}

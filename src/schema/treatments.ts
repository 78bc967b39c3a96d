import {checkBond, checkCut, checkJoint, checkTestTemperature, requireLaw, uniqueNames} from "./check-section.ts";
import type {DocumentPath, Findings} from "./fault.ts";
import {nearest} from "./nearest.ts";
import {usualHeight_mm} from "./section-fields.ts";
import type {LayerDocument, Partially, SectionDocument, StudyDocument, TreatmentDocument} from "./study.ts";

/** A layer after the changes of a treatment; the interlayer has come in. Still in the units of the document. */
export interface TreatedLayer extends Omit<LayerDocument, "role"> {
  readonly role: LayerDocument["role"] | "interlayer";
  readonly modulusFactor: number; // on all moduli [–]
}

export interface TreatedSection {
  readonly layers: readonly TreatedLayer[];
  readonly courses: readonly TreatedLayer[]; // the new ones, overlay and interlayer, each whole
  readonly joint: SectionDocument["joint"];
  /** What a deflection test was done on when the treatment brings none of its own: the section without it. */
  readonly testedUntreated: boolean;
  readonly reinforcement: (ReinforcementDocument & {readonly depth_mm: number}) | null;
}

type ReinforcementDocument = NonNullable<TreatmentDocument["changes"]["reinforcement"]>;

/** Thinnest course that may be left above an interlayer [mm]. */
const thinnestRest_mm = 3;

/** Applies a treatment to the section. Call only with a treatment that passed `checkTreatments`. */
export function treatedSection(section: SectionDocument, treatment: TreatmentDocument): TreatedSection {
  const {changes} = treatment;
  let layers: TreatedLayer[] = section.layers.map(layer => {
    const change = changes.layers?.find(({name}) => name === layer.name);
    const thickness = layer.role === "overlay" ? changes.overlay_thickness_mm : undefined;
    return {
      ...layer,
      thickness_mm: thickness ?? change?.thickness_mm ?? layer.thickness_mm,
      material: change?.material ?? layer.material,
      bond_below: change?.bond_below ?? layer.bond_below,
      modulusFactor: layer.role === "jointed" ? (changes.jointed_modulus_factor ?? 1) : 1,
    };
  });
  if (changes.interlayer) {
    const {material, thickness_mm, within_overlay, bond_above, bond_below} = changes.interlayer;
    let overlay = layers.filter(layer => layer.role === "overlay");
    if (within_overlay) overlay = withoutLowest(overlay, thickness_mm);
    // What the section says of the overlay's underside was said of the jointed layer below it.
    overlay = overlay.map((layer, k) => (k === overlay.length - 1 ? {...layer, bond_below: bond_above} : layer));
    const role = "interlayer" as const;
    const interlayer: TreatedLayer = {name: role, role, material, thickness_mm, bond_below, modulusFactor: 1};
    layers = [...overlay, interlayer, ...layers.filter(layer => layer.role !== "overlay")];
  }
  const given = Object.fromEntries(Object.entries(changes.joint ?? {}).filter(([, value]) => value !== undefined));
  return {
    layers: layers.flatMap(inParts),
    courses: layers.filter(({role}) => role === "overlay" || role === "interlayer"),
    joint: {...section.joint, ...given},
    testedUntreated: changes.joint?.load_transfer === undefined,
    reinforcement: changes.reinforcement
      ? {...changes.reinforcement, depth_mm: depthOf(changes.reinforcement, layers)}
      : null,
  };
}

/** A layer in equal parts of about the thickness asked for. Its bond is that of the lowest. */
function inParts(layer: TreatedLayer): TreatedLayer[] {
  const {name, thickness_mm, sublayer_mm = thickness_mm} = layer;
  const count = Math.max(1, Math.round(thickness_mm / sublayer_mm));
  if (count === 1) return [layer];
  return Array.from({length: count}, (_, k) => ({
    ...layer,
    name: `${name}, part ${k + 1} of ${count}`,
    thickness_mm: thickness_mm / count,
    bond_below: k === count - 1 ? layer.bond_below : "full",
  }));
}

function depthOf({depth_mm, position}: ReinforcementDocument, layers: readonly TreatedLayer[]): number {
  if (depth_mm !== undefined) return depth_mm;
  const above = layers.filter(
    ({role}) => role === "overlay" || (role === "interlayer" && position === "below interlayer"),
  );
  return above.reduce((sum, layer) => sum + layer.thickness_mm, 0);
}

/** The overlay without its lowest millimetres: thinner last course, or fewer courses. */
function withoutLowest(courses: readonly TreatedLayer[], thickness: number): TreatedLayer[] {
  const rest = [...courses];
  let toTake = thickness;
  while (toTake > 0 && rest.length > 0) {
    const last = rest[rest.length - 1];
    if (last.thickness_mm > toTake) {
      rest[rest.length - 1] = {...last, thickness_mm: last.thickness_mm - toTake};
      toTake = 0;
    } else {
      toTake -= last.thickness_mm;
      rest.pop();
    }
  }
  return rest;
}

/** Treatments against the section they change. */
export function checkTreatments(document: Partially<StudyDocument>, findings: Findings): void {
  const treatments = document.treatments ?? [];
  uniqueNames(treatments, ["treatments"], "treatment", findings);
  for (const [t, treatment] of treatments.entries()) {
    const changes = treatment?.changes;
    if (!changes) continue;
    const path = ["treatments", t, "changes"];
    checkNamedLayers(document, changes, path, findings);
    checkInterlayer(document, changes, path, findings);
    checkOverlayThickness(document, changes, path, findings);
    checkReinforcement(document, changes, path, findings);
    if (changes.joint?.load_transfer?.deflection_test?.tested_on === "existing_surface")
      findings.fault([...path, "joint", "load_transfer", "deflection_test", "tested_on"], {
        problem: "a treatment has no existing surface of its own: its overlay is new",
        accepted: "jointed_layer, or the test in section.joint",
      });
    checkTestTemperature(document, changes.joint?.load_transfer?.deflection_test, [...path, "joint"], findings);
    checkJoint(
      changes.joint,
      changes.joint?.spacing_m ?? document.section?.joint?.spacing_m,
      [...path, "joint"],
      findings,
    );
    if (changes.joint?.spacing_m !== undefined && changes.joint.width_mm === undefined)
      checkJoint({width_mm: document.section?.joint?.width_mm}, changes.joint.spacing_m, [...path, "joint"], findings);
    checkTreatedCut(document, changes, path, findings);
  }
}

type Changes = Partially<TreatmentDocument["changes"]>;

const layersOf = (document: Partially<StudyDocument>) => document.section?.layers ?? [];

function checkNamedLayers(
  document: Partially<StudyDocument>,
  changes: Changes,
  path: DocumentPath,
  findings: Findings,
): void {
  const known = layersOf(document).flatMap(layer => (layer?.name === undefined ? [] : [layer.name]));
  const complete = known.length > 0 && known.length === layersOf(document).length;
  uniqueNames(changes.layers ?? [], [...path, "layers"], "changed layer", findings);
  for (const [i, change] of (changes.layers ?? []).entries()) {
    if (!change) continue;
    const at = [...path, "layers", i];
    if (change.name !== undefined && complete && !known.includes(change.name)) {
      const meant = nearest(change.name, known);
      findings.fault([...at, "name"], {
        problem: "the section has no layer of this name",
        accepted: known.join(", "),
        suggestion: meant === null ? null : `did you mean ${meant}?`,
      });
    }
    const layer = layersOf(document).find(({name} = {}) => name !== undefined && name === change.name);
    if (layer && change.bond_below !== undefined) {
      const k = layersOf(document).indexOf(layer);
      checkBond(layersOf(document), k, [...at, "bond_below"], findings);
    }
    if (layer?.role === "overlay" && change.material !== undefined)
      requireLaw(document, change.material, [...at, "material"], "overlay", findings);
  }
}

function checkInterlayer(
  document: Partially<StudyDocument>,
  changes: Changes,
  path: DocumentPath,
  findings: Findings,
): void {
  const interlayer = changes.interlayer;
  if (!interlayer) return;
  if (interlayer.material !== undefined)
    requireLaw(document, interlayer.material, [...path, "interlayer", "material"], "interlayer", findings);
  if (layersOf(document).some(layer => layer?.name === "interlayer"))
    findings.fault([...path, "interlayer"], {
      problem: "the section has a layer with the name 'interlayer' already",
      accepted: "another name for that layer",
    });
  if (!interlayer.within_overlay || interlayer.thickness_mm === undefined) return;
  const courses = layersOf(document).filter(layer => layer?.role === "overlay");
  const thickness = courseThicknesses(document, changes);
  if (thickness.length === 0 || thickness.includes(undefined)) return;
  const total = (thickness as number[]).reduce((sum, h) => sum + h, 0);
  if (interlayer.thickness_mm > total - thinnestRest_mm)
    findings.fault([...path, "interlayer", "thickness_mm"], {
      problem: "the interlayer lies within the overlay but is thicker than it, or leaves less than 3 mm above",
      accepted: `at most ${total - thinnestRest_mm} mm of the overlay's ${total} mm, or within_overlay: false`,
    });
  else if (courses.length > 1 && interlayer.thickness_mm > (thickness.at(-1) ?? 0) - thinnestRest_mm)
    findings.warn([...path, "interlayer", "thickness_mm"], {
      problem: `the interlayer takes the place of (nearly) all of the lowest course, ${courses.at(-1)?.name}`,
      accepted: "an interlayer thinner than the lowest course, or within_overlay: false",
    });
}

/** Of the overlay's courses after the changes, without an interlayer [mm]. */
function courseThicknesses(document: Partially<StudyDocument>, changes: Changes): (number | undefined)[] {
  const courses = layersOf(document).filter(layer => layer?.role === "overlay");
  return courses.map(layer => {
    const change = changes.layers?.find(other => other?.name !== undefined && other.name === layer?.name);
    return changes.overlay_thickness_mm ?? change?.thickness_mm ?? layer?.thickness_mm;
  });
}

function checkReinforcement(
  document: Partially<StudyDocument>,
  changes: Changes,
  path: DocumentPath,
  findings: Findings,
): void {
  const {reinforcement, interlayer} = changes;
  if (!reinforcement) return;
  const at = [...path, "reinforcement"];
  const {depth_mm: depth, position, height_mm: height = usualHeight_mm} = reinforcement;
  const given = [depth, position].filter(v => v !== undefined).length;
  const told = findings.faulty([...at, "depth_mm"]) || findings.faulty([...at, "position"]);
  if (given === 2 || (given === 0 && !told))
    findings.fault(at, {
      problem:
        given === 2 ? "the place of the reinforcement is given twice" : "it is not said where the reinforcement lies",
      accepted: "either depth_mm or position",
    });
  if (position !== undefined && position !== "below overlay" && interlayer === undefined)
    findings.fault([...at, "position"], {
      problem: "the treatment has no interlayer",
      accepted: "below overlay, depth_mm, or an interlayer in the same treatment",
    });
  const courses = courseThicknesses(document, changes);
  const added = interlayer?.within_overlay ? 0 : interlayer ? interlayer.thickness_mm : 0;
  if (courses.length === 0 || courses.includes(undefined) || added === undefined) return;
  const bottom = (courses as number[]).reduce((sum, h) => sum + h, 0) + added;
  if (depth !== undefined && depth > bottom)
    findings.fault([...at, "depth_mm"], {
      problem: "the reinforcement lies below the overlay and interlayer, where no crack grows",
      accepted: `at most ${bottom} mm, the thickness of overlay and interlayer`,
    });
  if (height > bottom)
    findings.fault([...at, "height_mm"], {
      problem: "the pull of the reinforcement is spread over more than the overlay and interlayer",
      accepted: `at most ${bottom} mm`,
    });
}

function checkOverlayThickness(
  document: Partially<StudyDocument>,
  changes: Changes,
  path: DocumentPath,
  findings: Findings,
): void {
  if (changes.overlay_thickness_mm === undefined) return;
  const courses = layersOf(document).filter(layer => layer?.role === "overlay");
  const names = courses.map(layer => layer?.name ?? "?");
  if (courses.length > 1)
    findings.fault([...path, "overlay_thickness_mm"], {
      problem: `the overlay has ${courses.length} courses, so it is open which of them changes`,
      accepted: `changes.layers with name (${names.join(", ")}) and thickness_mm`,
    });
  const twice = changes.layers?.findIndex(
    change => change?.thickness_mm !== undefined && names.includes(change.name ?? ""),
  );
  if (courses.length === 1 && twice !== undefined && twice >= 0)
    findings.fault([...path, "layers", twice, "thickness_mm"], {
      problem: "the thickness of the overlay is given twice",
      accepted: "either overlay_thickness_mm or thickness_mm of the layer",
    });
}

/** A thinner foundation or a deeper cut of the treatment. */
function checkTreatedCut(
  document: Partially<StudyDocument>,
  changes: Changes,
  path: DocumentPath,
  findings: Findings,
): void {
  if (changes.layers === undefined && changes.joint?.cut_into_foundation_mm === undefined) return;
  const foundation = layersOf(document).filter(layer => layer?.role === "foundation");
  if (layersOf(document).length === 0 || layersOf(document).some(layer => layer?.role === undefined)) return;
  let depth = 0;
  for (const layer of foundation) {
    const change = changes.layers?.find(other => other?.name !== undefined && other.name === layer?.name);
    depth += change?.thickness_mm ?? layer?.thickness_mm ?? Infinity;
  }
  const given = changes.joint?.cut_into_foundation_mm ?? document.section?.joint?.cut_into_foundation_mm;
  checkCut(given, depth, [...path, "joint"], findings);
}

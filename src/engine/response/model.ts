/**
 * What a section's response is computed on: two meshes, one with elements of the other halved, their crack states and the
 * wavenumbers, all by the accuracy asked for; and what its layers are made of. Theory: docs/theory/response.md.
 */
import {InputError} from "../errors.ts";
import type {Section} from "../section/index.ts";
import {bondBelow, buildMesh, interfaceDepths, type MeshOptions, thicknessOf} from "../section/index.ts";
import {type Lame, lame} from "./element.ts";
import {type LineModel, lineModel, type Stiffnesses} from "./line.ts";
import {type Wavenumbers, wavenumbers} from "./loads.ts";
import {type CrackLengths, type CrackWay, crackLengths, type StateSpace, stateSpace, tipDepths} from "./states.ts";
import type {PathMaterial} from "./sweep.ts";

/** A mesh pair with its crack states: everything that does not depend on temperature. */
export interface Geometry {
  readonly section: Section;
  readonly meshes: readonly {readonly model: LineModel; readonly space: StateSpace}[]; // coarse, then halved
  readonly waves: Wavenumbers;
  readonly corrections: Wavenumbers; // some of them, at which the halved mesh is solved too
}

export interface GeometryOptions {
  readonly accuracy: number; // relative, in tip strain [–]
  readonly reach: number; // farthest edge of a wheel patch [m]; 0: no wheels, domain to mid-slab, thermal cases only
  readonly cracks?: CrackLengths; // lengths to solve; default: those of `crackLengths`
  readonly rows?: readonly number[]; // further row lines [m]
}

/** Sizes by the accuracy asked for, as measured in docs/theory/response.md. */
export function meshSizes(
  section: Section,
  accuracy: number,
): {rowSize: number; finest: number; neighbour: number; waveCount: number; crackStep: number} {
  // An interlayer's own rows follow from its crack lengths; the overlay sets the size elsewhere.
  const overlay = section.layers.filter(l => l.role === "overlay");
  const thickness = thicknessOf(section.layers, "overlay") || section.layers[0].thickness;
  const zoneLength = Math.min(...overlay.map(l => l.material.growth?.zoneLength ?? Infinity), thickness / 4);
  const factor = Math.sqrt(accuracy / 0.01); // an extrapolated pair converges with the square of the size or better
  const soft = section.layers.some(l => l.role === "interlayer");
  return {
    // Rows longer than half a process zone do not tell its mean: lives would be 15 % long (docs/precision.md).
    rowSize: Math.min(0.5 * zoneLength, thickness / 8) * Math.min(factor, 1),
    // A tip in a soft interlayer on the joint's corner converges slowest of all.
    finest: (soft ? 3e-6 : 4e-5) * Math.min(accuracy / 0.01, 2),
    neighbour: (soft ? 1e-4 : 1e-3) * Math.min(accuracy / 0.01, 2),
    crackStep: 2.5e-3 * Math.min(factor, 1.5),
    waveCount: Math.max(10, Math.ceil(14 + 4 * Math.log2(0.01 / accuracy))),
  };
}

/**
 * The wavenumbers in groups, by their places: those at which the halved mesh is solved too, a third of all, and the others.
 * Chebyshev roots: those of a third as many are every third of them.
 */
export function waveGroups(
  section: Section,
  accuracy: number,
): {readonly corrected: readonly number[]; readonly between: readonly (readonly number[])[]} {
  const third = Math.ceil(meshSizes(section, accuracy).waveCount / 3);
  const [before, corrected, after] = [0, 1, 2].map(first => Array.from({length: third}, (_, k) => 3 * k + first));
  return {corrected, between: [before, after]};
}

/** The model ends so far from the joint [m] or 2½ slabs, whichever is farther, always in the middle of a slab. */
const SHORTEST_EXTENT = 4.5;

/** Number of joint spacings to the far boundary. */
export function modelledSlabs(spacing: number): number {
  return Math.max(2, Math.ceil(SHORTEST_EXTENT / spacing)) + 0.5;
}

function crackWay(section: Section): CrackWay {
  const {layers} = section;
  const depths = interfaceDepths(layers);
  const changes = [...depths].filter(
    (_, k) =>
      layers[k]?.role === "overlay" &&
      layers[k - 1] &&
      (layers[k].material.name !== layers[k - 1].material.name || bondBelow(section, k - 1) < Infinity),
  );
  const zones = layers.filter(l => l.role === "overlay").map(l => l.material.growth?.zoneLength ?? Infinity);
  return {
    overlayThickness: thicknessOf(layers, "overlay"),
    interlayerThickness: thicknessOf(layers, "interlayer"),
    changes,
    clear: Math.min(...zones, thicknessOf(layers, "overlay")) / 2,
  };
}

export function responseGeometry(section: Section, options: GeometryOptions): Geometry {
  const {rowSize, finest, neighbour, crackStep} = meshSizes(section, options.accuracy);
  const {corrected} = waveGroups(section, options.accuracy);
  const cracks = options.cracks ?? crackLengths(crackWay(section), crackStep);
  const thermal = options.reach === 0;
  const model = (halved: MeshOptions["halved"]): LineModel =>
    lineModel(
      buildMesh(section, {
        rowSize,
        finest,
        neighbour,
        halved,
        tips: [...tipDepths(cracks), ...(options.rows ?? [])],
        reach: options.reach,
        extent: thermal ? "mid-slab" : {spacings: modelledSlabs(section.joint.spacing)},
      }),
      thermal ? THERMAL_CASES : 0,
    );
  const waves = wavenumbers(3 * corrected.length, waveScale(section), LAST_WAVE);
  const corrections = {...waves, beta: Float64Array.from(corrected, k => waves.beta[k])};
  return {
    section,
    meshes: [pair(model(false), cracks), pair(model(thermal || "near joints"), cracks)],
    waves,
    corrections,
  };
}

function pair(model: LineModel, cracks: CrackLengths): Geometry["meshes"][number] {
  return {model, space: stateSpace(model, cracks)};
}

/**
 * Farthest step of crack lengths in a beam, of the overlay's thickness, at an accuracy of 1 % [–]. Cracks that near each other
 * in a bent beam almost stop: between few lengths the least strain, which decides how long, would be missed.
 */
const BEAM_STEP = 0.06;

/**
 * A beam of one joint spacing's length, cut in its middle, its ends free, alike across its width: plane strain, one
 * wavenumber, β = 0. Give plane-stress constants through the moduli and Poisson's ratios.
 */
export function beamGeometry(section: Section, accuracy: number): Geometry {
  const {rowSize, finest, crackStep} = meshSizes(section, accuracy);
  const longest = BEAM_STEP * Math.min(Math.sqrt(accuracy / 0.01), 2);
  const cracks = crackLengths(crackWay(section), crackStep, longest);
  const reach = section.joint.spacing / 2; // wheels run on the whole beam
  const model = (halved: boolean): LineModel =>
    lineModel(buildMesh(section, {rowSize, finest, halved, tips: tipDepths(cracks), reach, extent: "free end"}));
  const waves: Wavenumbers = {beta: Float64Array.of(0), scale: 1, last: 0};
  return {
    section,
    meshes: [pair(model(false), cracks), pair(model(true), cracks)],
    waves,
    corrections: waves,
  };
}

/** Mean contraction and gradient of the jointed layers, contraction of the overlay. */
export const THERMAL_CASES = 3;

/** Beyond this wavenumber nothing reaches a zone of some millimetres at the surface [1/m]. */
const LAST_WAVE = 300;

/** H of the wavenumber mapping: depth to the rigid base, or on springs twice the radius of relative stiffness [m]. */
export function waveScale(section: Section): number {
  const total = interfaceDepths(section.layers)[section.layers.length];
  if (section.base.kind === "rigid") return total;
  const rigidity = section.layers
    .filter(l => l.role === "jointed")
    .reduce(
      (sum, {material, thickness}) =>
        sum + (material.modulus[0].modulus * thickness ** 3) / (12 * (1 - material.poisson ** 2)),
      0,
    );
  return total + 2 * (rigidity / section.base.stiffness) ** 0.25;
}

/** Moduli of the layers at hand, everything else from the section. */
export interface Condition {
  readonly moduli: readonly number[]; // by layer [Pa]
  readonly transfer: number; // q [Pa/m]
}

export function stiffnesses(section: Section, condition: Condition): Stiffnesses {
  const constants: Lame[] = section.layers.map((l, k) => lame(condition.moduli[k], l.material.poisson));
  const {stiffness: base, shear: baseShear = 0} = section.base.kind === "springs" ? section.base : {stiffness: 0};
  const bonds = section.layers.map((_, k) => bondBelow(section, k));
  return {lame: constants, bonds, transfer: condition.transfer, base, baseShear};
}

export function pathMaterial(section: Section, model: LineModel, condition: Condition): PathMaterial {
  const rows = (model.path.length - 1) / 2;
  const opening = new Float64Array(rows);
  const shear = new Float64Array(rows);
  const zoneLength = new Float64Array(rows);
  const layer = new Int32Array(rows);
  const kind = new Int32Array(rows);
  for (let row = 0; row < rows; row++) {
    layer[row] = model.mesh.pathLayers[row];
    if (layer[row] < 0) {
      kind[row] = -1; // no length: neither stiffness nor zone
      continue;
    }
    const {material, name, role} = section.layers[layer[row]];
    kind[row] = section.layers.findIndex(l => l.material.name === material.name && l.role === role);
    if (!material.growth) throw new InputError("domain", `layer ${name}`, "no growth law", "one: a crack can run here");
    opening[row] = condition.moduli[layer[row]] / (1 - material.poisson ** 2);
    shear[row] = condition.moduli[layer[row]] / (2 * (1 + material.poisson));
    zoneLength[row] = material.growth.zoneLength;
  }
  return {opening, shear, zoneLength, layer, kind};
}

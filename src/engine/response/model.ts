/**
 * The response of one section to one wheel: for every wavenumber, wheel position and crack state, the mean tractions
 * over the process zones ahead of the tips. Two meshes, one with every element of the other halved, are extrapolated to
 * zero element size. Theory: docs/theory/response.md.
 */
import {Cancelled, InputError} from "../errors.ts";
import type {Section} from "../section/index.ts";
import {buildMesh, interfaceDepths, type MeshOptions, thicknessOf} from "../section/index.ts";
import {type Lame, lame} from "./element.ts";
import {condense, type LineModel, lineModel, type Stiffnesses} from "./line.ts";
import {lagrangeBasis, type Wavenumbers, wavenumbers, wheelLoads} from "./loads.ts";
import {antisymmetricPart, contactSegments, symmetricPart} from "./parts.ts";
import {
  type CrackLengths,
  type CrackWay,
  crackLengths,
  halvedSpace,
  type StateSpace,
  stateSpace,
  tipDepths,
} from "./states.ts";
import {openingCombinations, type PathMaterial, shearCombinations, stateZones, sweepStates, TIPS} from "./sweep.ts";
import {addInterpolated, addOpening, addShear, type Tables} from "./tables.ts";

/** Wheels of one patch length along x and the positions at which they are solved. */
export interface Patch {
  readonly length: number; // 2a [m]
  readonly centres: Float64Array; // ascending from 0 [m]
}

/** A mesh pair with its crack states: everything that does not depend on temperature. */
export interface Geometry {
  readonly section: Section;
  readonly meshes: readonly {readonly model: LineModel; readonly space: StateSpace}[]; // coarse, then halved
  readonly waves: Wavenumbers;
  readonly corrections: Wavenumbers; // at which the halved mesh is solved too
}

export interface GeometryOptions {
  readonly accuracy: number; // relative, in tip strain [–]
  readonly reach: number; // farthest edge of a wheel patch [m]; 0: no wheels, domain to mid-slab, thermal cases only
  readonly cracks?: CrackLengths; // lengths to solve; default: those of `crackLengths`
  readonly rows?: readonly number[]; // further row lines [m]
}

/** Tables [state][centre][quantity][wavenumber] for one patch. */
export interface Response {
  readonly geometry: Geometry;
  readonly space: StateSpace; // of the halved mesh
  readonly patch: Patch;
  readonly patterns: number; // contact patterns, 2^segments: bit s set where segment s is closed
  readonly quantities: number; // opening: the three tips, then the segments
  /** By pattern: σx means; of each segment its mean opening [m] where open, its pressure [Pa] where closed. To unit pressure. */
  readonly opening: readonly Float64Array[];
  readonly shear: Float64Array; // τxz at the three tips, then τxy at the three tips
}

/** Sizes by the accuracy asked for, as measured in docs/theory/response.md. */
export function meshSizes(
  section: Section,
  accuracy: number,
): {rowSize: number; finest: number; waveCount: number; crackStep: number} {
  // An interlayer's own rows follow from its crack lengths; the overlay sets the size elsewhere.
  const overlay = section.layers.filter(l => l.role === "overlay");
  const thickness = thicknessOf(section.layers, "overlay") || section.layers[0].thickness;
  const zoneLength = Math.min(...overlay.map(l => l.material.growth?.zoneLength ?? Infinity), thickness / 4);
  const factor = Math.sqrt(accuracy / 0.01); // an extrapolated pair converges with the square of the size or better
  return {
    rowSize: Math.min(0.5 * zoneLength, thickness / 8) * Math.min(factor, 1.5),
    // A tip in a soft interlayer on the joint's corner converges slowest of all.
    finest: (section.layers.some(l => l.role === "interlayer") ? 3e-6 : 4e-5) * Math.min(accuracy / 0.01, 2),
    crackStep: 2.5e-3 * Math.min(factor, 1.5),
    waveCount: Math.max(10, Math.ceil(14 + 4 * Math.log2(0.01 / accuracy))),
  };
}

/** The model ends so far from the joint [m] or 2½ slabs, whichever is farther, always in the middle of a slab. */
const SHORTEST_EXTENT = 4.5;

/** Number of joint spacings to the far boundary. */
export function modelledSlabs(spacing: number): number {
  return Math.max(2, Math.ceil(SHORTEST_EXTENT / spacing)) + 0.5;
}

function crackWay({layers}: Section): CrackWay {
  const depths = interfaceDepths(layers);
  const changes = [...depths].filter(
    (_, k) => layers[k]?.role === "overlay" && layers[k - 1] && layers[k].material.name !== layers[k - 1].material.name,
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
  const {rowSize, finest, waveCount, crackStep} = meshSizes(section, options.accuracy);
  const thirdOfWaves = Math.ceil(waveCount / 3);
  const cracks = options.cracks ?? crackLengths(crackWay(section), crackStep);
  const thermal = options.reach === 0;
  const model = (halved: MeshOptions["halved"]): LineModel =>
    lineModel(
      buildMesh(section, {
        rowSize,
        finest,
        halved,
        tips: [...tipDepths(cracks), ...(options.rows ?? [])],
        reach: options.reach,
        extent: thermal ? "mid-slab" : {spacings: modelledSlabs(section.joint.spacing)},
      }),
      thermal ? THERMAL_CASES : 0,
    );
  const coarse = model(false);
  const space = stateSpace(coarse, cracks);
  return {
    section,
    meshes: [
      {model: coarse, space},
      {model: model(thermal || "near joints"), space: halvedSpace(space)},
    ],
    waves: wavenumbers(3 * thirdOfWaves, waveScale(section), LAST_WAVE),
    corrections: wavenumbers(thirdOfWaves, waveScale(section), LAST_WAVE),
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
  const base = section.base.kind === "springs" ? section.base.stiffness : 0;
  const friction = Number.isFinite(section.slabFriction) ? section.slabFriction : 0;
  return {lame: constants, slabFriction: friction, transfer: condition.transfer, base};
}

export function pathMaterial(section: Section, model: LineModel, condition: Condition): PathMaterial {
  const rows = (model.path.length - 1) / 2;
  const opening = new Float64Array(rows);
  const shear = new Float64Array(rows);
  const zoneLength = new Float64Array(rows);
  const layer = new Int32Array(rows);
  const kind = new Int32Array(rows);
  for (let row = 0; row < rows; row++) {
    layer[row] = model.mesh.layerOfRow[row];
    const {material, name, role} = section.layers[layer[row]];
    kind[row] = section.layers.findIndex(l => l.material.name === material.name && l.role === role);
    if (!material.growth) throw new InputError("domain", `layer ${name}`, "no growth law", "one: a crack can run here");
    opening[row] = condition.moduli[layer[row]] / (1 - material.poisson ** 2);
    shear[row] = condition.moduli[layer[row]] / (2 * (1 + material.poisson));
    zoneLength[row] = material.growth.zoneLength;
  }
  return {opening, shear, zoneLength, layer, kind};
}

/** What is added to the coarse result, in differences of the halved mesh from it: an error of first order in the size cancels. */
const CORRECTION = 2;

/**
 * The coarse mesh at every wavenumber, plus the correction by the halved mesh at half as many, interpolated: it is small
 * and as smooth.
 *
 * @param onProgress called after each wavenumber with the part done; returning false cancels
 * @throws Cancelled
 */
export function respond(
  geometry: Geometry,
  condition: Condition,
  patches: readonly Patch[],
  onProgress: (part: number) => boolean = () => true,
): Response[] {
  const {section, meshes, waves, corrections} = geometry;
  const states = meshes[0].space.states.length;
  const patterns = 1 << contactSegments(meshes[0].model, section.joint.facesTouch).length;
  const quantities = TIPS.length + Math.log2(patterns);
  const tablesOf = (w: Wavenumbers): Tables[] =>
    patches.map(({centres}) => {
      const size = states * centres.length * w.beta.length;
      return {
        waves: w.beta.length,
        quantities,
        opening: Array.from({length: patterns}, () => new Float64Array(size * quantities)),
        shear: new Float64Array(size * 2 * TIPS.length),
      };
    });
  const tables = tablesOf(waves);
  const differences = tablesOf(corrections);
  const solve = meshes.map(mesh => waveSolver(mesh, section, condition, patches));
  const total = waves.beta.length + HALVED_COST * corrections.beta.length;
  let done = 0;
  const step = (cost: number): void => {
    done += cost;
    if (!onProgress(done / total)) throw new Cancelled();
  };
  waves.beta.forEach((beta, k) => {
    solve[0](beta, tables, k, 1);
    step(1);
  });
  corrections.beta.forEach((beta, j) => {
    solve[0](beta, differences, j, -CORRECTION);
    solve[1](beta, differences, j, CORRECTION);
    step(HALVED_COST);
  });
  const basisAt = lagrangeBasis(corrections);
  const basis = Array.from(waves.beta, beta => basisAt(beta).slice());
  return patches.map((patch, r) => {
    tables[r].opening.forEach((table, p) => {
      addInterpolated(table, differences[r].opening[p], basis);
    });
    addInterpolated(tables[r].shear, differences[r].shear, basis);
    const {opening, shear} = tables[r];
    return {geometry, space: meshes[1].space, patch, patterns, quantities, opening, shear};
  });
}

/** Time of a wavenumber on both meshes over that on the coarse one, for the progress told. */
const HALVED_COST = 8;

/** For one mesh: solves one wavenumber and adds `factor` times its results at place k of every patch's tables. */
function waveSolver(
  {model, space}: Geometry["meshes"][number],
  section: Section,
  condition: Condition,
  patches: readonly Patch[],
): (beta: number, tables: readonly Tables[], k: number, factor: number) => void {
  const stiff = stiffnesses(section, condition);
  const material = pathMaterial(section, model, condition);
  const zones = space.states.map(state => stateZones(model, space, material, state));
  const opening = zones.map(openingCombinations);
  const shear = zones.map(shearCombinations);
  const segments = contactSegments(model, section.joint.facesTouch);
  const loads = patches.map(({length, centres}) => ({
    even: wheelLoads(model.mesh, length, centres, "symmetric"),
    odd: wheelLoads(model.mesh, length, centres, "antisymmetric"),
  }));
  return (beta, tables, k, factor) => {
    const S = condense(model, stiff, beta);
    tables.forEach((table, r) => {
      const symmetric = symmetricPart(model, S, loads[r].even, segments);
      sweepStates(
        model.kernel,
        space,
        symmetric,
        1,
        state => opening[state],
        (state, values) => {
          addOpening({tables: table, state, k, factor}, values);
        },
      );
      const antisymmetric = antisymmetricPart(model, S, loads[r].odd, condition.transfer, section.crackInterlock);
      sweepStates(
        model.kernel,
        space,
        antisymmetric,
        2,
        state => shear[state],
        (state, values) => {
          addShear({tables: table, state, k, factor}, values);
        },
      );
    });
  };
}

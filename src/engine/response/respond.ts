/**
 * The response of one section to one wheel: for every wavenumber, wheel position and crack state, the mean tractions
 * over the process zones ahead of the tips, extrapolated from two meshes to zero element size. Each wavenumber on each mesh
 * is a computation of its own, so that they can be shared out. Theory: docs/theory/response.md.
 */
import {Cancelled, InputError} from "../errors.ts";
import {condense, type LineModel} from "./line.ts";
import {type SurfaceLoads, type Wavenumbers, wheelLoads} from "./loads.ts";
import {type Condition, type Geometry, pathMaterial, stiffnesses} from "./model.ts";
import {antisymmetricPart, contactSegments, symmetricPart} from "./parts.ts";
import {openingCombinations, shearCombinations, sweepStates, zonesOf} from "./sweep.ts";
import {addInterpolated, addScaled, emptyTables, type Patch, type ResponseTables, type WaveValues} from "./tables.ts";
import {tieOf} from "./tie.ts";

/** Index into `Geometry.meshes`. */
export const COARSE = 0;
export const HALVED = 1;
export type MeshOfPair = typeof COARSE | typeof HALVED;

/** For one mesh and one condition: what a wavenumber gives. */
export function waveSolver(
  {section, meshes}: Geometry,
  mesh: MeshOfPair,
  condition: Condition,
  patches: readonly Patch[],
): (beta: number) => WaveValues {
  const {model, space} = meshes[mesh];
  const stiff = stiffnesses(section, condition);
  const material = pathMaterial(section, model, condition);
  const zones = space.states.map(zonesOf(model, space, material));
  const openings = zones.map(openingCombinations);
  const shears = zones.map(shearCombinations);
  const segments = contactSegments(model, section.joint.facesTouch);
  const tie = tieOf(model, section);
  const even = allWheels(model, patches, "symmetric");
  const odd = allWheels(model, patches, "antisymmetric");
  const S = new Float64Array(model.size ** 2); // megabytes: used again
  return beta => {
    condense(model, stiff, beta, [], S);
    const gathered = (
      tableau: ReturnType<typeof symmetricPart>,
      perNode: 1 | 2,
      wanted: typeof openings,
    ): Float64Array => {
      const quantities = wanted[0].length + tableau.segmentLengths.length;
      const size = quantities * tableau.loads;
      const out = new Float64Array(wanted.length * size);
      sweepStates(
        model.kernel,
        space,
        tableau,
        perNode,
        state => wanted[state],
        (state, values) => out.set(values, state * size),
      );
      return out;
    };
    return {
      opening: gathered(symmetricPart(model, S, even, segments, tie), 1, openings),
      shear: gathered(antisymmetricPart(model, S, odd, condition.transfer, section.crackInterlock), 2, shears),
    };
  };
}

/** Wheels of all patches, one patch after the other. */
function allWheels({mesh}: LineModel, patches: readonly Patch[], part: "symmetric" | "antisymmetric"): SurfaceLoads {
  const loads = patches.map(({length, centres}) => wheelLoads(mesh, length, centres, part));
  return {
    count: loads.reduce((sum, {count}) => sum + count, 0),
    values: Float64Array.from(loads.flatMap(({values}) => [...values])),
  };
}

/** @param values of each of the geometry's wavenumbers on the coarse mesh */
export function coarseTables(
  geometry: Geometry,
  patches: readonly Patch[],
  values: readonly WaveValues[],
): ResponseTables {
  return tablesOf(geometry, geometry.waves, patches, values);
}

/** What is added to the coarse result, in differences of the halved mesh from it: an error of first order in the size cancels. */
const CORRECTION = 2;

/** One temperature at which both meshes are solved. */
export interface SolvedPair {
  readonly weight: number; // of this one in a sum over some of them [–]
  readonly coarse: readonly WaveValues[]; // by the corrections' wavenumbers
  readonly halved: readonly WaveValues[]; // the same
}

/** What the halved mesh adds, at the wavenumbers of `geometry.corrections`: the weighted sum of what it adds in each pair. */
export function correctionTables(
  geometry: Geometry,
  patches: readonly Patch[],
  pairs: readonly SolvedPair[],
): ResponseTables {
  const tables = tablesOf(geometry, geometry.corrections, patches, []);
  for (const {weight, coarse, halved} of pairs) {
    for (const name of ["opening", "shear"] as const) {
      const out = tables[name];
      halved.forEach((own, j) => {
        const part = out.subarray(j * own[name].length, (j + 1) * own[name].length);
        addScaled(part, CORRECTION * weight, own[name]);
        addScaled(part, -CORRECTION * weight, coarse[j][name]);
      });
    }
  }
  return tables;
}

/** Where the corrections' wavenumbers stand among all. */
function correctedWaves({waves, corrections}: Geometry): number[] {
  return Array.from(corrections.beta, beta => {
    const at = waves.beta.indexOf(beta);
    if (at < 0) throw new InputError("domain", "corrections.beta", beta, "one of the wavenumbers [1/m]");
    return at;
  });
}

function tablesOf(
  {section, meshes}: Geometry,
  waves: Wavenumbers,
  patches: readonly Patch[],
  values: readonly WaveValues[],
): ResponseTables {
  const states = meshes[COARSE].space.states.length;
  const segments = contactSegments(meshes[COARSE].model, section.joint.facesTouch).length;
  const tables = emptyTables(waves, patches, {states, segments});
  values.forEach(({opening, shear}, k) => {
    tables.opening.set(opening, k * opening.length);
    tables.shear.set(shear, k * shear.length);
  });
  return tables;
}

/** Time of a wavenumber on the halved mesh over that on the coarse one, for the progress told. */
const HALVED_COST = 5;

/**
 * The coarse mesh at every wavenumber, plus the correction by the halved mesh at a third of them, interpolated: it is small
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
): ResponseTables {
  const {waves, corrections} = geometry;
  const total = waves.beta.length + HALVED_COST * corrections.beta.length;
  let done = 0;
  const solved = (mesh: MeshOfPair, betas: Float64Array): WaveValues[] => {
    const solve = waveSolver(geometry, mesh, condition, patches);
    return Array.from(betas, beta => {
      const values = solve(beta);
      done += mesh === COARSE ? 1 : HALVED_COST;
      if (!onProgress(done / total)) throw new Cancelled();
      return values;
    });
  };
  const coarse = solved(COARSE, waves.beta);
  const halved = solved(HALVED, corrections.beta);
  return responseTables(geometry, patches, coarse, halved);
}

/**
 * The tables of one condition from what each wavenumber gave.
 *
 * @param coarse  by wavenumber
 * @param halved  by the corrections' wavenumbers
 */
export function responseTables(
  geometry: Geometry,
  patches: readonly Patch[],
  coarse: readonly WaveValues[],
  halved: readonly WaveValues[],
): ResponseTables {
  const tables = coarseTables(geometry, patches, coarse);
  const corrected = correctedWaves(geometry).map(k => coarse[k]);
  addInterpolated(tables, correctionTables(geometry, patches, [{weight: 1, coarse: corrected, halved}]));
  return tables;
}

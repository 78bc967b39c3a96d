/**
 * Load transfer across the joint: the spring that gives a measured deflection efficiency, and the efficiency of a spring.
 * Efficiency is w(0−)/w(0+) at y = 0 on the bare jointed layer, the wheel's edge on the loaded edge of the joint.
 */
import {InputError} from "../errors.ts";
import type {Section} from "../section/index.ts";
import {buildMesh, isPath} from "../section/index.ts";
import {solveDirect} from "./direct.ts";
import {condense, lineModel} from "./line.ts";
import {inverseWeights, type Wavenumbers, wavenumbers, wheelLoads} from "./loads.ts";
import {type Condition, meshSizes, modelledSlabs, stiffnesses, waveScale} from "./model.ts";

export interface EdgeWheel {
  readonly length: number; // [m]
  readonly width: number; // [m]
  readonly pressure: number; // [Pa]
}

export interface EdgeDeflections {
  readonly loaded: number; // [m]
  readonly unloaded: number; // [m]
}

/** Edge deflections of the bare jointed layer as a function of the load-transfer spring q [Pa/m]. */
export function edgeDeflections(
  section: Section,
  moduli: readonly number[],
  wheel: EdgeWheel,
  accuracy: number,
): (q: number) => EdgeDeflections {
  const first = section.layers.findIndex(l => !isPath(l.role));
  const bare: Section = {...section, layers: section.layers.slice(first), joint: {...section.joint, unbondedStrip: 0}};
  const {rowSize, waveCount} = meshSizes(section, accuracy);
  const half = section.joint.width / 2;
  const mesh = buildMesh(bare, {
    rowSize,
    finest: rowSize / 2,
    halved: false,
    tips: [],
    extent: {spacings: modelledSlabs(section.joint.spacing)},
    reach: half + 2 * wheel.length,
  });
  const model = lineModel(mesh);
  const waves: Wavenumbers = wavenumbers(waveCount, waveScale(bare), 60);
  const centre = Float64Array.of(half + wheel.length / 2);
  const {even} = inverseWeights(waves, Float64Array.of(0), [{centre: 0, width: wheel.width, pressure: wheel.pressure}]);
  const condition = (q: number): Condition => ({moduli: moduli.slice(first), transfer: q});
  const edge = model.surface[0];
  const solve = (S: Float64Array, part: "symmetric" | "antisymmetric", q: number): number => {
    const request = {part, tied: () => false, transfer: q, interlock: 0, contact: []};
    return solveDirect(model, S, request, wheelLoads(mesh, wheel.length, centre, part)).displacement[edge];
  };
  // The neighbouring joints carry the same spring, but a whole slab away: their share is left at that of the first guess.
  const matrices = Array.from(waves.beta, b => condense(model, stiffnesses(bare, condition(0)), b));
  const symmetric = matrices.reduce((sum, S, k) => sum + even[k] * solve(S, "symmetric", 0), 0);
  return q => {
    const odd = matrices.reduce((sum, S, k) => sum + even[k] * solve(S, "antisymmetric", q), 0);
    return {loaded: symmetric + odd, unloaded: symmetric - odd};
  };
}

export interface TransferSpring {
  readonly stiffness: number; // q [Pa/m]
  readonly efficiency: number; // [–]
  /** Set when the foundation alone transfers more than was asked for: the spring is then zero. */
  readonly floor: boolean;
}

const SMALLEST_SPRING = 1e5; // [Pa/m]: under it nothing changes
const LARGEST_SPRING = 1e14; // [Pa/m]

/** @throws InputError "domain" when no spring reaches the efficiency */
export function transferSpring(
  section: Section,
  moduli: readonly number[],
  wheel: EdgeWheel,
  accuracy: number,
): TransferSpring {
  const deflections = edgeDeflections(section, moduli, wheel, accuracy);
  const efficiency = (q: number): number => {
    const {loaded, unloaded} = deflections(q);
    return unloaded / loaded;
  };
  const {transfer} = section.joint;
  if (transfer.kind === "spring")
    return {stiffness: transfer.stiffness, efficiency: efficiency(transfer.stiffness), floor: false};
  const lowest = efficiency(0);
  if (lowest >= transfer.efficiency) return {stiffness: 0, efficiency: lowest, floor: true};
  let low = Math.log(SMALLEST_SPRING);
  let high = Math.log(LARGEST_SPRING);
  if (efficiency(LARGEST_SPRING) < transfer.efficiency) {
    throw new InputError(
      "domain",
      "joint.transfer.efficiency",
      transfer.efficiency,
      `< ${efficiency(LARGEST_SPRING)} [–]`,
    );
  }
  while (high - low > 1e-3) {
    const middle = (low + high) / 2;
    if (efficiency(Math.exp(middle)) < transfer.efficiency) low = middle;
    else high = middle;
  }
  const stiffness = Math.exp((low + high) / 2);
  return {stiffness, efficiency: efficiency(stiffness), floor: false};
}

/**
 * Load transfer across the joint: the spring that gives a measured deflection efficiency, and the efficiency of a spring.
 * Efficiency is w(0−)/w(0+) at y = 0 on the bare jointed layer, the wheel's edge on the loaded edge of the joint; of a
 * deflection test, the ratio of its two sensors, with the plate where it stood.
 */
import {InputError} from "../errors.ts";
import {buildMesh, type DeflectionTest, isPath, modulusAt, type Section} from "../section/index.ts";
import {solveDirect} from "./direct.ts";
import {condense, type LineModel, lineModel} from "./line.ts";
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

/** Where the load stands and deflections are wanted, at y = 0. */
interface Places {
  readonly wheel: EdgeWheel;
  readonly centre: number; // of the wheel, from the joint plane [m]
  readonly loaded: number; // on the wheel's side, from the joint plane [m]
  readonly unloaded: number; // on the other side [m]
  readonly reach: number; // of the surface that is kept [m]
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
  const half = section.joint.width / 2;
  const places = {
    wheel,
    centre: half + wheel.length / 2,
    loaded: half,
    unloaded: half,
    reach: half + 2 * wheel.length,
  };
  const {rowSize, waveCount} = meshSizes(section, accuracy);
  return deflectionsAcross(bare, moduli.slice(first), places, {rowSize, waveCount});
}

/** Deflections of a cracked-through section on either side of the joint. */
function deflectionsAcross(
  section: Section,
  moduli: readonly number[],
  {wheel, centre, loaded, unloaded, reach}: Places,
  {rowSize, waveCount}: {readonly rowSize: number; readonly waveCount: number},
): (q: number) => EdgeDeflections {
  const mesh = buildMesh(section, {
    rowSize,
    finest: rowSize / 2,
    halved: false,
    tips: [],
    extent: {spacings: modelledSlabs(section.joint.spacing)},
    reach,
  });
  const model = lineModel(mesh);
  const waves: Wavenumbers = wavenumbers(waveCount, waveScale(section), 60);
  const {even} = inverseWeights(waves, Float64Array.of(0), [{centre: 0, width: wheel.width, pressure: wheel.pressure}]);
  const condition = (q: number): Condition => ({moduli, transfer: q});
  const sensors = [loaded, unloaded].map(x => surfaceAt(model, x));
  const solve = (S: Float64Array, part: "symmetric" | "antisymmetric", q: number): number[] => {
    const request = {part, tied: () => false, transfer: q, interlock: 0, contact: []};
    const loads = wheelLoads(mesh, wheel.length, Float64Array.of(centre), part);
    const {displacement} = solveDirect(model, S, request, loads);
    return sensors.map(sensor => sensor(displacement));
  };
  // The neighbouring joints carry the same spring, but a whole slab away: their share is left at that of the first guess.
  const matrices = Array.from(waves.beta, b => condense(model, stiffnesses(section, condition(0)), b));
  const sum = (part: "symmetric" | "antisymmetric", q: number): number[] => {
    const found = matrices.map(S => solve(S, part, q));
    return sensors.map((_, s) => found.reduce((total, w, k) => total + even[k] * w[s], 0));
  };
  const symmetric = sum("symmetric", 0);
  return q => {
    const odd = sum("antisymmetric", q);
    return {loaded: symmetric[0] + odd[0], unloaded: symmetric[1] - odd[1]};
  };
}

/** W of the surface at a distance from the joint, from the displacements of all kept unknowns. */
function surfaceAt({mesh, surface}: LineModel, x: number): (displacement: Float64Array) => number {
  const nodes = mesh.surface;
  let k = 0;
  while (k + 4 < nodes.length && nodes[k + 2].x < x) k += 2;
  const t = (2 * (x - nodes[k].x)) / (nodes[k + 2].x - nodes[k].x) - 1;
  if (!(Math.abs(t) <= 1 + 1e-9))
    throw new InputError("domain", "sensor", x, `${nodes[0].x} to ${nodes[nodes.length - 1].x} from the joint [m]`);
  const shape = [0.5 * t * (t - 1), 1 - t * t, 0.5 * t * (t + 1)];
  return displacement => shape.reduce((sum, N, j) => (N === 0 ? sum : sum + N * displacement[surface[k + j]]), 0);
}

export interface TransferSpring {
  readonly stiffness: number; // q [Pa/m]
  readonly efficiency: number; // on the bare jointed layer [–]
  /** Set when the foundation alone transfers more than was asked for: the spring is then zero. */
  readonly floor: boolean;
  readonly tested?: readonly TestedPosition[]; // of a deflection test
}

/** What one position of a deflection test gives. */
export interface TestedPosition {
  readonly name: DeflectionTest["positions"][number]["name"];
  readonly efficiency: number; // measured, unloaded over loaded [–]
  readonly stiffness: number; // q that gives it [Pa/m]
  readonly floor: boolean; // as in TransferSpring
  readonly loaded: number; // measured under the plate's side [m]
  readonly computed: number; // the same by the model with that spring [m]
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
  const efficiency = (q: number): number => ratio(deflections(q));
  const {transfer} = section.joint;
  switch (transfer.kind) {
    case "spring":
      return {stiffness: transfer.stiffness, efficiency: efficiency(transfer.stiffness), floor: false};
    case "efficiency":
      return springOf(efficiency, transfer.efficiency, "joint.transfer.efficiency");
    case "test": {
      const tested = testedPositions(transfer.test, accuracy);
      const stiffness = tested.reduce((sum, t) => sum + t.stiffness, 0) / tested.length;
      return {stiffness, efficiency: efficiency(stiffness), floor: tested.every(t => t.floor), tested};
    }
  }
}

function ratio({loaded, unloaded}: EdgeDeflections): number {
  return unloaded / loaded;
}

/** The spring of a wanted efficiency, by bisection in its logarithm. */
function springOf(efficiency: (q: number) => number, wanted: number, path: string): TransferSpring {
  const lowest = efficiency(0);
  if (lowest >= wanted) return {stiffness: 0, efficiency: lowest, floor: true};
  let low = Math.log(SMALLEST_SPRING);
  let high = Math.log(LARGEST_SPRING);
  const largest = efficiency(LARGEST_SPRING);
  if (largest < wanted) throw new InputError("domain", path, wanted, `< ${largest} [–]`);
  while (high - low > 1e-3) {
    const middle = (low + high) / 2;
    if (efficiency(Math.exp(middle)) < wanted) low = middle;
    else high = middle;
  }
  const stiffness = Math.exp((low + high) / 2);
  return {stiffness, efficiency: efficiency(stiffness), floor: false};
}

/**
 * Each position of a test by itself. The model is the same on both sides of the joint: what approach and leave differ by is
 * the joint's own, or the slabs'.
 */
function testedPositions(test: DeflectionTest, accuracy: number): TestedPosition[] {
  if (!test.positions.length) throw new InputError("shape", "joint.transfer.test.positions.length", 0, "1 or 2");
  const deflections = testDeflections(test, accuracy);
  return test.positions.map(({name, loaded, unloaded}, k) => {
    const efficiency = unloaded / loaded;
    const path = `joint.transfer.test.positions[${k}], unloaded over loaded`;
    const {stiffness, floor} = springOf(q => ratio(deflections(q)), efficiency, path);
    return {name, efficiency, stiffness, floor, loaded, computed: deflections(stiffness).loaded};
  });
}

/** Deflections at the sensors of a test as a function of the spring. */
export function testDeflections(test: DeflectionTest, accuracy: number): (q: number) => EdgeDeflections {
  const {plate, sensors} = test;
  const {joint, ...rest} = test.section;
  const section: Section = {
    ...rest,
    joint: {...joint, transfer: {kind: "spring", stiffness: 0}},
    crackInterlock: 0,
    shearWeight: 1,
  };
  const moduli = section.layers.map(({material}) => {
    if (test.temperature !== null) return modulusAt(material, test.temperature);
    if (material.modulus.length > 1)
      throw new InputError("domain", "joint.transfer.test.temperature", null, `one: ${material.name} depends on it`);
    return material.modulus[0].modulus;
  });
  const wheel = {length: plate.side, width: plate.side, pressure: plate.pressure};
  const reach = Math.max(plate.centre + plate.side, sensors.loaded, sensors.unloaded) + plate.side;
  return deflectionsAcross(
    section,
    moduli,
    {wheel, centre: plate.centre, ...sensors, reach},
    meshSizes(section, accuracy),
  );
}

/**
 * Strain, stress and movement around the joint in a plane along the lane, for an axle at each of many positions: a picture,
 * from the same elements, contact and closure as the tip strains, on one coarser mesh. Theory: docs/theory/field.md.
 */
import {Cancelled, InputError, requireNonNegative, requirePositive} from "../errors.ts";
import {
  addInside,
  condenseOpen,
  type FieldArrays,
  type FieldSize,
  type FieldView,
  fieldArrays,
  fieldModel,
  halfView,
  NODAL,
  type OpenedWave,
  wholeView,
  writePosition,
} from "../field/index.ts";
import {
  type Condition,
  contactSegments,
  type DirectSolution,
  type LineModel,
  type StateSpace,
  type SurfaceLoads,
  solveDirect,
  stateSpace,
  stiffnesses,
  type Tip,
  tieOf,
  tipDepths,
  wavenumbers,
  waveScale,
  wheelLoads,
} from "../response/index.ts";
import type {Section} from "../section/index.ts";
import type {Wheel} from "../traffic/index.ts";
import {type PlaceContact, placeContacts} from "./fieldContact.ts";
import {type AxlePlan, axlePlan} from "./fieldLoads.ts";
import {probeCracks, zoneRows} from "./probe.ts";
import {type LineField, tiedIn, tipsOf} from "./probeTips.ts";

export interface FieldRequest {
  readonly section: Section;
  readonly moduli: readonly number[]; // by layer [Pa]
  readonly transfer: number; // q, load-transfer spring [Pa/m]
  /** Crack lengths of any size [m]: up from the joint, up from the overlay's underside, down from the surface. */
  readonly cracks: Readonly<Record<Tip, number>>;
  readonly wheels: readonly Wheel[]; // of the axle or gear
  readonly y: number; // of the plane that is looked at, in the wheels' own coordinates [m]
  readonly positions: Float64Array; // x of the axle's reference; negative: before the joint [m]
  readonly view: FieldView;
  readonly size: FieldSize;
}

/** At one position of the axle, means over the process zone ahead of a tip; coarser than those of lives. */
export interface FieldTip {
  readonly opening: Float64Array; // ⟨σx⟩/E′ by position; 0 where the crack is closed [–]
  readonly shear: Float64Array; // ⟨τxz⟩/E′, with its sign [–]
  readonly strain: Float64Array; // ε_tip [–]
}

export interface JointField extends FieldArrays {
  readonly x: Float64Array; // column edges, ascending [m]
  readonly z: Float64Array; // row edges from the surface down [m]
  readonly layer: Int8Array; // [row][column], index into section.layers; −1 in the joint's gap
  readonly positions: Float64Array; // [m]
  readonly cornerX: Float64Array; // corners of cells, both sides of cracks and interfaces that slide [m]
  readonly cornerZ: Float64Array; // [m]
  readonly corners: Int32Array; // [cell][upper left, upper right, lower right, lower left]; −1 in the gap
  readonly tips: Readonly<Record<Tip, FieldTip | null>>; // null where there is no such tip
  readonly closedCracks: readonly (readonly Tip[])[]; // by position
  readonly warnings: readonly string[];
}

/** Wavenumbers and where they end [1/m]: what a cell under a wheel's edge can show needs no shorter waves. */
const WAVES: Readonly<Record<FieldSize, {readonly count: number; readonly last: number}>> = {
  usual: {count: 15, last: 200},
  fine: {count: 21, last: 300},
};

/** Positions of the axle from so far before the joint to so far behind it [m]. */
const FARTHEST = 1.5;
const POSITIONS = 33;

/** Closer together near the joint, where shear turns about: steps of 23 mm there and of 140 mm at the ends [m]. */
export function usualPositions(): Float64Array {
  return Float64Array.from({length: POSITIONS}, (_, k) => {
    const t = (2 * k) / (POSITIONS - 1) - 1;
    return FARTHEST * t * Math.sqrt(Math.abs(t));
  });
}

/**
 * @param onProgress called with the part done; returning false cancels
 * @throws Cancelled; InputError "domain" | "shape"
 */
export function fieldAround(request: FieldRequest, onProgress: (part: number) => boolean = () => true): JointField {
  requireRequest(request);
  const {section, moduli, transfer, size, positions, wheels} = request;
  const step = (part: number): void => {
    if (!onProgress(part)) throw new Cancelled();
  };
  const cracks = probeCracks(section, request.cracks);
  const waves = wavenumbers(WAVES[size].count, waveScale(section), WAVES[size].last);
  const plan = axlePlan(wheels, request.y, positions, waves);
  const longest = Math.max(...plan.patches.map(p => p.length));
  const farthest = Math.max(...plan.patches.map(p => p.centres[p.centres.length - 1] + p.length / 2));
  const reach = Math.max(farthest, section.joint.width / 2 + 2 * longest);
  const tips = [...tipDepths(cracks), ...zoneRows(section, cracks, request.cracks)];
  const {model, view} = fieldModel(section, {view: request.view, size, reach, tips});
  const space = stateSpace(model, cracks);
  const state = askedState(space, request);
  const half = halfView(model.mesh, view);
  const whole = wholeView(half, model.mesh.layerOfRow);
  const condition: Condition = {moduli, transfer};
  const stiff = stiffnesses(section, condition);
  step(0.02);

  const opened = Array.from(waves.beta, (beta, k) => {
    step(0.02 + (0.48 * k) / waves.beta.length);
    return condenseOpen(model, half, stiff, beta);
  });
  const even = allWheels(model, plan, "symmetric");
  const contacts = placeContacts({section, model, space, condition, waves}, plan, opened, even, state);
  step(0.55);

  const count = 2 * plan.places.length;
  const sums = new Float64Array(half.nodeX.length * NODAL * count);
  const fields = plan.places.map(() => emptyField(model));
  const solve = lineSolver({section, model, space, condition}, plan, even, {state, contacts});
  opened.forEach((wave, k) => {
    step(0.55 + (0.4 * k) / waves.beta.length);
    addInside(wave, half, solve(wave, k, fields), count, sums);
  });

  const out = fieldArrays(positions.length, whole);
  plan.positions.forEach(({place, side}, position) => {
    const of = {position, symmetric: 2 * place, antisymmetric: 2 * place + 1, side};
    writePosition({half, whole, lame: stiff.lame}, sums, count, of, out);
  });
  const geometry = {
    section,
    meshes: [
      {model, space},
      {model, space},
    ],
    waves,
    corrections: waves,
  }; // one mesh: nothing extrapolated
  const found = plan.places.map((_, p) => {
    const {state: open, closed} = contacts[p];
    const field: LineField = {solution: fields[p], plus: () => 0, minus: () => 0};
    return tipsOf(geometry, condition, {state, opening: open, closed}, [field, field]);
  });
  const tip = (name: Tip): FieldTip | null => {
    const along = plan.positions.map(({place, side}) => ({tip: found[place][name], side}));
    if (along.some(p => !p.tip)) return null;
    const values = (value: (p: (typeof along)[number]) => number): Float64Array => Float64Array.from(along, value);
    return {
      opening: values(p => p.tip!.opening / p.tip!.planeStrainModulus),
      shear: values(p => (p.side * p.tip!.shearXz) / p.tip!.planeStrainModulus),
      strain: values(p => p.tip!.strain),
    };
  };
  return {
    ...out,
    x: whole.x,
    z: half.z,
    layer: whole.layer,
    positions,
    cornerX: whole.cornerX,
    cornerZ: whole.cornerZ,
    corners: whole.corners,
    tips: {interlayer: tip("interlayer"), underside: tip("underside"), surface: tip("surface")},
    closedCracks: plan.positions.map(({place}) => contacts[place].closed),
    warnings: warningsOf(contacts),
  };
}

function requireRequest({section, moduli, transfer, wheels, positions, view}: FieldRequest): void {
  if (moduli.length !== section.layers.length)
    throw new InputError("shape", "moduli.length", moduli.length, `${section.layers.length}, one a layer`);
  moduli.forEach((E, k) => void requirePositive(`moduli[${k}]`, E, "Pa"));
  requireNonNegative("transfer", transfer, "Pa/m");
  wheels.forEach((wheel, k) => {
    for (const key of ["load", "length", "width"] as const) requirePositive(`wheels[${k}].${key}`, wheel[key], "SI");
  });
  if (!positions.length) throw new InputError("shape", "positions.length", 0, "≥ 1");
  requirePositive("view.halfWidth", view.halfWidth, "m");
  requirePositive("view.depth", view.depth, "m");
}

function askedState(space: StateSpace, {cracks}: FieldRequest): number {
  return space.index(
    space.interlayerLength.indexOf(cracks.interlayer),
    space.undersideLength.indexOf(cracks.underside),
    space.surfaceLength.indexOf(cracks.surface),
  );
}

function allWheels({mesh}: LineModel, plan: AxlePlan, part: "symmetric" | "antisymmetric"): SurfaceLoads {
  const loads = plan.patches.map(({length, centres}) => wheelLoads(mesh, length, centres, part));
  return {
    count: loads.reduce((sum, {count}) => sum + count, 0),
    values: Float64Array.from(loads.flatMap(({values}) => [...values])),
  };
}

function emptyField(model: LineModel): DirectSolution & {force: Float64Array} {
  return {count: 1, displacement: new Float64Array(model.size), force: new Float64Array(3 * model.path.length)};
}

interface Solved {
  readonly section: Section;
  readonly model: LineModel;
  readonly space: StateSpace;
  readonly condition: Condition;
}

/**
 * Solves the line for one wavenumber: kept unknowns of every place, symmetric then antisymmetric part, with the weight of the
 * wavenumber. Adds the forces and movements of the path to the fields at the places.
 */
function lineSolver(
  {section, model, space, condition}: Solved,
  plan: AxlePlan,
  even: SurfaceLoads,
  {state, contacts}: {readonly state: number; readonly contacts: readonly PlaceContact[]},
): (wave: OpenedWave, k: number, fields: readonly DirectSolution[]) => Float64Array {
  const {size, path} = model;
  const uneven = allWheels(model, plan, "antisymmetric");
  const segments = contactSegments(model, section.joint.facesTouch);
  const tie = tieOf(model, section);
  const shared = {transfer: condition.transfer, interlock: section.crackInterlock, tie};
  const kept = new Float64Array(2 * plan.places.length * size);
  return ({S}, k, fields) => {
    const shear = solveDirect(
      model,
      S,
      {...shared, part: "antisymmetric", tied: tiedIn(space, state), contact: []},
      uneven,
    );
    const openings = new Map<string, DirectSolution>();
    const openingOf = ({state: open, pattern}: PlaceContact): DirectSolution => {
      const key = `${open} ${pattern}`;
      const contact = segments.filter((_, s) => pattern & (1 << s));
      const solution =
        openings.get(key) ??
        solveDirect(model, S, {...shared, part: "symmetric", tied: tiedIn(space, open), contact}, even);
      openings.set(key, solution);
      return solution;
    };
    kept.fill(0);
    plan.places.forEach((place, p) => {
      const opening = openingOf(contacts[p]);
      const {displacement, force} = fields[p];
      const s = kept.subarray(2 * p * size, (2 * p + 1) * size);
      const a = kept.subarray((2 * p + 1) * size, (2 * p + 2) * size);
      for (const {row, load, side} of place) {
        const w = plan.rows[row].even[k];
        const odd = side * plan.rows[row].odd[k];
        const from = load * size;
        for (let i = 0; i < size; i++) {
          s[i] += w * opening.displacement[from + i];
          a[i] += side * w * shear.displacement[from + i];
        }
        for (let n = 0; n < path.length; n++) {
          const at = 3 * (load * path.length + n);
          force[3 * n] += w * opening.force[at];
          force[3 * n + 1] += odd * shear.force[at + 1];
          force[3 * n + 2] += side * w * shear.force[at + 2];
          const {U, V, W} = path[n];
          if (U >= 0) displacement[U] += w * opening.displacement[from + U];
          if (V >= 0) displacement[V] += odd * shear.displacement[from + V];
          if (W >= 0) displacement[W] += side * w * shear.displacement[from + W];
        }
      }
    });
    return kept;
  };
}

function warningsOf(contacts: readonly PlaceContact[]): string[] {
  const warnings = [
    "A picture: one mesh, coarser than that of the lives, not extrapolated. Numbers at corners and crack tips grow as cells " +
      "shrink; lives use means over the process zone.",
  ];
  const unsettled = contacts.filter(c => !c.settled).length;
  if (unsettled)
    warnings.push(
      `At ${unsettled} of ${contacts.length} places of the axle no choice of touching faces agrees with itself; the one with ` +
        "the fewest faults is shown.",
    );
  return warnings;
}

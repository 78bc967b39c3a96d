/**
 * One section looked at closely, for whoever checks the mechanics with another program: crack lengths of any size, wheels
 * and offsets of any place, everything at the tips and beside the joint, by a way of its own: each case is solved
 * directly, not swept. Theory: docs/theory/response.md.
 */
import {Cancelled, InputError, requirePositive} from "../errors.ts";
import {
  type Condition,
  type CrackLengths,
  condense,
  contactSegments,
  type DirectSolution,
  faceSegment,
  type Geometry,
  inverseWeights,
  type LineModel,
  type ResponseTables,
  respond,
  responseGeometry,
  type Segment,
  type StateSpace,
  type SurfaceLoads,
  settledOpening,
  solveDirect,
  stiffnesses,
  TIPS,
  type Tip,
  tieOf,
  transferSpring,
  wheelLoads,
} from "../response/index.ts";
import {isPath, type LoadTransfer, modulusAt, type Section, thicknessOf} from "../section/index.ts";
import {closureMaps} from "./closure.ts";
import {type ContactChoice, type ContactFound, decideContact} from "./probeContact.ts";
import {type LineField, lineField, type ProbeTip, type ProbeTips, tiedIn, tipsOf} from "./probeTips.ts";
import {thermalCondition, unitCases} from "./thermal.ts";

export interface ProbeRequest {
  readonly moduli: {readonly temperature: number} | readonly number[]; // [°C], or by layer [Pa]
  readonly wheel: {readonly load: number; readonly length: number; readonly width: number}; // [N], [m], [m]
  readonly x: readonly number[]; // wheel centres along the lane; negative: before the joint [m]
  readonly y: readonly number[]; // places along the joint, from the wheel's centre [m]
  /** Crack lengths of any size [m]: up from the joint, up from the overlay's underside, down from the surface. */
  readonly cracks: Readonly<Record<Tip, number>>;
  readonly contact: ContactChoice;
  readonly transfer: LoadTransfer | null; // null: as the section has it
  readonly accuracy: number; // relative, in tip strain [–]
}

/** Deflections, positive downward; minus and plus are the sides x < 0 and x > 0 of the joint [m]. */
export interface ProbeDeflections {
  readonly surface: {readonly minus: number; readonly plus: number}; // of the surface on the joint plane
  readonly slab: {readonly minus: number; readonly plus: number}; // of the top edges of the jointed layer
  readonly underWheel: number; // of the surface under the wheel's centre, at this y
}

export interface ProbePoint {
  readonly x: number; // [m]
  readonly y: number; // [m]
  readonly tips: ProbeTips; // null where there is no such tip
  readonly contact: ContactFound;
  readonly deflection: ProbeDeflections;
}

/** One thermal unit case, nothing touching: +1 K, so that a fall of temperature has the opposite sign. */
export interface ProbeThermalCase {
  readonly cause: "slab mean" | "slab gradient" | "overlay mean"; // per K, per K/m, per K
  readonly tips: ProbeTips; // no shear, by symmetry; strain is ⟨σx⟩/E′ with its sign
  readonly jointOpening: number; // mean change of the joint's width over the slab's depth [m/K, m²/K, m/K]
}

export interface ProbeResult {
  readonly moduli: readonly number[]; // under wheels [Pa]
  readonly transferSpring: number; // q [Pa/m]
  readonly transferEfficiency: number; // on the bare jointed layer [–]
  readonly points: readonly ProbePoint[]; // x by x, within it y by y
  readonly thermal: readonly ProbeThermalCase[]; // at relaxation moduli
}

/**
 * @param onProgress called with the part done; returning false cancels
 * @throws Cancelled; InputError "domain" where a crack is longer than its way or cracks meet
 */
export function probe(
  section: Section,
  request: ProbeRequest,
  onProgress: (part: number) => boolean = () => true,
): ProbeResult {
  const {wheel, accuracy} = request;
  const step = (part: number): void => {
    if (!onProgress(part)) throw new Cancelled();
  };
  for (const key of ["load", "length", "width"] as const) requirePositive(`wheel.${key}`, wheel[key], "SI");
  const cracks = probeCracks(section, request.cracks);
  const moduli = resolveModuli(section, request.moduli);
  const edge = {length: wheel.length, width: wheel.width, pressure: wheel.load / (wheel.length * wheel.width)};
  const joint = {...section.joint, transfer: request.transfer ?? section.joint.transfer};
  const spring = transferSpring({...section, joint}, moduli, edge, accuracy);
  step(0.05);
  const condition: Condition = {moduli, transfer: spring.stiffness};
  return {
    moduli,
    transferSpring: spring.stiffness,
    transferEfficiency: spring.efficiency,
    points: wheelPoints(section, request, cracks, condition, part => step(0.05 + 0.9 * part)),
    thermal: thermalCases(section, request, cracks),
  };
}

function resolveModuli(section: Section, given: ProbeRequest["moduli"]): readonly number[] {
  if ("temperature" in given) return section.layers.map(l => modulusAt(l.material, given.temperature));
  if (given.length !== section.layers.length)
    throw new InputError("shape", "moduli.length", given.length, `${section.layers.length}, one a layer`);
  given.forEach((E, k) => void requirePositive(`moduli[${k}]`, E, "Pa"));
  return given;
}

/** Only the lengths asked for, and none: closing a crack leads to the state without it. */
export function probeCracks(section: Section, asked: ProbeRequest["cracks"]): CrackLengths {
  const overlayThickness = thicknessOf(section.layers, "overlay");
  const interlayerThickness = thicknessOf(section.layers, "interlayer");
  const sorted = (lengths: readonly number[]): number[] => [...new Set(lengths)].sort((p, q) => p - q);
  const {interlayer, underside, surface} = asked;
  if (!(interlayer >= 0 && interlayer <= interlayerThickness))
    throw new InputError("domain", "cracks.interlayer", interlayer, `0 to ${interlayerThickness} [m]`);
  if (!(underside >= 0)) throw new InputError("domain", "cracks.underside", underside, "≥ 0 [m]");
  if (!(surface >= 0)) throw new InputError("domain", "cracks.surface", surface, "≥ 0 [m]");
  if (!(underside + surface < overlayThickness))
    throw new InputError(
      "domain",
      "cracks.underside + cracks.surface",
      underside + surface,
      `< ${overlayThickness} [m]`,
    );
  return {
    interlayer: sorted([0, interlayer, interlayerThickness]),
    overlay: sorted([0, underside, surface]),
    overlayThickness,
    interlayerThickness,
  };
}

/**
 * A mesh pair with row lines at the tips and across their process zones: a zone that ends within a long element right
 * ahead of a tip is several percent off.
 *
 * @param reach  farthest edge of a wheel [m]; 0: to mid-slab, for the thermal cases
 */
export function probeGeometry(section: Section, cracks: CrackLengths, request: ProbeRequest, reach: number): Geometry {
  const rows = zoneRows(section, cracks, request.cracks);
  const geometry = responseGeometry(section, {accuracy: request.accuracy, reach, cracks, rows});
  return {...geometry, corrections: geometry.waves}; // both meshes at every wavenumber
}

/** Depths at quarters of the process zone ahead of each tip, and a quarter behind it [m]. */
export function zoneRows(section: Section, cracks: CrackLengths, asked: ProbeRequest["cracks"]): number[] {
  const {overlayThickness, interlayerThickness} = cracks;
  const zoneLength = Math.min(
    ...section.layers.filter(l => isPath(l.role)).map(l => l.material.growth?.zoneLength ?? Infinity),
  );
  const bottom = overlayThickness + interlayerThickness;
  return [
    {tip: bottom - asked.interlayer, up: true},
    {tip: overlayThickness - asked.underside, up: true},
    {tip: asked.surface, up: false},
  ]
    .flatMap(({tip, up}) => [-0.25, 0.25, 0.5, 1].map(part => tip + (up ? -1 : 1) * part * zoneLength))
    .filter(z => z > 0 && z < bottom);
}

/** Number of the state asked for. */
function stateOf(space: StateSpace, asked: ProbeRequest["cracks"]): number {
  const place = (lengths: Float64Array, length: number): number => lengths.indexOf(length);
  return space.index(
    place(space.interlayerLength, asked.interlayer),
    place(space.undersideLength, asked.underside),
    place(space.surfaceLength, asked.surface),
  );
}

type Solutions = readonly (readonly DirectSolution[])[]; // by mesh, by wavenumber

/** Direct solutions of one symmetry part, made when first asked for: few of the states and contact patterns occur. */
function directCases(
  geometry: Geometry,
  condition: Condition,
  loads: (model: LineModel, part: "symmetric" | "antisymmetric") => SurfaceLoads,
  matrices: readonly (readonly Float64Array[])[],
): (part: "symmetric" | "antisymmetric", state: number, pattern: number) => Solutions {
  const {section, meshes} = geometry;
  const known = new Map<string, Solutions>();
  return (part, state, pattern) => {
    const key = `${part} ${state} ${pattern}`;
    const solutions =
      known.get(key) ??
      meshes.map(({model, space}, m) => {
        const segments = contactSegments(model, section.joint.facesTouch);
        const contact = segments.filter((_: Segment, s) => pattern & (1 << s));
        const tied = tiedIn(space, state);
        const {transfer} = condition;
        const tie = tieOf(model, section);
        const request = {part, tied, transfer, interlock: section.crackInterlock, contact, tie};
        return matrices[m].map(S => solveDirect(model, S, request, loads(model, part)));
      });
    known.set(key, solutions);
    return solutions;
  };
}

function wheelPoints(
  section: Section,
  request: ProbeRequest,
  cracks: CrackLengths,
  condition: Condition,
  step: (part: number) => void,
): ProbePoint[] {
  const {wheel} = request;
  if (!request.x.length || !request.y.length) return [];
  const centres = Float64Array.from(new Set(request.x.map(Math.abs))).sort();
  const reach = Math.max(centres[centres.length - 1] + wheel.length / 2, section.joint.width / 2 + 2 * wheel.length);
  const geometry = probeGeometry(section, cracks, request, reach);
  const tables = respond(geometry, condition, [{length: wheel.length, centres}], part => {
    step(0.5 * part);
    return true;
  });
  const strip = {centre: 0, width: wheel.width, pressure: wheel.load / (wheel.length * wheel.width)};
  const weights = inverseWeights(geometry.waves, Float64Array.from(request.y), [strip]);
  const K = geometry.waves.beta.length;
  const {space} = geometry.meshes[1];
  const state = stateOf(space, request.cracks);
  const map = closureMaps(space)[state];
  const settledIn = settledTables(tables);
  const stiff = stiffnesses(section, condition);
  const matrices = geometry.meshes.map(({model}, m) =>
    Array.from(geometry.waves.beta, (beta, k) => {
      step(0.5 + (0.2 * (m * K + k)) / (2 * K));
      return condense(model, stiff, beta);
    }),
  );
  const wheels = (model: LineModel, part: "symmetric" | "antisymmetric"): SurfaceLoads =>
    wheelLoads(model.mesh, wheel.length, centres, part);
  const cases = directCases(geometry, condition, wheels, matrices);

  return request.x.flatMap((x, at) =>
    request.y.map((y, i): ProbePoint => {
      step(0.7 + (0.3 * at) / request.x.length);
      const load = centres.indexOf(Math.abs(x));
      const contact = decideContact(request.contact, map, tables.segments, (pattern, s, quantity) => {
        const values = settledIn(s, pattern);
        const rows = TIPS.length + tables.segments;
        let sum = 0;
        for (let k = 0; k < K; k++)
          sum += values[(k * rows + quantity) * tables.wheels + load] * weights.even[i * K + k];
        return sum;
      });
      const opening = cases("symmetric", contact.state, contact.pattern);
      const shear = cases("antisymmetric", state, 0);
      // A wheel before the joint is the mirror image of one behind it.
      const place = {weights, offset: i, load, side: x < 0 ? -1 : 1} as const;
      const fields = geometry.meshes.map(({model}, m) => lineField(model, opening[m], shear[m], place));
      return {
        x,
        y,
        tips: tipsOf(geometry, condition, {state, opening: contact.state, closed: contact.closedCracks}, fields),
        contact: {closedCracks: contact.closedCracks, closedFaces: contact.closedFaces, settled: contact.settled},
        deflection: extrapolated(geometry, fields, x),
      };
    }),
  );
}

/** Tables of one state in one contact pattern, made when first asked for. */
function settledTables(tables: ResponseTables): (state: number, pattern: number) => Float64Array {
  const known = new Map<string, Float64Array>();
  return (state, pattern) => {
    const key = `${state} ${pattern}`;
    const values = known.get(key) ?? settledOpening(tables, state, pattern);
    known.set(key, values);
    return values;
  };
}

function extrapolated(geometry: Geometry, fields: readonly LineField[], x: number): ProbeDeflections {
  const [coarse, fine] = geometry.meshes.map(({model}, m) => deflections(model, fields[m], x));
  const w = Array.from(coarse, (c, k) => 2 * fine[k] - c);
  return {surface: {minus: w[0], plus: w[1]}, slab: {minus: w[2], plus: w[3]}, underWheel: w[4]};
}

/** @param x of the wheel [m] */
function deflections(model: LineModel, {minus, plus}: LineField, x: number): number[] {
  const {surface} = model.mesh;
  const distance = Math.abs(x);
  let k = 0;
  while (k + 4 < surface.length && surface[k + 2].x < distance) k += 2;
  const t = (2 * (distance - surface[k].x)) / (surface[k + 2].x - surface[k].x) - 1;
  const shape = [0.5 * t * (t - 1), 1 - t * t, 0.5 * t * (t + 1)];
  const underWheel = shape.reduce((sum, N, j) => sum + N * (x < 0 ? minus : plus)(model.surface[k + j]), 0);
  const [top, edge] = [model.path[0].W, model.face[0].W];
  return [minus(top), plus(top), minus(edge), plus(edge), underWheel];
}

const THERMAL_CAUSES = ["slab mean", "slab gradient", "overlay mean"] as const;

function thermalCases(section: Section, request: ProbeRequest, cracks: CrackLengths): ProbeThermalCase[] {
  const geometry = probeGeometry(section, cracks, request, 0);
  const condition = thermalCondition(section);
  const stiff = stiffnesses(section, condition);
  const matrices = geometry.meshes.map(({model}) => [condense(model, stiff, 0, unitCases(section))]);
  const none = {count: 0, values: new Float64Array(0)};
  const state = stateOf(geometry.meshes[1].space, request.cracks);
  const cases = directCases(geometry, condition, () => none, matrices);
  const opening = cases("symmetric", state, 0);
  return THERMAL_CAUSES.map((cause, load) => {
    const unit = {weights: {even: Float64Array.of(1), odd: Float64Array.of(0)}, offset: 0, load, side: 1} as const;
    const fields = geometry.meshes.map(({model}, m) => lineField(model, opening[m], [], unit));
    const tips = tipsOf(geometry, condition, {state, opening: state, closed: []}, fields);
    const [coarse, fine] = geometry.meshes.map(({model}, m) => {
      const {unknowns, shares, length} = faceSegment(model);
      const u = opening[m][0].displacement.subarray(load * model.size, (load + 1) * model.size);
      return unknowns.reduce((sum, place, n) => sum + (2 * shares[n] * u[place]) / length, 0);
    });
    return {cause, tips: signed(tips), jointOpening: 2 * fine - coarse};
  });
}

/** Under temperature a unit case is one part of a sum: its strain keeps the sign of its traction. */
function signed(tips: ProbeTips): ProbeTips {
  const one = (tip: ProbeTip | null): ProbeTip | null => tip && {...tip, strain: tip.opening / tip.planeStrainModulus};
  return {interlayer: one(tips.interlayer), underside: one(tips.underside), surface: one(tips.surface)};
}

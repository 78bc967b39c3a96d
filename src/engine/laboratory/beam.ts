/**
 * A wheel-tracked beam by the same ligament method as the pavement: every crack state under the wheel at every place of its
 * travel. What comes out does not depend on the growth laws, so that a fit solves each beam once.
 * Theory: docs/theory/beams.md.
 */
import {InputError, requirePositive} from "../errors.ts";
import {type CrackGrid, closureMaps, crackGrid, resolveClosure} from "../life/index.ts";
import {
  beamGeometry,
  type Geometry,
  type Patch,
  type ResponseTables,
  respond,
  SHEARS,
  settledOpening,
  TIPS,
  tipLayers,
} from "../response/index.ts";
import type {Layer, LayerRole, Section} from "../section/index.ts";
import type {BeamTest} from "./beamTypes.ts";

/** Choices that the test itself does not settle. */
export interface BeamChoices {
  readonly plane: "stress" | "strain"; // of the beam as a whole
  readonly zoneLength: Readonly<Record<string, number>>; // d by material [m]
  readonly interlock: number; // spring between crack faces in the overlay [Pa/m]
  readonly accuracy: number; // relative, in tip strain [–]
}

/** Plain numbers, so that it can be sent to another thread. */
export interface BeamSolution {
  readonly cracks: CrackGrid;
  readonly overlayThickness: number; // [m]
  readonly interlayerThickness: number; // [m]; 0 without
  readonly positions: Float64Array; // of the wheel's centre along the travel, ascending [m]
  readonly tips: Int8Array; // [state][tip]: 1 where there is such a tip
  readonly opening: Float64Array; // [state][tip][position]: ⟨σx⟩ [Pa], cracks closed where they close
  readonly shear: Float64Array; // [state][tip][position]: ⟨τxz⟩ [Pa]
  readonly planeStrainModulus: {readonly overlay: number; readonly interlayer: number}; // E' [Pa]
  readonly foundation: number; // springs under the base [Pa/m]
}

/**
 * Horizontal stiffness of the foundation over its vertical one: sheets of rubber between plates, G against a modulus of
 * confined compression of three times that. It only keeps the beam from sliding away.
 */
const SHEAR_OF_FOUNDATION = 1 / 3;

/** @throws InputError "domain" when the wheel leaves the beam or a material has no process zone */
export function solveBeam(test: BeamTest, foundation: number, choices: BeamChoices): BeamSolution {
  const section = beamSection(test, foundation, choices);
  const {travel, wheel} = test;
  const farthest = Math.max(Math.abs(travel.from), Math.abs(travel.to)) + wheel.length / 2;
  if (farthest > test.length / 2 + 1e-9)
    throw new InputError("domain", `${test.name}: travel`, farthest, `at most ${test.length / 2}, on the beam [m]`);
  if (!(travel.to > travel.from))
    throw new InputError("domain", `${test.name}: travel.to`, travel.to, `> travel.from, ${travel.from} [m]`);
  const geometry = beamGeometry(section, choices.accuracy);
  const patch: Patch = {length: wheel.length, centres: wheelCentres(test)};
  const tables = respond(geometry, {moduli: section.layers.map(modulusOf), transfer: 0}, [patch]);
  const {positions, column, side} = alongTravel(test, patch.centres);
  const pressure = wheel.load / (wheel.length * test.width);
  const tractions = tipTractions(geometry, tables, {column, side, pressure});
  const {overlay, interlayer} = test;
  const planeStrain = ({modulus, poisson}: {modulus: number; poisson: number}): number => modulus / (1 - poisson ** 2);
  return {
    cracks: crackGrid(geometry.meshes[0].space),
    overlayThickness: overlay.thickness,
    interlayerThickness: interlayer?.thickness ?? 0,
    positions,
    ...tractions,
    planeStrainModulus: {overlay: planeStrain(overlay), interlayer: interlayer ? planeStrain(interlayer) : 0},
    foundation,
  };
}

/** E of a beam's layer, at the one temperature of its test [Pa]. */
export const modulusOf = ({material}: Layer): number => material.modulus[0].modulus;

/**
 * The beam as a section, one joint spacing long. A beam alike across its width and free at its sides is in plane stress:
 * the plane-strain equations serve with E·(1 + 2ν)/(1 + ν)² and ν/(1 + ν).
 *
 * @source Timoshenko & Goodier, Theory of Elasticity: plane stress and plane strain exchanged
 */
export function beamSection(test: BeamTest, foundation: number, choices: BeamChoices): Section {
  requirePositive(`${test.name}: foundation`, foundation, "Pa/m");
  const layer = (
    role: LayerRole,
    name: string,
    course: {readonly thickness: number; readonly modulus: number; readonly poisson: number},
  ): Layer => {
    const {thickness, modulus: E, poisson: v} = course;
    const stress = choices.plane === "stress";
    const zoneLength = role === "jointed" ? null : choices.zoneLength[name];
    if (zoneLength === undefined)
      throw new InputError("domain", `zoneLength of ${name}`, "nothing", "a process zone for its material [m]");
    return {
      name,
      role,
      thickness,
      material: {
        name,
        modulus: [{temperature: 0, modulus: stress ? (E * (1 + 2 * v)) / (1 + v) ** 2 : E}],
        relaxationModulus: E,
        seasonalRelaxationModulus: E,
        masterCurve: null,
        poisson: stress ? v / (1 + v) : v,
        expansion: 0,
        conductivity: 1,
        density: 1,
        heatCapacity: 1,
        // Of the law only the zone is used here.
        growth: zoneLength && {coefficient: 0, exponent: 1, zoneLength, referenceModulus: null, stiffnessExponent: 0},
        fatigue: null,
        source: "",
      },
    } as Layer;
  };
  const {overlay, interlayer, base} = test;
  return {
    layers: [
      layer("overlay", overlay.material, overlay),
      ...(interlayer ? [layer("interlayer", interlayer.material, interlayer)] : []),
      layer("jointed", "base", base),
    ],
    joint: {
      spacing: test.length,
      width: base.gap,
      unbondedStrip: 0,
      transfer: {kind: "spring", stiffness: 0},
      facesTouch: false, // a gap is made wide enough to stay open
      cutDepth: 0,
    },
    slabFriction: 0,
    base: {kind: "springs", stiffness: foundation, shear: SHEAR_OF_FOUNDATION * foundation},
    crackInterlock: choices.interlock,
    shearWeight: 1,
  };
}

/** Places at which the wheel is solved: dense near the gap, and both ends of the travel [m]. */
function wheelCentres({travel, wheel}: BeamTest): Float64Array {
  const ends = [Math.abs(travel.from), Math.abs(travel.to)];
  const last = Math.max(...ends);
  const first = travel.from > 0 || travel.to < 0 ? Math.min(...ends) : 0;
  const centres = new Set([0, ...ends]);
  for (let x = 0, step = wheel.length / DENSITY; x < last; x += step) {
    if (x > first) centres.add(x);
    if (x > 1.5 * wheel.length) step *= 1.3;
  }
  return Float64Array.from(centres).sort();
}
const DENSITY = 16;

/** The wheel's places along the travel, with the solved centre of each and the sign of its side. */
function alongTravel({travel: {from, to}}: BeamTest, centres: Float64Array) {
  const all = [...centres].flatMap((x, column) => (x > 0 ? [1, -1] : [1]).map(side => ({x: side * x, column, side})));
  const within = all.filter(({x}) => x >= from - 1e-12 && x <= to + 1e-12).sort((p, q) => p.x - q.x);
  return {
    positions: Float64Array.from(within, p => p.x),
    column: Int32Array.from(within, p => p.column),
    side: Int8Array.from(within, p => p.side),
  };
}

interface Wheels {
  readonly column: Int32Array;
  readonly side: Int8Array; // shear changes sign with it
  readonly pressure: number; // [Pa]
}

/** Closure decided at every place of the wheel, for every state. */
function tipTractions(
  {meshes: [{model, space}]}: Geometry,
  tables: ResponseTables,
  {column, side, pressure}: Wheels,
): Pick<BeamSolution, "tips" | "opening" | "shear"> {
  const {states, wheels} = tables;
  const count = column.length;
  const maps = closureMaps(space);
  const layers = tipLayers(model, space);
  const tips = new Int8Array(states * TIPS.length);
  const opening = new Float64Array(tips.length * count);
  const shear = new Float64Array(opening.length);
  const open = Array.from({length: states}, (_, state) => settledOpening(tables, state, 0)); // [tip][wheel]
  const out = new Float64Array(TIPS.length);
  for (let state = 0; state < states; state++) {
    TIPS.forEach((_, tip) => {
      tips[state * TIPS.length + tip] = layers[state][tip] === null ? 0 : 1;
    });
    for (let p = 0; p < count; p++) {
      resolveClosure(maps[state], (s, tip) => open[s][tip * wheels + column[p]], out);
      TIPS.forEach((_, tip) => {
        const to = (state * TIPS.length + tip) * count + p;
        if (!tips[state * TIPS.length + tip]) return;
        opening[to] = pressure * out[tip];
        shear[to] = side[p] * pressure * tables.shear[(state * SHEARS + tip) * wheels + column[p]];
      });
    }
  }
  return {tips, opening, shear};
}

/** From direct solutions at every wavenumber to the numbers at the tips, at one wheel position and one y. */
import {tipStrain} from "../crack/index.ts";
import {
  type Condition,
  type DirectSolution,
  energyReleaseRates,
  type Geometry,
  type LineModel,
  type Modes,
  pathMaterial,
  type StateSpace,
  TIPS,
  type Tip,
  type TipZones,
  tipClosure,
  zonesOf,
} from "../response/index.ts";

/** Tractions are means over the process zone ahead of the tip, extrapolated to zero element size. */
export interface ProbeTip {
  readonly layer: string; // that the tip grows into
  readonly planeStrainModulus: number; // E′ of that layer [Pa]
  readonly zoneLength: number; // d as used [m]
  readonly opening: number; // ⟨σx⟩, tension positive; 0 where the tip's crack is closed [Pa]
  readonly shearXz: number; // ⟨τxz⟩ [Pa]
  readonly shearXy: number; // ⟨τxy⟩ [Pa]
  readonly strain: number; // √(⟨σx⟩₊² + w(⟨τxz⟩² + ⟨τxy⟩²/(1−ν)))/E′ [–]
  /** G by mode [J/m²]; null without a crack, and where its tip is on an interface. */
  readonly energy: Modes | null;
}

export type ProbeTips = Readonly<Record<Tip, ProbeTip | null>>;

/** Where a field is wanted: one load case, one y, on which side of the joint the wheel is. */
export interface FieldPlace {
  readonly weights: {readonly even: Float64Array; readonly odd: Float64Array}; // see `inverseWeights`
  readonly offset: number; // which y
  readonly load: number; // which load case
  readonly side: 1 | -1;
}

export interface LineField {
  /** On the path: opening from the symmetric part, shear from the antisymmetric one, as one load case. */
  readonly solution: DirectSolution;
  /** W of a kept unknown on either side of the joint [m]. */
  readonly plus: (place: number) => number;
  readonly minus: (place: number) => number;
}

/** @param opening, shear  solutions by wavenumber; no shear solutions where there is no antisymmetric part */
export function lineField(
  model: LineModel,
  opening: readonly DirectSolution[],
  shear: readonly DirectSolution[],
  {weights, offset, load, side}: FieldPlace,
): LineField {
  const {path, size} = model;
  const waves = opening.length;
  const even = weights.even.subarray(offset * waves, (offset + 1) * waves);
  const odd = weights.odd.subarray(offset * waves, (offset + 1) * waves);
  const sum = (part: readonly DirectSolution[], w: Float64Array, place: number): number =>
    place < 0 ? 0 : part.reduce((s, {displacement}, k) => s + w[k] * displacement[load * size + place], 0);
  const across = (part: readonly DirectSolution[], w: Float64Array, node: number, c: 0 | 1 | 2): number =>
    part.reduce((s, {force}, k) => s + w[k] * force[(load * path.length + node) * 3 + c], 0);
  const displacement = new Float64Array(size);
  const force = new Float64Array(path.length * 3);
  path.forEach(({U, V, W}, k) => {
    displacement[U] = sum(opening, even, U);
    displacement[V] = side * sum(shear, odd, V);
    displacement[W] = side * sum(shear, even, W);
    force[3 * k] = across(opening, even, k, 0);
    force[3 * k + 1] = side * across(shear, odd, k, 1);
    force[3 * k + 2] = side * across(shear, even, k, 2);
  });
  return {
    solution: {count: 1, displacement, force},
    plus: place => sum(opening, even, place) + side * sum(shear, even, place),
    minus: place => sum(opening, even, place) - side * sum(shear, even, place),
  };
}

/** The state asked for, and the one left open with closed cracks tied against opening. */
export interface TipStates {
  readonly state: number;
  readonly opening: number;
  readonly closed: readonly Tip[];
}

/** @param fields by mesh */
export function tipsOf(
  {section, meshes}: Geometry,
  condition: Condition,
  states: TipStates,
  fields: readonly LineField[],
): ProbeTips {
  const found = meshes.map(({model, space}, m) => {
    const material = pathMaterial(section, model, condition);
    const zones = zonesOf(model, space, material);
    const shear = zones(space.states[states.state]);
    const opening = zones(space.states[states.opening]);
    const {solution} = fields[m];
    return TIPS.map(
      (
        tip,
        t,
      ): {readonly zones: TipZones; readonly values: readonly number[]; readonly energy: Modes | null} | null => {
        const own = shear[t];
        if (!own) return null;
        const closed = states.closed.includes(tip);
        const mean = (c: 0 | 1 | 2, z: TipZones["opening"]): number =>
          z.nodes.reduce((s, node, i) => s + z.weights[i] * solution.force[3 * node + c], 0);
        const values = [closed ? 0 : mean(0, opening[t]!.opening), mean(2, own.step), mean(1, own.shear)];
        return {zones: own, values, energy: tipEnergy(model, space, states.state, t, solution, closed)};
      },
    );
  });
  const one = (tip: number): ProbeTip | null => {
    const [coarse, fine] = found.map(tips => tips[tip]);
    if (!coarse || !fine) return null;
    const [opening, shearXz, shearXy] = fine.values.map((v, k) => 2 * v - coarse.values[k]);
    const {material, name} = section.layers[fine.zones.layer];
    const {poisson} = material;
    const planeStrain = condition.moduli[fine.zones.layer] / (1 - poisson ** 2);
    const elastic = {planeStrainModulus: planeStrain, poisson};
    const energy = (mode: keyof Modes): number => 2 * fine.energy![mode] - coarse.energy![mode];
    return {
      layer: name,
      planeStrainModulus: planeStrain,
      zoneLength: fine.zones.opening.length,
      opening,
      shearXz,
      shearXy,
      strain: tipStrain({opening, shearXZ: shearXz, shearXY: shearXy}, elastic, section.shearWeight),
      energy: fine.energy && {I: energy("I"), II: energy("II"), III: energy("III")},
    };
  };
  return {interlayer: one(0), underside: one(1), surface: one(2)};
}

function tipEnergy(
  model: LineModel,
  space: StateSpace,
  state: number,
  tip: number,
  solution: DirectSolution,
  closed: boolean,
): Modes | null {
  const s = space.states[state];
  const [node, length] = [
    [space.interlayer[s.interlayer], s.interlayer],
    [space.underside[s.underside], s.underside],
    [space.surface[s.surface], s.surface],
  ][tip];
  const {pathLayers} = model.mesh;
  if (length === 0 || node % 2 || pathLayers[node / 2] !== pathLayers[node / 2 - 1]) return null;
  const rates = energyReleaseRates(tipClosure(model, solution, 0, {node, direction: tip === 2 ? 1 : -1}));
  return closed ? {...rates, I: 0} : rates;
}

/** Whether a state leaves a node of the path tied. The tip's own node is; the mouth of a crack is not. */
export function tiedIn(space: StateSpace, state: number): (node: number) => boolean {
  const {interlayer, underside, surface, through} = space.states[state];
  const bottom = space.interlayer[interlayer];
  const tip = space.underside[underside];
  const restart = through ? space.undersideNode : space.undersideNode - 1; // a whole interlayer keeps its upper node
  return node => !(node > bottom || (underside > 0 && node > tip && node <= restart) || node < space.surface[surface]);
}

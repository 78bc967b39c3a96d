/** Which cracks and faces touch at each place of an axle, on the picture's own mesh, by the rule that lives are computed with. */
import type {OpenedWave} from "../field/index.ts";
import {
  type Condition,
  contactSegments,
  type LineModel,
  openingCombinations,
  pathMaterial,
  type ResponseTables,
  type StateSpace,
  type SurfaceLoads,
  settledOpening,
  sweepStates,
  symmetricPart,
  TIPS,
  tieOf,
  type Wavenumbers,
  zonesOf,
} from "../response/index.ts";
import type {Section} from "../section/index.ts";
import {closureMaps} from "./closure.ts";
import type {AxlePlan} from "./fieldLoads.ts";
import {decideContact} from "./probeContact.ts";

export interface PlaceContact {
  readonly state: number; // whose ties hold against opening
  readonly pattern: number; // bits of the stretches pressed together
  readonly closed: ReturnType<typeof decideContact>["closedCracks"];
  readonly settled: boolean;
}

interface Opened {
  readonly section: Section;
  readonly model: LineModel;
  readonly space: StateSpace;
  readonly condition: Condition;
  readonly waves: Wavenumbers;
}

/** Mean tractions at the tips and openings of the stretches, of every state, from matrices that are at hand. */
function openingTables(opened: Opened, plan: AxlePlan, matrices: readonly OpenedWave[], even: SurfaceLoads) {
  const {section, model, space, condition, waves} = opened;
  const zones = space.states.map(zonesOf(model, space, pathMaterial(section, model, condition)));
  const wanted = zones.map(openingCombinations);
  const segments = contactSegments(model, section.joint.facesTouch);
  const tie = tieOf(model, section);
  const rows = TIPS.length + segments.length;
  const size = rows * (even.count + segments.length);
  const opening = new Float64Array(waves.beta.length * space.states.length * size);
  matrices.forEach(({S}, k) => {
    sweepStates(
      model.kernel,
      space,
      symmetricPart(model, S, even, segments, tie),
      1,
      state => wanted[state],
      (state, values) => opening.set(values, (k * space.states.length + state) * size),
    );
  });
  const tables: ResponseTables = {
    waves,
    patches: plan.patches,
    wheels: even.count,
    states: space.states.length,
    segments: segments.length,
    opening,
    shear: new Float64Array(0), // decides nothing
  };
  return tables;
}

/** @param state that is asked for, all its cracks open */
export function placeContacts(
  opened: Opened,
  plan: AxlePlan,
  matrices: readonly OpenedWave[],
  even: SurfaceLoads,
  state: number,
): PlaceContact[] {
  const tables = openingTables(opened, plan, matrices, even);
  const map = closureMaps(opened.space)[state];
  const rows = TIPS.length + tables.segments;
  const waves = opened.waves.beta.length;
  const known = new Map<string, Float64Array>();
  const settledIn = (own: number, pattern: number): Float64Array => {
    const key = `${own} ${pattern}`;
    const values = known.get(key) ?? settledOpening(tables, own, pattern);
    known.set(key, values);
    return values;
  };
  return plan.places.map(place => {
    const {closedCracks, ...found} = decideContact("decide", map, tables.segments, (pattern, own, quantity) => {
      const values = settledIn(own, pattern);
      let sum = 0;
      for (const {row, load} of place)
        for (let k = 0; k < waves; k++)
          sum += plan.rows[row].even[k] * values[(k * rows + quantity) * tables.wheels + load];
      return sum;
    });
    return {state: found.state, pattern: found.pattern, closed: closedCracks, settled: found.settled};
  });
}

/** Which nodes to compute next: an axis is refined as long as what lies between its nodes is not foretold well enough. */
import {fieldOf, type Survey} from "./field.ts";
import {judge} from "./judgement.ts";
import {axisLevels, type GridLevel} from "./levels.ts";

/** How far interpolation missed nodes that it did not know, |ln foretold − ln computed| [–]. */
export interface Miss {
  readonly count: number; // of nodes compared
  readonly life: number; // largest, of control and treated section
  readonly ratio: number; // largest
  readonly typical: number; // root mean square, of the ratio
}

export interface MissByAxis {
  readonly x: Miss; // at new places along x
  readonly y: Miss;
  readonly all: Miss; // at all new nodes
}

const ALWAYS = 2; // levels whose nodes are computed in any case: 5 by 5

/** Levels of both axes that are reached; -1 before the first. */
export interface Reached {
  readonly x: number;
  readonly y: number;
}

export interface Refinement {
  /**
   * Nodes after the next step, or null when no more are needed.
   *
   * @param tolerance miss that is accepted [–]; below 0: every point is computed
   */
  next(reached: Reached, missed: MissByAxis | null, tolerance: number): {reached: Reached; level: GridLevel} | null;
}

export function refinement(countX: number, countY: number): Refinement {
  const [x, y] = [axisLevels(countX), axisLevels(countY)];
  const step = (levels: readonly unknown[], at: number, missed: Miss | undefined, tolerance: number): number => {
    // An axis that was not refined the last time has no new nodes to be judged by: it was good enough.
    const wanted = !missed || (missed.count > 0 && Math.max(missed.life, missed.ratio) > tolerance);
    return at < ALWAYS || tolerance < 0 || wanted ? Math.min(at + 1, levels.length - 1) : at;
  };
  return {
    next: (reached, missed, tolerance) => {
      const next = {
        x: step(x, reached.x, missed?.x, tolerance),
        y: step(y, reached.y, missed?.y, tolerance),
      };
      if (next.x === reached.x && next.y === reached.y) return null;
      return {reached: next, level: {x: x[next.x], y: y[next.y]}};
    },
  };
}

export interface Compared {
  readonly treatment: number; // index
  readonly longest: number; // lives beyond are not compared [years]
}

/** What the nodes of an earlier level would have said about those that came after. */
export function missesOf(survey: Survey, before: GridLevel, {treatment, longest}: Compared): MissByAxis {
  const known = {...survey, level: before};
  const [control, treated] = [fieldOf(known, 0), fieldOf(known, treatment)];
  const [oldX, oldY] = [new Set(before.x), new Set(before.y)];
  const misses = {x: counter(), y: counter(), all: counter()};
  for (const j of survey.level.y)
    for (const i of survey.level.x) {
      if (oldX.has(i) && oldY.has(j)) continue;
      const point = survey.outcome(i, j);
      const at = [survey.x.values[i], survey.y.values[j]] as const;
      const [a, b] = [control(...at), treated(...at)];
      if (!point || !("treatments" in point) || !a || !b) continue;
      const truth = judge(point.treatments[0], point.treatments[treatment], longest);
      const told = judge(a, b, longest);
      const miss = {
        control: truth.control.years <= longest ? Math.abs(Math.log(told.control.years / truth.control.years)) : 0,
        treated: truth.treated.years <= longest ? Math.abs(Math.log(told.treated.years / truth.treated.years)) : 0,
        ratio: truth.kind === "ratio" ? Math.abs(Math.log(told.ratio / truth.ratio)) : 0,
      };
      misses.all.add(miss);
      if (oldY.has(j)) misses.x.add(miss);
      if (oldX.has(i)) misses.y.add(miss);
    }
  return {x: misses.x.told(), y: misses.y.told(), all: misses.all.told()};
}

function counter() {
  let count = 0;
  let life = 0;
  let ratio = 0;
  let squares = 0;
  return {
    add: (miss: {readonly control: number; readonly treated: number; readonly ratio: number}): void => {
      count++;
      life = Math.max(life, miss.control, miss.treated);
      ratio = Math.max(ratio, miss.ratio);
      squares += miss.ratio ** 2;
    },
    told: (): Miss => ({count, life, ratio, typical: count > 0 ? Math.sqrt(squares / count) : 0}),
  };
}

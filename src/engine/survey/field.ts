/** Lives everywhere in a survey, from those at its nodes: the logarithm of each mechanism's life is interpolated by itself. */
import {type CubicWeights, cubicWeights, weighted} from "./interpolate.ts";
import type {GridLevel} from "./levels.ts";
import type {PointLife, PointOutcome, TreatmentPoint} from "./types.ts";

export interface SurveyAxis {
  readonly values: readonly number[]; // ascending
  readonly log: boolean; // of equal ratios, not differences
}

/** A grid of points, computed at the nodes of a level. */
export interface Survey {
  readonly x: SurveyAxis;
  readonly y: SurveyAxis;
  readonly level: GridLevel;
  /** By place along x and y; there at the nodes of the level. */
  readonly outcome: (i: number, j: number) => PointOutcome | undefined;
}

/** Equal differences or, along a logarithmic axis, equal ratios. */
export function axisValues(from: number, to: number, shape: {readonly count: number; readonly log: boolean}): number[] {
  const {count, log} = shape;
  return Array.from({length: count}, (_, k) => {
    if (k === 0 || count === 1) return from;
    if (k === count - 1) return to;
    const part = k / (count - 1);
    return log ? from * (to / from) ** part : from + part * (to - from);
  });
}

/** Where an axis is even: ln of the value, or the value. */
export function coordinate({log}: Pick<SurveyAxis, "log">, value: number): number {
  return log ? Math.log(value) : value;
}

/** Interpolates a treatment at any values of the inputs; null where a node that is needed could not be computed. */
export type Field = (x: number, y: number) => TreatmentPoint | null;

/** @param treatment index in the study */
export function fieldOf({x, y, level, outcome}: Survey, treatment: number): Field {
  const nodes = level.y.map(j =>
    level.x.map(i => {
      const point = outcome(i, j);
      return point && "treatments" in point ? point.treatments[treatment] : null;
    }),
  );
  const all = nodes.flat().filter(n => n !== null);
  if (all.length === 0) return () => null;
  const name = all[0].name;
  const along = {
    x: rememberedWeights(x, level.x),
    y: rememberedWeights(y, level.y),
  };
  const overlay = nodes.map(row => row.map(n => n?.overlay ?? Number.NaN));
  const worths = nodes.map(row => row.map(n => (n ? Math.log(n.presentWorth ?? Number.NaN) : Number.NaN)));
  // A mechanism that is not there at some node is taken for none of the field's.
  const mechanisms = Object.keys(all[0].lives).filter(m => all.every(n => m in n.lives));
  const tables = mechanisms.map(mechanism => ({
    mechanism,
    years: nodes.map(row => row.map(n => (n ? Math.log(n.lives[mechanism].years) : Number.NaN))),
    censored: nodes.map(row => row.map(n => (n?.lives[mechanism].censored ? 1 : 0))),
  }));
  return (atX, atY) => {
    const weights = {x: along.x(atX), y: along.y(atY)};
    const thickness = weighted(overlay, weights);
    if (Number.isNaN(thickness)) return null;
    const lives: Record<string, PointLife> = {};
    for (const {mechanism, years, censored} of tables)
      lives[mechanism] = {
        years: Math.exp(weighted(years, weights)),
        // Among ended lives a censored one shows as part of 1.
        censored: weighted(censored, weights) > 0.5,
      };
    const worth = Math.exp(weighted(worths, weights));
    return {name, overlay: thickness, lives, presentWorth: Number.isNaN(worth) ? null : worth};
  };
}

/** Maps ask for the same columns and rows over and over. */
function rememberedWeights(axis: SurveyAxis, places: readonly number[]): (value: number) => CubicWeights {
  const nodes = places.map(i => coordinate(axis, axis.values[i]));
  const known = new Map<number, CubicWeights>();
  return value => {
    const found = known.get(value) ?? cubicWeights(nodes, coordinate(axis, value));
    known.set(value, found);
    return found;
  };
}

import type {Section} from "../section/types.ts";
import type {ConductingBody} from "./conduction.ts";
import {envelopeDepths, shownDepths} from "./depths.ts";
import {type Grid, interpolationAt} from "./grid.ts";
import {reduction} from "./reduction.ts";
import type {PavementTemperatures} from "./types.ts";

/**
 * What is taken of every hour's profile, as sums over the amplitudes of the body's modes, and where it goes. The first rows
 * are kept hour by hour; those behind them only add to the envelope.
 */
export interface Outputs {
  readonly body: ConductingBody;
  readonly weights: Float64Array; // [mode][row]
  readonly reached: Int32Array; // by mode: rows beyond this one hardly feel it
  readonly start: Float64Array; // by row: the body's reference, or 0 of a gradient
  readonly values: Float64Array; // by row, of the present hour; overwritten
  readonly series: readonly Float64Array[]; // by row, one value an hour; overwritten
  readonly result: PavementTemperatures; // holds the series; overwritten
}

/** Weights on the cells of one value. */
interface Row {
  readonly weights: Float64Array;
  readonly ofTemperature: boolean; // weights add up to 1, not to 0
}

/** @throws InputError "shape" when there is no overlay or no jointed layer */
export function outputsOf(section: Section, body: ConductingBody, hours: number): Outputs {
  const {grid, reference} = body;
  const rows: Row[] = [];
  const series: Float64Array[] = [];
  const take = (weights: Float64Array, ofTemperature = true): Float64Array => {
    const values = new Float64Array(hours);
    rows.push({weights, ofTemperature});
    series.push(values);
    return values;
  };
  const {overlayMean, slabMean, slabGradient, halfWayOverlay, layerMean} = reduction(
    grid,
    section.layers.map(layer => layer.role),
  );
  const surface = new Float64Array(hours);
  const depth = envelopeDepths(section);
  const result: PavementTemperatures = {
    surface,
    overlayMean: take(overlayMean),
    slabMean: take(slabMean),
    slabGradient: take(slabGradient, false),
    halfWayOverlay: take(halfWayOverlay),
    layerMean: layerMean.map(weights => take(weights)),
    atDepth: shownDepths(section).map(shown => ({
      ...shown,
      temperature: shown.depth === 0 ? surface : take(weightsAt(grid, shown.depth)),
    })),
    envelope: {
      depth,
      lowest: new Float64Array(depth.length),
      mean: new Float64Array(depth.length),
      highest: new Float64Array(depth.length),
    },
  };
  for (const z of depth.subarray(1)) rows.push({weights: weightsAt(grid, z), ofTemperature: true});
  const weights = onModes(rows, body);
  return {
    body,
    weights,
    reached: reachedRows(weights, rows.length, series.length),
    start: Float64Array.from(rows, row => (row.ofTemperature ? reference : 0)),
    values: new Float64Array(rows.length),
    series,
    result,
  };
}

/** Weights on the cells of the temperature at a depth. */
function weightsAt(grid: Grid, depth: number): Float64Array {
  const weights = new Float64Array(grid.centre.length);
  const {cell, weight} = interpolationAt(grid, depth);
  weights[cell] = 1 - weight;
  weights[cell + 1] = weight;
  return weights;
}

/** The same weights on the amplitudes of the modes, [mode][row]. */
function onModes(rows: readonly Row[], {grid, modes}: ConductingBody): Float64Array {
  const cells = grid.centre.length;
  const weights = new Float64Array(cells * rows.length);
  rows.forEach((row, r) => {
    for (let k = 0; k < cells; k++) {
      let sum = 0;
      for (let i = 0; i < cells; i++) if (row.weights[i] !== 0) sum += row.weights[i] * modes.shape[k * cells + i];
      weights[k * rows.length + r] = sum;
    }
  });
  return weights;
}

/** Part of a mode's largest weight below which it is left out of the envelope: below 1e-6 K [–]. */
const NEGLIGIBLE = 1e-9;

/** Quick modes live in the thin cells near the surface: rows of the envelope, which go down, need only the slower ones. */
function reachedRows(weights: Float64Array, rows: number, kept: number): Int32Array {
  return Int32Array.from({length: weights.length / rows}, (_, k) => {
    const own = weights.subarray(k * rows, (k + 1) * rows);
    const largest = own.reduce((most, w) => Math.max(most, Math.abs(w)), 0);
    let last = rows;
    while (last > kept && Math.abs(own[last - 1]) <= NEGLIGIBLE * largest) last--;
    return last;
  });
}

/** Writes the values of one hour; `surface` is the temperature of the surface itself [°C]. Hours are to come in order. */
export function store(hour: number, surface: number, outputs: Outputs): void {
  const {weights, reached, start, values, series, result, body} = outputs;
  const {amplitude} = body;
  const rows = values.length;
  values.set(start);
  for (let k = 0; k < amplitude.length; k++) {
    const z = amplitude[k];
    const end = reached[k];
    for (let r = 0, w = k * rows; r < end; r++, w++) values[r] += weights[w] * z;
  }
  for (let r = 0; r < series.length; r++) series[r][hour] = values[r];
  result.surface[hour] = surface;

  const {lowest, mean, highest} = result.envelope;
  const hours = result.surface.length;
  for (let p = 0; p < mean.length; p++) {
    const value = p === 0 ? surface : values[series.length + p - 1];
    if (hour === 0) {
      lowest[p] = value;
      highest[p] = value;
      mean[p] = 0;
    }
    if (value < lowest[p]) lowest[p] = value;
    if (value > highest[p]) highest[p] = value;
    mean[p] += value / hours;
  }
}

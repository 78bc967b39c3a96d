import type {Section} from "../section/types.ts";
import type {ConductingBody} from "./conduction.ts";
import {reduction} from "./reduction.ts";
import type {PavementTemperatures} from "./types.ts";

/** What is taken of every hour's profile, as sums over the amplitudes of the body's modes, and where it goes. */
export interface Outputs {
  readonly body: ConductingBody;
  readonly weights: Float64Array; // [mode][row]
  readonly start: Float64Array; // by row: the body's reference, or 0 of a gradient
  readonly values: Float64Array; // by row, of the present hour; overwritten
  readonly series: readonly Float64Array[]; // by row, one value an hour; overwritten
  readonly result: PavementTemperatures; // holds the series; overwritten
}

/** Weights on the cells of one value, and the series that it fills. */
interface Row {
  readonly weights: Float64Array;
  readonly ofTemperature: boolean; // weights add up to 1, not to 0
  readonly series: Float64Array;
}

/** @throws InputError "shape" when there is no overlay or no jointed layer */
export function outputsOf(section: Section, body: ConductingBody, hours: number): Outputs {
  const {grid, modes, reference} = body;
  const roles = section.layers.map(layer => layer.role);
  const rows: Row[] = [];
  const take = (weights: Float64Array, ofTemperature = true): Float64Array => {
    const series = new Float64Array(hours);
    rows.push({weights, ofTemperature, series});
    return series;
  };
  const {overlayMean, slabMean, slabGradient, halfWayOverlay, layerMean} = reduction(grid, roles);
  const result: PavementTemperatures = {
    surface: new Float64Array(hours),
    overlayMean: take(overlayMean),
    slabMean: take(slabMean),
    slabGradient: take(slabGradient, false),
    halfWayOverlay: take(halfWayOverlay),
    layerMean: layerMean.map(weights => take(weights)),
  };
  const cells = grid.centre.length;
  const weights = new Float64Array(cells * rows.length);
  rows.forEach((row, r) => {
    for (let k = 0; k < cells; k++) {
      let sum = 0;
      for (let i = 0; i < cells; i++) sum += row.weights[i] * modes.shape[k * cells + i];
      weights[k * rows.length + r] = sum;
    }
  });
  return {
    body,
    weights,
    start: Float64Array.from(rows, row => (row.ofTemperature ? reference : 0)),
    values: new Float64Array(rows.length),
    series: rows.map(row => row.series),
    result,
  };
}

/** Writes the values of one hour; `surface` is the temperature of the surface itself [°C]. */
export function store(hour: number, surface: number, outputs: Outputs): void {
  const {weights, start, values, series, result, body} = outputs;
  const {amplitude} = body;
  const rows = values.length;
  values.set(start);
  for (let k = 0; k < amplitude.length; k++) {
    const z = amplitude[k];
    for (let r = 0; r < rows; r++) values[r] += weights[k * rows + r] * z;
  }
  for (let r = 0; r < rows; r++) series[r][hour] = values[r];
  result.surface[hour] = surface;
}

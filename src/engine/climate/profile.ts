import {Cancelled, InputError} from "../errors.ts";
import type {Section} from "../section/types.ts";
import {
  type ConductingBody,
  conductingBody,
  finishStep,
  STAGE,
  settle,
  startStep,
  surfaceTemperature,
  temperaturesOf,
} from "./conduction.ts";
import {type ConductingLayer, conductionGrid} from "./grid.ts";
import {type Outputs, outputsOf, store} from "./outputs.ts";
import {meanOf, requireRecord} from "./record.ts";
import {MEASURED_DEW_POINTS} from "./sky.ts";
import {effectiveSurface, type SurfaceConditions, type SurfaceModel, surfaceModel} from "./surface.ts";
import type {PavementTemperatures, SurfaceExchange, WeatherRecord} from "./types.ts";

/** The hourly temperatures with what the reader needs to trust them. */
export interface PavementTemperatureRun extends PavementTemperatures {
  readonly spinUp: {
    readonly passes: number; // years computed before the one given
    readonly residual: number; // largest difference of any cell between start and end of the year given [K]
  };
  readonly warnings: readonly string[];
}

/** The temperatures of a run by themselves. */
export function withoutRun({spinUp: _, warnings: __, ...temperatures}: PavementTemperatureRun): PavementTemperatures {
  return temperatures;
}

/** Called about once a day of the record. Returning false cancels. */
export type OnProgress = (pass: number, fractionOfPass: number) => boolean | undefined;

/** Depth of the insulated bottom [m]: about four yearly damping depths, docs/theory/climate.md, "The bottom". */
const BOTTOM_DEPTH = 10;
const HOURS_PER_YEAR = 8760;
/** Two steps an hour: time-stepping error of a daily wave under 0.1 %. */
const STEPS_PER_HOUR = 2;
/** The year is taken as periodic when no cell differs by more between its start and its end [K]. */
const SPIN_UP_TOLERANCE = 1e-3;
/** A year that starts further from being periodic does not end that near: its temperatures are not kept [K]. */
const HOPELESS = 1;
/** Three do; without `settle` each would leave six tenths of a departure. */
const MOST_PASSES = 20;

/**
 * Hourly temperatures of the pavement. The record is taken as one period of a periodic history: from its last value
 * it runs on to its first, and it is run through (a record shorter than a year as often as fills a year) until the
 * profile at the end of the year is that at its start.
 *
 * Temperature and wind are values at the hour, straight lines between; sunshine is the mean over the hour that ends
 * there, as weather records have it.
 *
 * @throws InputError "shape" | "domain" | "convergence"; Cancelled
 * @source docs/theory/climate.md
 */
export function pavementTemperatures(
  section: Section,
  record: WeatherRecord,
  exchange: SurfaceExchange,
  onProgress?: OnProgress,
): PavementTemperatureRun {
  requireRecord(record);
  const model = surfaceModel(record, exchange);
  const grid = conductionGrid(groundLayers(section));
  const body = conductingBody(grid, 3600 / STEPS_PER_HOUR, meanOf(record.temperature));
  const hours = record.temperature.length;
  const outputs = outputsOf(section, body, hours);
  const repeats = Math.ceil(HOURS_PER_YEAR / hours);
  let residual = Infinity;

  for (let pass = 0; pass < MOST_PASSES; pass++) {
    const kept = residual <= HOPELESS;
    const start = body.amplitude.slice();
    const before = temperaturesOf(body);
    for (let repeat = 0; repeat < repeats; repeat++) {
      runRecord({body, model, record, outputs: kept ? outputs : null}, fraction => {
        if (onProgress?.(pass, (repeat + fraction) / repeats) === false) throw new Cancelled();
      });
    }
    residual = largestDifference(before, temperaturesOf(body));
    if (kept && residual <= SPIN_UP_TOLERANCE) {
      return {...outputs.result, spinUp: {passes: pass, residual}, warnings: warningsOf(section, record, model)};
    }
    settle(body, start, 3600 * hours * repeats);
  }
  const need = `≤ ${SPIN_UP_TOLERANCE} [K] between start and end of a year after ${MOST_PASSES} years`;
  throw new InputError("convergence", "pavement temperature", residual, need);
}

interface Run {
  readonly body: ConductingBody;
  readonly model: SurfaceModel;
  readonly record: WeatherRecord;
  readonly outputs: Outputs | null; // overwritten; null: not wanted yet
}

/** Once through the record, from its first hour round to its first hour again. */
function runRecord({body, model, record, outputs}: Run, onDay: (fraction: number) => void): void {
  const {temperature: air, solar, wind, dewPoint, cloud} = record;
  const hours = air.length;
  const first = surfaceAtStart(body, model, record);
  const conditions: SurfaceConditions = {
    temperature: 0,
    solar: 0,
    wind: 0,
    dewPoint: null,
    cloud: null,
    surface: first,
  };
  const surface = new Float64Array(4);

  /** Sets the weather a part of the way from hour i to the next. Sunshine is that of the whole hour. */
  const at = (i: number, next: number, part: number) => {
    conditions.temperature = air[i] + part * (air[next] - air[i]);
    if (solar !== null) conditions.solar = solar[next];
    if (wind !== null) conditions.wind = wind[i] + part * (wind[next] - wind[i]);
    if (dewPoint !== null) conditions.dewPoint = dewPoint[i] + part * (dewPoint[next] - dewPoint[i]);
    if (cloud !== null) conditions.cloud = cloud[i] + part * (cloud[next] - cloud[i]);
  };
  const follow = (firstCell: number, slot: number) => {
    conditions.surface = surfaceTemperature(body.grid, firstCell, surface[slot], surface[slot + 1]);
  };

  for (let i = 0; i < hours; i++) {
    if (i % 24 === 0) onDay(i / hours);
    if (outputs) store(i, conditions.surface, outputs);
    const next = i + 1 < hours ? i + 1 : 0;
    for (let j = 0; j < STEPS_PER_HOUR; j++) {
      at(i, next, j / STEPS_PER_HOUR);
      effectiveSurface(model, conditions, surface, 0);
      follow(body.firstCell, 0); // the sun of this hour may differ from that of the last
      at(i, next, (j + STAGE) / STEPS_PER_HOUR);
      effectiveSurface(model, conditions, surface, 2);
      startStep(body, surface);
      follow(body.stageCell, 2);
      at(i, next, (j + 1) / STEPS_PER_HOUR);
      effectiveSurface(model, conditions, surface, 0);
      finishStep(body, surface);
      follow(body.firstCell, 0);
    }
  }
}

/** Surface temperature at the first hour, by repeated expansion of the long-wave term about its own result. */
function surfaceAtStart(body: ConductingBody, model: SurfaceModel, record: WeatherRecord): number {
  const surface = new Float64Array(2);
  const conditions: SurfaceConditions = {
    temperature: record.temperature[0],
    solar: record.solar?.[0] ?? 0,
    wind: record.wind?.[0] ?? 0,
    dewPoint: record.dewPoint?.[0] ?? null,
    cloud: record.cloud?.[0] ?? null,
    surface: body.firstCell,
  };
  for (let i = 0; i < 3; i++) {
    effectiveSurface(model, conditions, surface, 0);
    conditions.surface = surfaceTemperature(body.grid, body.firstCell, surface[0], surface[1]);
  }
  return conditions.surface;
}

/** The layers with the last one carried on to the bottom: what is below the pavement is taken to be like it. */
function groundLayers(section: Section): ConductingLayer[] {
  const layers = section.layers.map(({thickness, material}) => ({...material, thickness}));
  const total = layers.reduce((sum, layer) => sum + layer.thickness, 0);
  const last = layers.at(-1);
  if (last === undefined) throw new InputError("shape", "section.layers.length", 0, "≥ 2");
  // The extension is a layer of its own, so that the means keep to the thickness that was given.
  return total < BOTTOM_DEPTH ? [...layers, {...last, thickness: BOTTOM_DEPTH - total}] : layers;
}

function warningsOf(section: Section, record: WeatherRecord, model: SurfaceModel): string[] {
  const warnings: string[] = [];
  if (section.layers.at(-1)?.role !== "foundation") {
    warnings.push("No foundation layer is given: the ground conducts heat as the jointed layer does.");
  }
  if (model.kind === "film") {
    warnings.push("No sunshine is recorded: the surface follows the air and summer pavement temperatures are too low.");
    if (record.wind !== null)
      warnings.push("Wind is recorded but not used: without sunshine one film coefficient serves.");
    if (record.dewPoint !== null || record.cloud !== null)
      warnings.push("Dew point or cloud are recorded but not used: without sunshine there is no radiation of the sky.");
  }
  if (model.kind === "balance" && record.dewPoint !== null) {
    const {lowest, highest} = MEASURED_DEW_POINTS;
    const outside = record.dewPoint.filter(t => t < lowest || t > highest).length;
    if (outside > 0)
      warnings.push(
        `In ${outside} of ${record.dewPoint.length} hours the dew point is outside ${lowest} to ${highest} °C, where the ` +
          "emissivity of the clear sky was measured.",
      );
  }
  return warnings;
}

function largestDifference(a: Float64Array, b: Float64Array): number {
  let largest = 0;
  for (let i = 0; i < a.length; i++) largest = Math.max(largest, Math.abs(a[i] - b[i]));
  return largest;
}

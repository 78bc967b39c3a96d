/**
 * Days and seasons. Asphalt relaxes further in the months of a season than in the hours of a day, so each part of the
 * temperatures strains the tip with moduli of its own loading time, and the strains add. Theory: docs/theory/life.md.
 */
import {type Geometry, HALVED, THERMAL_CASES, TIPS, tipLayers} from "../response/index.ts";
import type {Material, Section} from "../section/index.ts";
import {
  type ThermalHistory,
  type ThermalPart,
  type ThermalResponse,
  thermalCondition,
  thermalResponse,
} from "./thermal.ts";

/** Hours over which temperatures are averaged to leave the seasons: 30 days. */
const SEASON_HOURS = 720;

/**
 * Centred moving mean over 30 days of a record that repeats, the trapezoidal rule over its hours:
 *
 *   s(h) = (½·x(h − 360) + x(h − 359) + … + x(h + 359) + ½·x(h + 360))/720
 *
 * A wave of 24 hours, and any other that fits whole into 720, is taken out exactly; the yearly one keeps
 * sin(π·30/365)/(π·30/365) = 98.9 % of its height.
 *
 * @param values one an hour, of any number of whole hours
 */
export function seasonalPart(values: Float64Array): Float64Array {
  const hours = values.length;
  const mean = values.reduce((sum, v) => sum + v, 0) / hours;
  const before = new Float64Array(hours + 1); // sums of departures from the mean, so that no digits are lost
  for (let h = 0; h < hours; h++) before[h + 1] = before[h] + (values[h] - mean);
  /** Sum over all hours before one, of a record that repeats both ways. */
  const upTo = (hour: number): number => {
    const round = Math.floor(hour / hours);
    return round * before[hours] + before[hour - round * hours];
  };
  const half = SEASON_HOURS / 2;
  return values.map((_, h) => {
    const sum = upTo(h + half) - upTo(h - half) + upTo(h + half + 1) - upTo(h - half + 1);
    return mean + sum / (2 * SEASON_HOURS);
  });
}

/** A history in two parts that add up to it. */
export function splitHistory(history: ThermalHistory): {
  readonly daily: ThermalHistory;
  readonly seasonal: ThermalHistory;
} {
  const split = (values: Float64Array) => {
    const seasonal = seasonalPart(values);
    return {seasonal, daily: values.map((v, h) => v - seasonal[h])};
  };
  const mean = split(history.slabMean);
  const gradient = split(history.slabGradient);
  const overlay = split(history.overlayMean);
  const part = (which: "daily" | "seasonal"): ThermalHistory => ({
    slabMean: mean[which],
    slabGradient: gradient[which],
    overlayMean: overlay[which],
  });
  return {daily: part("daily"), seasonal: part("seasonal")};
}

/** Whether some layer relaxes further over a season than over a day. */
export function relaxesFurther({layers}: Section): boolean {
  return layers.some(({material}) => material.seasonalRelaxationModulus !== material.relaxationModulus);
}

/**
 * By how much the opening traction of the seasons is to be multiplied so that over the plane-strain modulus of the daily
 * cycle it is a strain that grows a crack by the law at the daily modulus as the season's own strain does by the law at its
 * own:
 *
 *   A₀·(E_s/E₀)^m·(σ/E_s)^n = A₀·(E_d/E₀)^m·(f·σ/E_d)^n  →  f = (E_d/E_s)^(1 − m/n)
 *
 * Without a stiffness shift, m = 0, strains add as they are; Poisson's ratio is that of the layer at any time.
 */
export function seasonalFactor({relaxationModulus, seasonalRelaxationModulus, growth}: Material): number {
  const shift = growth && growth.referenceModulus !== null ? growth.stiffnessExponent / growth.exponent : 0;
  return (relaxationModulus / seasonalRelaxationModulus) ** (1 - shift);
}

/**
 * Whole history with the daily moduli where the seasonal ones are the same; else daily and seasonal part, each with its own.
 *
 * @param daily  response at the moduli of the daily cycle
 */
export function thermalParts(geometry: Geometry, daily: ThermalResponse, history: ThermalHistory): ThermalPart[] {
  const {section, meshes} = geometry;
  if (!relaxesFurther(section)) return [{history, opening: daily.opening}];
  const split = splitHistory(history);
  const {model, space} = meshes[HALVED];
  const seasonal = thermalResponse(geometry, thermalCondition(section, "seasonal"));
  const opening = seasonal.opening.slice();
  tipLayers(model, space).forEach((tips, state) => {
    tips.forEach((layer, tip) => {
      if (layer === null) return;
      const factor = seasonalFactor(section.layers[layer].material);
      const at = (state * TIPS.length + tip) * THERMAL_CASES;
      for (let c = 0; c < THERMAL_CASES; c++) opening[at + c] *= factor;
    });
  });
  return [
    {history: split.daily, opening: daily.opening},
    {history: split.seasonal, opening},
  ];
}

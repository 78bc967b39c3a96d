import type {ShownDepth} from "./depths.ts";

/** An hourly record over whole days, as the engine takes it: no gaps, equal steps of one hour. */
export interface WeatherRecord {
  readonly kind: "air" | "surface"; // what `temperature` is
  readonly temperature: Float64Array; // one value an hour [°C]
  readonly solar: Float64Array | null; // global horizontal irradiance [W/m²]; null when not recorded
  readonly wind: Float64Array | null; // wind speed [m/s]; null when not recorded
  readonly dewPoint: Float64Array | null; // of the air [°C]; null when not recorded
  readonly cloud: Float64Array | null; // part of the sky under cloud, 0 to 1 [–]; null when not recorded
  readonly startHour: number; // local hour of day of the first value, 0 ≤ h < 24
  readonly startDay: number | null; // day of the year of the first value, 0: 1 January; null when no date was recorded
  readonly label: string; // where it comes from, shown in the report
}

export interface SurfaceExchange {
  readonly absorptivity: number; // short wave [–]
  readonly emissivity: number; // long wave [–]
  readonly filmCoefficient: number; // used where no wind is recorded [W/(m²·K)]
}

/** The hourly temperature at one depth. */
export interface TemperatureAtDepth extends ShownDepth {
  readonly temperature: Float64Array; // one value an hour [°C]
}

/** Lowest, mean and highest temperature over the record, by depth. */
export interface TemperatureEnvelope {
  readonly depth: Float64Array; // from the surface down [m]
  readonly lowest: Float64Array; // [°C]
  readonly mean: Float64Array; // [°C]
  readonly highest: Float64Array; // [°C]
}

/** What the thermal mechanism, the temperature bins and the report need of the hourly profile. One value an hour. */
export interface PavementTemperatures {
  readonly surface: Float64Array; // [°C]
  readonly overlayMean: Float64Array; // mean over overlay and interlayer [°C]
  readonly slabMean: Float64Array; // mean over the jointed layers [°C]
  readonly slabGradient: Float64Array; // dT/dz of the best straight line through the jointed layers, z down [K/m]
  readonly halfWayOverlay: Float64Array; // at mid-depth of the overlay [°C]
  readonly layerMean: readonly Float64Array[]; // by layer of the section, over its own thickness [°C]
  readonly atDepth: readonly TemperatureAtDepth[]; // for the report; from the surface down
  readonly envelope: TemperatureEnvelope; // for the report
}

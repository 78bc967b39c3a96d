import {InputError, requirePositive} from "../errors.ts";
import {skyPower, ZERO_CELSIUS} from "./sky.ts";
import type {SurfaceExchange, WeatherRecord} from "./types.ts";

/** Stefan–Boltzmann constant σ [W/(m²·K⁴)], CODATA 2018 (exact). */
const STEFAN_BOLTZMANN = 5.670374419e-8;

/**
 * How the surface meets the weather; which one follows from what the record holds.
 * - prescribed: the record is the surface temperature;
 * - film: air temperature without sunshine. One combined coefficient for convection and long wave together, because a
 *   loss to the sky without the sun that makes up for it would leave every mean several degrees too cold;
 * - balance: convection, absorbed sunshine and long-wave exchange with the sky.
 */
export type SurfaceModel =
  | {readonly kind: "prescribed"}
  | {readonly kind: "film"; readonly filmCoefficient: number}
  | {
      readonly kind: "balance";
      readonly absorptivity: number;
      readonly emissivity: number;
      readonly filmCoefficient: number | null; // null: from the wind
    };

/** The weather at one moment and the last known surface temperature. One object, written over at every stage. */
export interface SurfaceConditions {
  temperature: number; // of the air, or of the surface when prescribed [°C]
  solar: number; // global horizontal irradiance [W/m²]
  wind: number; // [m/s]
  dewPoint: number | null; // [°C]; null: not recorded
  cloud: number | null; // part of the sky under cloud [–]; null: not recorded
  surface: number; // about which long wave is linearised [°C]
}

/** @throws InputError "domain" when a property that the record calls for is out of range */
export function surfaceModel(record: WeatherRecord, exchange: SurfaceExchange): SurfaceModel {
  if (record.kind === "surface") return {kind: "prescribed"};
  if (record.solar === null) {
    requirePositive("exchange.filmCoefficient", exchange.filmCoefficient, "W/(m²·K)");
    return {kind: "film", filmCoefficient: exchange.filmCoefficient};
  }
  const {absorptivity, emissivity} = exchange;
  if (!(absorptivity >= 0 && absorptivity <= 1)) {
    throw new InputError("domain", "exchange.absorptivity", absorptivity, "0 ≤ a ≤ 1 [–]");
  }
  if (!(emissivity > 0 && emissivity <= 1)) {
    throw new InputError("domain", "exchange.emissivity", emissivity, "0 < ε ≤ 1 [–]");
  }
  if (record.wind !== null) return {kind: "balance", absorptivity, emissivity, filmCoefficient: null};
  requirePositive("exchange.filmCoefficient", exchange.filmCoefficient, "W/(m²·K)");
  return {kind: "balance", absorptivity, emissivity, filmCoefficient: exchange.filmCoefficient};
}

/**
 * Convective film coefficient of a pavement [W/(m²·K)], free and forced together:
 *
 *   h = 698.24·[0.00144·T_m^0.3·U^0.7 + 0.00097·|T_s − T_a|^0.3],   T_m = (T_s + T_a)/2 in kelvin, U in m/s
 *
 * No range is stated with it; it was measured outdoors, U up to about 10 m/s. 6 to 16 W/(m²·K) at 1 to 4 m/s.
 *
 * @source Vehrencamp 1953, Trans. Am. Geophys. Union 34, 22-30, as used for pavements by Solaimanian & Kennedy 1993,
 *   Transp. Res. Rec. 1417, 1-11. Form and constants read in National Academies Press record 14410, p. 34, Eq. 19,
 *   which leaves the exponent of U and a factor open; 0.7 and 1 from memory.
 */
export function windFilmCoefficient(air: number, surface: number, wind: number): number {
  const mean = 0.5 * (air + surface) + ZERO_CELSIUS;
  return 698.24 * (0.00144 * mean ** 0.3 * wind ** 0.7 + 0.00097 * Math.abs(surface - air) ** 0.3);
}

/**
 * Writes effective temperature θ and film coefficient h such that the heat flow into the pavement is h·(θ − T_s).
 * Long wave is expanded about the last known surface temperature T_o, T_s⁴ ≈ T_o⁴ + 4T_o³·(T_s − T_o) in kelvin:
 *
 *   h = h_c + 4εσT_o³,   h·θ = h_c·T_a + a·G + εσ(T_sky⁴ + 3T_o⁴)
 *
 * What the expansion leaves out is 6εσT_o²·(T_s − T_o)²: 0.7 W/m² for a change of 5 K between two evaluations.
 *
 * @param out  θ [°C] at `at`, h [W/(m²·K)] at `at` + 1; overwritten
 * @source docs/theory/climate.md Eq. 6-9
 */
export function effectiveSurface(
  model: SurfaceModel,
  conditions: SurfaceConditions,
  out: Float64Array,
  at: number,
): void {
  const {temperature, surface} = conditions;
  switch (model.kind) {
    case "prescribed":
      out[at] = temperature;
      out[at + 1] = Infinity;
      return;
    case "film":
      out[at] = temperature;
      out[at + 1] = model.filmCoefficient;
      return;
    case "balance": {
      const convection = model.filmCoefficient ?? windFilmCoefficient(temperature, surface, conditions.wind);
      const longWave = model.emissivity * STEFAN_BOLTZMANN;
      const kelvin = surface + ZERO_CELSIUS;
      const cubed = kelvin * kelvin * kelvin; // products: this runs some hundred thousand times a year
      const film = convection + 4 * longWave * cubed;
      const gain =
        convection * (temperature + ZERO_CELSIUS) +
        model.absorptivity * conditions.solar +
        longWave * (skyPower(conditions) + 3 * cubed * kelvin);
      out[at] = gain / film - ZERO_CELSIUS;
      out[at + 1] = film;
      return;
    }
  }
}

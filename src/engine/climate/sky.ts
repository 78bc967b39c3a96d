/** What the sky sends down in the long wave: from the air temperature alone, or with dew point and cloud. */

export const ZERO_CELSIUS = 273.15; // [K]

/** What of the weather the sky's radiation follows from. */
export interface SkyConditions {
  readonly temperature: number; // of the air [°C]
  readonly dewPoint: number | null; // [°C]; null: not recorded
  readonly cloud: number | null; // part of the sky under cloud [–]; null: not recorded, as if there were none
}

/**
 * Temperature of a black sky that radiates as a clear one does, T_sky = 0.0552·T_a^1.5 in kelvin [°C].
 * Fitted between 2 and 29 °C of night air; clouds radiate more, so losses under cloud are overstated.
 *
 * @source Swinbank 1963, Q. J. R. Meteorol. Soc. 89, 339-348, from memory
 */
export function clearSkyTemperature(air: number): number {
  const kelvin = air + ZERO_CELSIUS;
  return 0.0552 * kelvin * Math.sqrt(kelvin) - ZERO_CELSIUS;
}

/** Dew points between which the emissivity of a clear sky was measured; its parabola turns round at −38 °C [°C]. */
export const MEASURED_DEW_POINTS = {lowest: -20, highest: 30} as const;

/**
 * Emissivity of a clear sky, so that it sends down ε·σ·T_a⁴ [–]:
 *
 *   ε₀ = 0.711 + 0.56·(t_d/100) + 0.73·(t_d/100)²,   t_d the dew point in °C
 *
 * A mean over day and night; the published daily course, ±0.013, and the effect of pressure are left out.
 *
 * @source Berdahl & Martin 1984, Solar Energy 32, 663-664, as quoted in public code of building energy programs (the sky
 *   model of cse-sim/cse among them, read there); the range of dew points from memory
 */
export function clearSkyEmissivity(dewPoint: number): number {
  const hundredth = dewPoint / 100;
  return 0.711 + 0.56 * hundredth + 0.73 * hundredth * hundredth;
}

/** exp(−z/8.2 km) with cloud bases z of 2 km: what low, opaque cloud adds of what a clear sky lacks [–]. */
const CLOUD = 0.784;

/**
 * Emissivity of a sky that is partly under cloud [–]:
 *
 *   ε = ε₀ + (1 − ε₀)·0.784·n,   n the part of the sky under cloud
 *
 * High, thin cloud radiates less than this.
 *
 * @source Martin & Berdahl 1984, Solar Energy 33, 321-336, from memory; the form with 0.784 read in the public issue 19 of
 *   cse-sim/cse, which quotes it from a building code's manual
 */
export function cloudySkyEmissivity(clear: number, cloud: number): number {
  return clear + (1 - clear) * CLOUD * cloud;
}

/** T_sky⁴ of the black sky that sends down as much [K⁴]. */
export function skyPower({temperature, dewPoint, cloud}: SkyConditions): number {
  const kelvin = temperature + ZERO_CELSIUS;
  const power = kelvin * kelvin * (kelvin * kelvin);
  if (dewPoint !== null) {
    const clear = clearSkyEmissivity(dewPoint);
    return power * (cloud === null ? clear : cloudySkyEmissivity(clear, cloud));
  }
  const sky = clearSkyTemperature(temperature) + ZERO_CELSIUS;
  const clearPower = sky * sky * (sky * sky);
  return cloud === null ? clearPower : power * cloudySkyEmissivity(clearPower / power, cloud);
}

/** Coefficients of saturation over water [–, °C]. */
const MAGNUS = {a: 17.625, b: 243.04} as const;

/**
 * Dew point from relative humidity [°C]:
 *
 *   t_d = b·γ/(a − γ),   γ = ln(RH/100 %) + a·t/(b + t)
 *
 * Saturation over water, also below 0 °C, as weather services state humidity. Within 0.4 % of the vapour pressure from −40 to
 * 50 °C, about 0.06 K.
 *
 * @param temperature  of the air [°C]
 * @param humidity     over water [%], > 0
 * @source Alduchov & Eskridge 1996, J. Appl. Meteorol. 35, 601-609: constants read in public code, accuracy from memory
 */
export function dewPointOf(temperature: number, humidity: number): number {
  const gamma = Math.log(humidity / 100) + (MAGNUS.a * temperature) / (MAGNUS.b + temperature);
  return (MAGNUS.b * gamma) / (MAGNUS.a - gamma);
}

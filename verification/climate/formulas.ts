/** Published relations for pavement temperature, in the units of their authors. Temperatures in °C unless said otherwise. */

/** Hour on the 18-hour clock of BELLS: outside the span the sine stands at −1. */
function bellsSine(hour: number, zero: number, [from, to]: readonly [number, number]): number {
  if (hour > to && hour < from) return -1;
  const counted = hour <= to ? hour + 24 : hour;
  return Math.sin((2 * Math.PI * (counted - zero)) / 18);
}

export interface BellsInput {
  readonly surface: number; // infrared reading
  readonly depth: number; // [mm]
  readonly dayBefore: number; // mean of the highest and the lowest air temperature of the day before
  readonly hour: number; // of the day
}

/** Lukanen, Stubstad & Briggs 2000, FHWA-RD-98-085: BELLS2 for readings in shade of some minutes, BELLS3 for routine ones. */
export function bells(version: 2 | 3, {surface, depth, dayBefore, hour}: BellsInput): number {
  const s155 = bellsSine(hour, 15.5, [11, 5]);
  const s135 = bellsSine(hour, 13.5, [9, 3]);
  const lg = Math.log10(depth) - 1.25;
  return version === 2
    ? 2.78 + 0.912 * surface + lg * (-0.428 * surface + 0.553 * dayBefore + 2.63 * s155) + 0.027 * surface * s135
    : 0.95 + 0.892 * surface + lg * (-0.448 * surface + 0.621 * dayBefore + 1.83 * s155) + 0.042 * surface * s135;
}

/** SHRP, highest temperature at the surface, from the hottest seven-day mean of daily highest air temperature. */
export function shrpSurface(air: number, latitude: number): number {
  return air - 0.00618 * latitude ** 2 + 0.2289 * latitude + 24.4;
}

/** SHRP, the same 20 mm down. */
export function shrpAt20(air: number, latitude: number): number {
  return (air - 0.00618 * latitude ** 2 + 0.2289 * latitude + 42.2) * 0.9545 - 17.78;
}

/** LTPP, highest; depth in mm (Mohseni 1998, FHWA-RD-97-103), at 50 % reliability. */
export function ltppHigh(air: number, latitude: number, depth: number): number {
  return 54.32 + 0.78 * air - 0.0025 * latitude ** 2 - 15.14 * Math.log10(depth + 25);
}

/** LTPP, lowest, from the lowest air temperature; as above. */
export function ltppLow(air: number, latitude: number, depth: number): number {
  return -1.56 + 0.72 * air - 0.004 * latitude ** 2 + 6.26 * Math.log10(depth + 25);
}

export interface BarberInput {
  readonly mean: number; // of the air over the day [°F]
  readonly range: number; // of the air over the day [°F]
  readonly sun: number; // on the day [langley]
  readonly wind: number; // [mph]
  readonly absorptivity: number; // [–]
  readonly conductivity: number; // [BTU/(ft·h·°F)]
  readonly specificHeat: number; // [BTU/(lb·°F)]
  readonly weight: number; // [lb/ft³]
}

export interface BarberWave {
  readonly film: number; // h [BTU/(ft²·h·°F)]
  readonly C: number; // [1/ft]
  readonly H: number; // h/k [1/ft]
  readonly ratio: number; // surface over effective air [–]
  readonly highest: number; // of the surface [°F]
  readonly lowest: number; // of the surface [°F]
}

/** Barber 1957, Highway Research Board Bulletin 168: a day as a sine wave of effective air temperature. */
export function barber(input: BarberInput): BarberWave {
  const {mean, range, sun, wind, absorptivity, conductivity, specificHeat, weight} = input;
  const film = 1.3 + 0.62 * wind ** 0.75;
  const C = Math.sqrt(0.131 / (conductivity / (specificHeat * weight)));
  const H = film / conductivity;
  const ratio = H / Math.hypot(H + C, C);
  const R = ((2 / 3) * ((3.69 * absorptivity * sun) / 24)) / film;
  const middle = mean + R;
  return {
    film,
    C,
    H,
    ratio,
    highest: middle + (0.5 * range + 3 * R) * ratio,
    lowest: middle - 0.5 * range * ratio,
  };
}

import {InputError} from "../errors.ts";

export interface DailyHours {
  readonly minimum: number; // local hour of the day's lowest temperature, about sunrise, 0 ≤ h < maximum
  readonly maximum: number; // local hour of its highest, 14 in the source, < 24
}

/**
 * Hourly air temperature from daily extremes: half a cosine up from the minimum to the maximum, half a cosine down to
 * the next day's minimum. With t_n, t_x the hours of minimum and maximum,
 *
 *   T = (T_x + T_n)/2 − (T_x − T_n)/2·cos[π(t − t_n)/(t_x − t_n)]            t_n ≤ t ≤ t_x
 *   T = (T_x + T_n′)/2 + (T_x − T_n′)/2·cos[π(t − t_x)/(24 + t_n − t_x)]     t_x ≤ t ≤ t_n + 24
 *
 * T_n′ the next minimum. Extremes are met exactly when both hours are whole. The days are one period of a periodic
 * history: the last night ends at the first minimum. Fronts within a day are lost, as they are in the daily record.
 *
 * @returns 24 values a day from hour 0 of the first day [°C]
 * @throws InputError "shape" | "domain"
 * @source de Wit 1978, Simulation of Assimilation, Respiration and Transpiration of Crops, as given by Reicosky et
 *   al. 1989, Agric. For. Meteorol. 46, 193-209 (maximum at 14 h, minimum at sunrise); from memory
 */
export function hourlyFromDailyExtremes(minimum: Float64Array, maximum: Float64Array, hours: DailyHours): Float64Array {
  const days = minimum.length;
  if (days === 0) throw new InputError("shape", "minimum.length", 0, "≥ 1");
  if (maximum.length !== days) throw new InputError("shape", "maximum.length", maximum.length, `${days}`);
  if (!(hours.maximum < 24)) throw new InputError("domain", "hours.maximum", hours.maximum, "< 24");
  if (!(hours.minimum >= 0 && hours.minimum < hours.maximum)) {
    throw new InputError("domain", "hours.minimum", hours.minimum, `0 ≤ hour < ${hours.maximum}`);
  }
  for (let d = 0; d < days; d++) {
    if (!Number.isFinite(minimum[d])) throw new InputError("domain", `minimum[${d}]`, minimum[d], "finite [°C]");
    if (!(maximum[d] >= minimum[d] && maximum[d] < Infinity)) {
      throw new InputError("domain", `maximum[${d}]`, maximum[d], `finite, ≥ the day's minimum ${minimum[d]} [°C]`);
    }
  }

  const hourly = new Float64Array(24 * days);
  const rise = hours.maximum - hours.minimum;
  for (let d = 0; d < days; d++) {
    const before = (d + days - 1) % days;
    const after = (d + 1) % days;
    for (let t = 0; t < 24; t++) {
      const i = 24 * d + t;
      if (t < hours.minimum) hourly[i] = between(maximum[before], minimum[d], (t + 24 - hours.maximum) / (24 - rise));
      else if (t <= hours.maximum) hourly[i] = between(minimum[d], maximum[d], (t - hours.minimum) / rise);
      else hourly[i] = between(maximum[d], minimum[after], (t - hours.maximum) / (24 - rise));
    }
  }
  return hourly;
}

/** Half a cosine from one value to another. */
function between(from: number, to: number, part: number): number {
  return from + (to - from) * Math.sin(0.5 * Math.PI * part) ** 2; // sin² = (1 − cos)/2, exact at both ends
}

import {InputError} from "../errors.ts";

/** A span of overlay temperature and its share of the hours. */
export interface TemperatureShare {
  readonly temperature: number; // mean over the hours in it [°C]
  readonly share: number; // of all hours, or of the traffic in them [–]
  readonly below: number; // its hours are colder; those of the last bin all that are left [°C]
}

/** Outside these fractions of the hours a temperature joins the outermost bin instead of widening all of them [–]. */
const TAIL = 0.01;

/**
 * Temperature bins of equal width between the 1st and the 99th percentile of the overlay's hourly temperature. Hours
 * beyond belong to the first and last bin, so every hour counts and a single frosty night does not stretch the bins.
 * Equal width rather than equal hours: stiffness depends on temperature, and the few hot hours in which asphalt is
 * soft keep a bin to themselves. Each bin stands at the mean of its own hours, so shares times temperatures give the
 * mean of the record; bins without hours, or without traffic in them, are left out.
 *
 * @param count    most bins wanted, a whole number ≥ 1; fewer come back when some are empty
 * @param traffic  of each hour, relative, by which shares and means are weighted [–], ≥ 0; null: all hours alike
 * @returns ascending temperatures; the shares, summed in order, are exactly 1
 * @throws InputError "shape" | "domain"
 */
export function deriveBins(
  halfWayOverlay: Float64Array,
  count: number,
  traffic: Float64Array | null = null,
): TemperatureShare[] {
  const n = halfWayOverlay.length;
  if (n === 0) throw new InputError("shape", "halfWayOverlay.length", 0, "≥ 1");
  if (!(Number.isInteger(count) && count >= 1)) throw new InputError("domain", "count", count, "whole number ≥ 1");
  const wrong = halfWayOverlay.findIndex(x => !Number.isFinite(x));
  if (wrong >= 0) throw new InputError("domain", `halfWayOverlay[${wrong}]`, halfWayOverlay[wrong], "finite [°C]");

  const order = Uint32Array.from(halfWayOverlay.keys()).sort((i, j) => halfWayOverlay[i] - halfWayOverlay[j]);
  const sorted = Float64Array.from(order, i => halfWayOverlay[i]);
  const weights = traffic ? Float64Array.from(order, i => traffic[i]) : new Float64Array(n).fill(1);
  const total = weights.reduce((sum, w) => sum + w, 0);
  if (!(total > 0)) throw new InputError("domain", "traffic, sum over the hours", total, "> 0 [–]");
  const low = sorted[Math.floor(TAIL * (n - 1))];
  const high = sorted[Math.ceil((1 - TAIL) * (n - 1))];
  const width = (high - low) / count;

  const bins: TemperatureShare[] = [];
  let from = 0;
  for (let b = 0; b < count && from < n; b++) {
    const edge = b === count - 1 || width === 0 ? Infinity : low + (b + 1) * width;
    let to = from;
    let sum = 0;
    let passed = 0;
    for (; to < n && sorted[to] < edge; to++) {
      sum += weights[to] * (sorted[to] - sorted[from]);
      passed += weights[to];
    }
    if (passed > 0) bins.push({temperature: sorted[from] + sum / passed, share: passed / total, below: edge});
    from = to;
  }
  const given = bins.slice(0, -1).reduce((all, {share}) => all + share, 0);
  bins[bins.length - 1] = {...bins[bins.length - 1], share: 1 - given}; // the last takes what rounding left
  return bins;
}

/**
 * Mean of another hourly temperature over the hours of each bin, weighted as the bins are [°C]: what a layer has while the
 * overlay is in that bin.
 *
 * @param bins            from `deriveBins`
 * @param halfWayOverlay  that they were derived from
 * @param values          one an hour, as many [°C]
 * @param traffic         as given to `deriveBins`
 */
export function meansByBin(
  bins: readonly TemperatureShare[],
  {
    halfWayOverlay,
    values,
    traffic,
  }: {
    readonly halfWayOverlay: Float64Array;
    readonly values: Float64Array;
    readonly traffic: Float64Array | null;
  },
): number[] {
  if (values.length !== halfWayOverlay.length)
    throw new InputError("shape", "values.length", values.length, `${halfWayOverlay.length}, one an hour`);
  const sums = new Float64Array(bins.length);
  const weights = new Float64Array(bins.length);
  for (let h = 0; h < values.length; h++) {
    let b = 0;
    while (b < bins.length - 1 && halfWayOverlay[h] >= bins[b].below) b++;
    const weight = traffic ? traffic[h] : 1;
    sums[b] += weight * (values[h] - bins[b].temperature);
    weights[b] += weight;
  }
  return bins.map(({temperature}, b) => temperature + sums[b] / weights[b]);
}

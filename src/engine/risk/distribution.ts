import {InputError} from "../errors.ts";
import {normalQuantile} from "../statistics/index.ts";
import {requireSound} from "./faults.ts";
import {type Atoms, atomsOf, atomsWithin, cutOf, logDeviation} from "./truncation.ts";
import type {Distribution} from "./types.ts";

/**
 * The value that is not exceeded with probability u.
 *
 * Truncation is by conditioning: the part within the limits is kept and scaled up to one,
 *
 *   x(u) = F⁻¹(F(low) + u·[F(high) − F(low)])
 *
 * so that no value gathers at a limit. The upper half goes by the complement, for the digits of its tail. Of values
 * without a density (discrete, sample) it is the smallest whose cumulative probability reaches u.
 *
 * @returns a function of u in (0, 1), which throws InputError "domain" for any other u
 * @throws InputError "domain" when the distribution has a fault
 */
export function quantileOf(distribution: Distribution): (u: number) => number {
  requireSound(distribution);
  const atoms = atomsOf(distribution);
  if (atoms) {
    const steps = stepsOf(atomsWithin(atoms, distribution));
    return u => steps(checked(u));
  }
  const cut = cutOf(distribution);
  const inverse = inverseOf(distribution);
  const {low, high} = distribution.truncated ?? {low: -Infinity, high: Infinity};
  return u => {
    const x = inverse(cut.below + checked(u) * cut.kept, cut.above + (1 - u) * cut.kept);
    return Math.min(high, Math.max(low, x)); // only rounding could pass a limit
  };
}

function checked(u: number): number {
  if (!(u > 0 && u < 1)) throw new InputError("domain", "u", u, "in (0, 1)");
  return u;
}

/** F⁻¹ by the probability below and that above, which add up to one. */
function inverseOf(distribution: Distribution): (lower: number, upper: number) => number {
  switch (distribution.kind) {
    case "normal": {
      const {mean, deviation} = distribution;
      return (lower, upper) => mean + deviation * standardQuantile(lower, upper);
    }
    case "lognormal": {
      const {median} = distribution;
      const s = logDeviation(distribution.coefficientOfVariation);
      return (lower, upper) => median * Math.exp(s * standardQuantile(lower, upper));
    }
    case "uniform": {
      const {low, high} = distribution;
      return (lower, upper) => (lower <= upper ? low + lower * (high - low) : high - upper * (high - low));
    }
    case "triangular": {
      const {low, mode, high} = distribution;
      const width = high - low;
      return (lower, upper) =>
        lower * width <= mode - low
          ? low + Math.sqrt(lower * width * (mode - low))
          : high - Math.sqrt(upper * width * (high - mode));
    }
    default:
      throw new RangeError(`${distribution.kind} has no density`);
  }
}

/** Φ⁻¹ by the smaller of the two probabilities. */
function standardQuantile(lower: number, upper: number): number {
  return lower <= upper ? normalQuantile(lower) : -normalQuantile(upper);
}

function stepsOf({values, probabilities}: Atoms): (u: number) => number {
  let sum = 0;
  const upTo = probabilities.map(p => {
    sum += p;
    return sum;
  });
  return u => {
    let low = 0;
    let high = values.length - 1; // the last one's sum may miss 1 by rounding
    while (low < high) {
      const middle = (low + high) >> 1;
      if (upTo[middle] >= u) high = middle;
      else low = middle + 1;
    }
    return values[low];
  };
}

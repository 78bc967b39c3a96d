import {InputError, requireNonNegative, requirePositive} from "../errors.ts";
import type {Wander} from "./types.ts";

/**
 * Part of the passes that bring the point at `at` into each cell of a group's width [–]: with F the part of the passes
 * whose lateral offset is at most so much, F(at − e_k) − F(at − e_{k+1}).
 *
 * @param edges  e, of the cells, ascending, one more than cells [m]
 * @throws InputError "domain" | "shape" on a wander that is none
 */
export function cellShares(edges: ArrayLike<number>, at: number, wander: Wander): Float64Array {
  const passedBelow = cumulative(wander);
  const shares = new Float64Array(edges.length - 1);
  let before = passedBelow(at - edges[0]);
  for (let k = 0; k < shares.length; k++) {
    const after = passedBelow(at - edges[k + 1]);
    shares[k] = before - after;
    before = after;
  }
  return shares;
}

/** Every pass on one line. */
export function keepsToLine(wander: Wander): boolean {
  return wander.kind === "normal" && wander.deviation === 0;
}

/** Part of the passes whose lateral offset is at most so much, as a function of it [m]. */
export function cumulative(wander: Wander): (offset: number) => number {
  switch (wander.kind) {
    case "normal": {
      const {deviation} = wander;
      requireNonNegative("wander.deviation", deviation, "m");
      return deviation === 0 ? d => (d >= 0 ? 1 : 0) : d => normalIntegral(d / deviation);
    }
    case "uniform": {
      const {width} = wander;
      requirePositive("wander.width", width, "m");
      return d => Math.min(1, Math.max(0, d / width + 0.5));
    }
    case "histogram":
      return histogramBelow(wander);
  }
}

/** Passes are spread evenly over each cell of a histogram. */
function histogramBelow({edges, shares}: Extract<Wander, {kind: "histogram"}>): (offset: number) => number {
  if (shares.length < 1 || edges.length !== shares.length + 1)
    throw new InputError("shape", "wander.edges.length", edges.length, `${shares.length + 1}, one more than shares`);
  const falls = edges.findIndex((e, k) => !(Number.isFinite(e) && (k === 0 || e > edges[k - 1])));
  if (falls >= 0) throw new InputError("domain", `wander.edges[${falls}]`, edges[falls], "finite, ascending [m]");
  const below = [0];
  for (const share of shares) {
    requireNonNegative("wander.shares", share, "–");
    below.push(below[below.length - 1] + share);
  }
  const total = below[below.length - 1];
  if (!(Math.abs(total - 1) < 1e-9)) throw new InputError("domain", "wander.shares, sum", total, "1 [–]");
  return d => {
    if (d <= edges[0]) return 0;
    const k = edges.findIndex(e => e > d);
    if (k < 0) return 1;
    return below[k - 1] + (shares[k - 1] * (d - edges[k - 1])) / (edges[k] - edges[k - 1]);
  };
}

/**
 * Φ(z) = ½ + φ(z)·(z + z³/3 + z⁵/(3·5) + …): terms of one sign, so nothing cancels. Absolute error about 1e-16.
 *
 * @source Abramowitz & Stegun 1964, Eq. 26.2.11
 */
function normalIntegral(z: number): number {
  if (z > 8.5) return 1; // 1 − Φ(8.5) = 1e-17
  if (z < -8.5) return 0;
  let term = z;
  let sum = z;
  for (let n = 3; Math.abs(term) > 1e-17 * Math.abs(sum); n += 2) {
    term *= (z * z) / n;
    sum += term;
  }
  return 0.5 + (sum * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI);
}

import {uniformFloat64} from "pure-rand/distribution/uniformFloat64";
import {xoroshiro128plus} from "pure-rand/generator/xoroshiro128plus";
import {normalQuantile} from "./distributions.ts";

/** Draws from one stream; the same seed gives the same draws. */
export interface RandomStream {
  /** In (0, 1), ends excluded. */
  readonly uniform: () => number;
  /** Standard normal, by inversion. */
  readonly normal: () => number;
}

/** Draws thrown away: a state filled from one small number begins with draws that show it. */
const WARM_UP = 64;

/**
 * A seed with each of its bits spread over all 32: without it streams of neighbouring seeds stay correlated.
 *
 * @source finalizer of MurmurHash3, A. Appleby, public domain
 */
function mixed(seed: number): number {
  let h = seed ^ 0x9e3779b9;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return h ^ (h >>> 16);
}

/** @param seed a whole number */
export function randomStream(seed: number): RandomStream {
  const generator = xoroshiro128plus(mixed(seed));
  for (let k = 0; k < WARM_UP; k++) generator.next();
  const uniform = (): number => {
    const u = uniformFloat64(generator);
    return u > 0 ? u : uniform();
  };
  return {uniform, normal: () => normalQuantile(uniform())};
}

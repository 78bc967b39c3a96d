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

/** Draws thrown away: the first ones of neighbouring seeds are alike. */
const WARM_UP = 64;

/** @param seed a whole number */
export function randomStream(seed: number): RandomStream {
  const generator = xoroshiro128plus(seed);
  for (let k = 0; k < WARM_UP; k++) generator.next();
  const uniform = (): number => {
    const u = uniformFloat64(generator);
    return u > 0 ? u : uniform();
  };
  return {uniform, normal: () => normalQuantile(uniform())};
}

/** Distributions and random streams. Theory: docs/theory/laboratory.md. */
export {
  chiSquareQuantile,
  fCdf,
  fQuantile,
  normalCdf,
  normalDensity,
  normalQuantile,
  tCdf,
  tQuantile,
} from "./distributions.ts";
export {type Minimum, minimize} from "./minimize.ts";
export {type RandomStream, randomStream} from "./random.ts";
export {type Factored, factored} from "./spd.ts";

/** Loads, their counts and growth. Theory: docs/theory/layered.md. */
export {axleLines} from "./axles.ts";
export {standardAxleEquivalence} from "./equivalence.ts";
export {growthFactor} from "./growth.ts";
export {isSymmetric} from "./symmetry.ts";
export type * from "./types.ts";

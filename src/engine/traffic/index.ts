/** Loads, their counts and growth. Theory: docs/theory/traffic.md. */
export {axleLines} from "./axles.ts";
export {trafficByHour} from "./calendar.ts";
export {passesPerCoverage} from "./coverage.ts";
export {standardAxleEquivalence} from "./equivalence.ts";
export {growthFactor} from "./growth.ts";
export {geometriesOf, loadRatio, type Stream, type StreamLoad, streamsOf} from "./streams.ts";
export {isSymmetric} from "./symmetry.ts";
export type * from "./types.ts";
export {cellShares, cumulative, keepsToLine} from "./wander.ts";

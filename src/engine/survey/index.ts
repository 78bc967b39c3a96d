/** Lives over ranges of inputs: where to compute them, what lies between, what they say. Theory: docs/where-it-pays.md. */

export {cubicWeights, interpolated, type NodeGrid} from "./interpolate.ts";
export {axisLevels, type GridLevel, gridLevels, newNodes} from "./levels.ts";
export {type Governing, governingOf, REFLECTION, recordLives} from "./record.ts";
export type * from "./types.ts";

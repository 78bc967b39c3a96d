/** The pavement: layers, materials, joint; mesh of its half model. Theory: docs/theory/section.md. */
export {type BeyondTests, beyondTests, relaxationBeyondTests} from "./beyondTests.ts";
export {bondBelow} from "./bond.ts";
export {type CurveSummary, curveSummary, type RelaxationReading} from "./curveSummary.ts";
export {
  type CbrRelation,
  type ModulusEstimate,
  modulusFromCbr,
  modulusFromReaction,
  type ReactionRelation,
} from "./estimates.ts";
export {
  buildGrid,
  type Contact,
  type Grid,
  type GridElement,
  type GridRules,
  gradedLines,
  type Refinement,
  SIDE,
} from "./grid.ts";
export type {LineNode} from "./lineNodes.ts";
export {
  buildMesh,
  type InterfaceSpring,
  interfaceDepths,
  isPath,
  type Mesh,
  type MeshOptions,
  type SurfaceNode,
  thicknessOf,
} from "./mesh.ts";
export {modulusAt} from "./modulus.ts";
export type * from "./types.ts";

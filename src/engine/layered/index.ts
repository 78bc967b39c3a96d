/** Multilayer linear elasticity under circular loads. Theory: docs/theory/layered.md. */
export {layeredModel, layeredResponses} from "./model.ts";
export {largestHorizontal, largestPrincipal} from "./principal.ts";
export type {
  CircularLoad,
  ElasticBase,
  ElasticLayer,
  FieldPoint,
  LayeredModel,
  LayeredResponse,
  PointResponse,
  SymmetricTensor,
} from "./types.ts";

/** Multilayer linear elasticity under circular loads. Theory: docs/theory/layered.md. */
export {layeredModel} from "./model.ts";
export {fatigueDamage, type OrdinaryCase, ordinaryLives} from "./ordinary.ts";
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

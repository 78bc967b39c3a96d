/** Multilayer linear elasticity under circular loads. Theory: docs/theory/layered.md. */
export {type ElasticSets, horizontalStrains} from "./horizontal.ts";
export {layeredModel} from "./model.ts";
export {largestHorizontal, largestPrincipal} from "./principal.ts";
export {halfSpaceDeflection, type SurfaceGeometry, type SurfaceModel, surfaceModel} from "./surface.ts";
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

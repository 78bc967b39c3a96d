/** The cracked section under wheels and temperature: semi-analytical elements and the line x = 0. Theory: docs/theory/response.md. */

export {type BetweenTables, correctionBetween} from "./between.ts";
export {type ContactSystems, contactPressures} from "./contact.ts";
export {type DirectCase, type DirectSolution, solveDirect} from "./direct.ts";
export {elementStiffness, type Lame, lame} from "./element.ts";
export {
  type ClosurePair,
  energyReleaseRates,
  type Modes,
  stressIntensities,
  type TipClosure,
  type TipPlace,
  tipClosure,
} from "./energy.ts";
export {condense, type LineModel, lineModel, type NodePlaces, type Stiffnesses, type StrainCase} from "./line.ts";
export {inverseWeights, type Strip, type SurfaceLoads, type Wavenumbers, wavenumbers, wheelLoads} from "./loads.ts";
export {
  beamGeometry,
  type Condition,
  type Geometry,
  type GeometryOptions,
  meshSizes,
  modelledSlabs,
  pathMaterial,
  responseGeometry,
  stiffnesses,
  THERMAL_CASES,
  waveGroups,
  waveScale,
} from "./model.ts";
export {
  antisymmetricPart,
  contactSegments,
  faceSegment,
  type Segment,
  symmetricPart,
  type Tableau,
} from "./parts.ts";
export {
  COARSE,
  coarseTables,
  correctionTables,
  HALVED,
  type MeshOfPair,
  respond,
  responseTables,
  type SolvedPair,
  waveSolver,
} from "./respond.ts";
export {
  type CrackLengths,
  type CrackState,
  crackLengths,
  type StateSpace,
  stateSpace,
  tipDepths,
  tipLayers,
} from "./states.ts";
export {
  type Combination,
  openingCombinations,
  shearCombinations,
  sweepStates,
  TIPS,
  type Tip,
  type TipZones,
  zonesOf,
} from "./sweep.ts";
export {
  addInterpolated,
  combine,
  type Patch,
  type ResponseTables,
  SHEARS,
  settledOpening,
  type WaveValues,
} from "./tables.ts";
export {type Tie, tieOf} from "./tie.ts";
export {
  type EdgeDeflections,
  type EdgeWheel,
  edgeDeflections,
  type TestedPosition,
  type TransferSpring,
  testDeflections,
  transferSpring,
} from "./transfer.ts";
export {BLOCK, transform, transformBlock, wholeBlocks} from "./transform.ts";
export {type Zone, type ZoneRequest, zone} from "./zone.ts";

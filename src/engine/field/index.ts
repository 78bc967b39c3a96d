/** Strain, stress and movement around the joint, for pictures. Theory: docs/theory/field.md. */
export {type FieldMeshRequest, type FieldSize, type FieldWindow, fieldModel} from "./mesh.ts";
export {addInside, condenseOpen, NODAL, type OpenedWave} from "./recover.ts";
export {type FieldArrays, fieldArrays, type PositionOf, writePosition} from "./strains.ts";
export {type HalfWindow, halfWindow, type WholeWindow, wholeWindow} from "./window.ts";

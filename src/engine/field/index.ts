/** Strain, stress and movement around the joint, for pictures. Theory: docs/theory/field.md. */
export {type FieldMeshRequest, type FieldSize, type FieldView, fieldModel} from "./mesh.ts";
export {addInside, condenseOpen, NODAL, type OpenedWave} from "./recover.ts";
export {type FieldArrays, fieldArrays, type PositionOf, writePosition} from "./strains.ts";
export {type HalfView, halfView, type WholeView, wholeView} from "./view.ts";

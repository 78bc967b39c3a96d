/** The pavement: layers, materials, joint. Theory: docs/theory/section.md. */
export {modulusAt} from "./modulus.ts";
export type * from "./types.ts";

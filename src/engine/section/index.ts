/** The pavement: layers, materials, joint. Theory: docs/theory/section.md. */
export type * from "./types.ts";

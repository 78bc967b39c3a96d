/** Moduli of layers from a deflection bowl, and how well it determines them. Theory: docs/theory/backanalysis.md. */
export {backAnalyse} from "./backAnalyse.ts";
export type * from "./types.ts";

/** Numerical tools without physics. Theory: docs/theory/numeric.md. */
export {eliminate, release, solveFactored} from "./dense.ts";
export type {Plan, PlanElement, Workspace} from "./multifrontal.ts";
export {planElimination, runElimination, workspace} from "./multifrontal.ts";

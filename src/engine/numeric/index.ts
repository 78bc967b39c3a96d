/** Numerical tools without physics. Theory: docs/theory/numeric.md. */
export {backSubstitute, type Factor, factorOf, type Inside, insideAt} from "./backSubstitution.ts";
export {solve} from "./dense.ts";
export {exp, ln} from "./functions.ts";
export {eliminate, eliminateFront, type Kernel, plainKernel, simdKernel, threadKernel} from "./kernel.ts";
export {monotoneSlope} from "./monotone.ts";
export {type Plan, type PlanElement, planElimination, runElimination} from "./multifrontal.ts";
export {PANEL, packedLength, packedRow} from "./packed.ts";
export {tridiagonalModes} from "./tridiagonal.ts";

import {createHash} from "node:crypto";
import {samplingRules} from "../compute/index.ts";
import type {RiskPlan} from "../engine/uncertainty/index.ts";

/** Of all that samples depend on beside the study and its treatments, so that a run file of others is seen. */
export function samplingHash(plan: RiskPlan): string {
  return createHash("sha256").update(samplingRules(plan)).digest("hex").slice(0, 16);
}

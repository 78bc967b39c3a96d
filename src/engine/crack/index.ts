/** Tip strain, growth laws, cycle counting. Theory: docs/theory/crack.md, docs/theory/cycles.md. */
export {equivalentIntensity, growthCoefficient, tipStrain, type ZoneMeans} from "./law.ts";
export {
  type CycleVisitor,
  rainflow,
  rainflowDamage,
  repeatingRainflow,
  repeatingRainflowDamage,
  turningPoints,
  withNext,
} from "./rainflow.ts";

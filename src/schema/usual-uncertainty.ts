/**
 * Usual spread of what a study does not say more about. Coefficients of variation are the middle of ranges collected for
 * mechanistic design of asphalt pavements; those of the model's open choices are wide because nobody has measured them.
 *
 * @source layers and moduli: Timm, Newcomb & Galambos 2000, Transportation Research Record 1730 (from memory); the rest: common
 *         practice, no source
 */
export const usualSpread = {
  lawDeviation: 0.5, // of ln A where no law file tells it [–]
  rates_percent: 50, // field against laboratory, all laws together
  passes_percent: 15,
  loads_percent: 5,
  growth_points: 1, // percentage points a year
  temperatures_percent: 5,
  fatigue_percent: 15, // ε₆
  asphaltThickness_percent: 7,
  baseModulus_percent: 25,
  foundationModulus_percent: 35,
  relaxation_percent: 50,
  interlock_MPa_per_mm: {low: 0, high: 20}, // least likely at the high end
  shearWeight: {low: 0.5, high: 1},
  cutDepth_mm: {low: 150, high: 600},
} as const;

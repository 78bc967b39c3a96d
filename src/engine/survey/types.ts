/** Lives at one point of a survey, as much of a result as is kept. */
export interface PointLives {
  readonly treatments: readonly TreatmentPoint[]; // as in the study: the control first
  readonly warnings: readonly string[]; // without repetition
}

export interface TreatmentPoint {
  readonly name: string;
  readonly overlay: number; // thickness of its courses, without the interlayer [m]
  readonly lives: Readonly<Record<string, PointLife>>; // by mechanism and, away from the joint, layer
  readonly presentWorth: number | null; // of all costs [cur/m²]; null: the study has no prices
}

export interface PointLife {
  readonly years: number; // [years]
  readonly censored: boolean; // the true life is longer
}

/** Something could not be computed at a point; the others stand all the same. */
export interface PointFailure {
  readonly failed: string; // why, for people
}

export type PointOutcome = PointLives | PointFailure;

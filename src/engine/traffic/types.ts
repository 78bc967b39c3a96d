/** One tyre of an axle group or gear: uniform pressure on a rectangle. x in the direction of travel, y across it. */
export interface Wheel {
  readonly x: number; // centre, relative to the group's reference [m]
  readonly y: number; // centre, relative to the group's reference [m]
  readonly load: number; // [N]
  readonly length: number; // of the contact patch along x, 2a [m]
  readonly width: number; // of the contact patch along y, 2b [m]
}

/** An axle group or aircraft gear with its count. */
export interface LoadClass {
  readonly name: string;
  readonly wheels: readonly Wheel[];
  readonly passesPerYear: number; // in the first year [1/year]
  readonly growth: number; // compound, per year [–]; 0.02 is 2 %
  readonly wanderDeviation: number; // standard deviation of the lateral position, normal [m]
}

export interface Traffic {
  readonly classes: readonly LoadClass[];
  readonly standardAxle: LoadClass; // in whose passes lives are also told
}

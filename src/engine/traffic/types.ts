/** One tyre of an axle group or gear: uniform pressure on a rectangle. x in the direction of travel, y across it. */
export interface Wheel {
  readonly x: number; // centre, relative to the group's reference [m]
  readonly y: number; // centre, relative to the group's reference [m]
  readonly load: number; // [N]
  readonly length: number; // of the contact patch along x, 2a [m]
  readonly width: number; // of the contact patch along y, 2b [m]
}

/** How the lateral position of passes is spread about the group's reference line. */
export type Wander =
  | {readonly kind: "normal"; readonly deviation: number} // standard deviation [m], ≥ 0
  | {readonly kind: "uniform"; readonly width: number} // from edge to edge [m], > 0
  | {
      readonly kind: "histogram"; // measured
      readonly edges: readonly number[]; // of the cells, ascending [m]
      readonly shares: readonly number[]; // of the passes, one fewer than edges [–]; sum 1
    };

/** An axle group or aircraft gear with its count. */
export interface LoadClass {
  readonly name: string;
  readonly group: string | null; // axle group or gear, of which the class is one load; null: it stands for itself
  readonly wheels: readonly Wheel[];
  readonly passesPerYear: number; // in the first year [1/year]
  readonly growth: number; // compound, per year [–]; 0.02 is 2 %
  readonly wander: Wander;
}

/** When in the day and the year vehicles pass. */
export interface TrafficCalendar {
  readonly hours: readonly number[] | null; // share of the passes in each local hour from midnight [–]; null: all alike
  readonly months: readonly number[] | null; // share in each month from January [–]; null: all days alike
}

export interface Traffic {
  readonly classes: readonly LoadClass[];
  readonly calendar: TrafficCalendar;
  readonly standardAxle: LoadClass; // in whose passes lives are also told
}

/**
 * Wheel-tracked beams: an overlay, with or without an interlayer, on two blocks with a gap between them, on an elastic
 * support; a wheel runs over the gap and the crack is read on both faces. SI throughout; temperatures in °C; lengths
 * along the beam are relative to the middle of the gap.
 */

/** One bonded course of the beam. */
export interface BeamCourse {
  readonly material: string;
  readonly thickness: number; // [m]
  readonly modulus: number; // at the temperature and speed of the test [Pa]
  readonly poisson: number; // [–]
}

/** The two blocks under the courses. */
export interface BeamBase {
  readonly thickness: number; // [m]
  readonly modulus: number; // [Pa]
  readonly poisson: number; // [–]
  readonly gap: number; // width of the joint between the blocks [m]
}

/** What the blocks stand on: told by its stiffness, or by a deflection measured under a load at rest. */
export type BeamFoundation =
  | {readonly kind: "stiffness"; readonly stiffness: number} // pressure per deflection [Pa/m]
  | {
      readonly kind: "deflection";
      readonly load: number; // [N]
      readonly deflection: number; // [m]
      readonly at?: number; // of load and gauge [m]; not told: at the gap
    };

/** What was read of one crack on one face. */
export type CrackReading =
  | {readonly kind: "length"; readonly length: number} // [m]
  | {readonly kind: "not visible"} // shorter than the detection limit
  | {readonly kind: "through"}; // over the whole thickness of the courses

export interface BeamReading {
  readonly passes: number; // of the wheel, one way each
  readonly lower: readonly CrackReading[]; // growing upward, one for each face that was read
  readonly upper: readonly CrackReading[]; // growing downward, one for each face that was read
  readonly stopped: boolean; // the test ended here
}

/** One wheel-tracking test. */
export interface BeamTest {
  readonly name: string;
  readonly overlay: BeamCourse;
  readonly interlayer: BeamCourse | null;
  readonly base: BeamBase;
  readonly length: number; // [m]
  readonly width: number; // [m]
  readonly foundation: BeamFoundation;
  readonly wheel: {
    readonly load: number; // [N]
    readonly length: number; // of the contact, along the beam [m]
    readonly width: number; // of the contact, across the beam [m]
  };
  readonly travel: {readonly from: number; readonly to: number}; // of the wheel's centre [m]
  readonly speed: number | null; // [m/s]
  readonly temperature: number | null; // [°C]
  readonly detection: number; // shortest crack that is seen [m]
  readonly readingError: number; // standard deviation of one reading of one face [m]
  readonly readings: readonly BeamReading[]; // passes strictly ascending
  readonly setAside: string | null; // why a person left it out; it is still shown
}

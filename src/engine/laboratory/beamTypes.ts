/** Wheel-tracked composite beams. SI throughout; temperatures in °C. */

/** A course of the beam that a crack can run through, at the temperature and speed of the test. */
export interface BeamCourse {
  readonly material: string;
  readonly thickness: number; // [m]
  readonly modulus: number; // E [Pa]
  readonly poisson: number; // ν [–]
}

/** What a face of the beam showed of one crack. */
export type CrackReading =
  | {readonly kind: "length"; readonly length: number} // from where the crack starts [m]
  | {readonly kind: "not visible"} // shorter than the detection limit
  | {readonly kind: "through"}; // the course is broken

/** One look at the beam. */
export interface BeamReading {
  readonly passes: number; // so far, each travel there or back is one
  readonly lower: readonly CrackReading[]; // from below, one a face; empty when not read
  readonly upper: readonly CrackReading[]; // from above, one a face; empty when not read
  readonly stopped: boolean; // the test was stopped here, the beam not broken
}

export interface BeamTest {
  readonly name: string;
  readonly overlay: BeamCourse;
  readonly interlayer: BeamCourse | null;
  readonly base: {readonly thickness: number; readonly modulus: number; readonly poisson: number; readonly gap: number}; // [m], [Pa], [–], [m] between the halves
  readonly length: number; // [m], the gap in its middle
  readonly width: number; // [m]
  /** Springs under the base [Pa/m], or the deflection at the gap under a load that stood there still. */
  readonly foundation:
    | {readonly kind: "stiffness"; readonly stiffness: number} // [Pa/m]
    | {readonly kind: "deflection"; readonly load: number; readonly deflection: number}; // [N], [m]
  readonly wheel: {readonly load: number; readonly length: number; readonly width: number}; // [N], contact [m]
  readonly travel: {readonly from: number; readonly to: number}; // of the wheel's centre, from the gap [m]
  readonly speed: number | null; // [m/s]
  readonly temperature: number | null; // [°C]
  readonly detection: number; // shortest crack that is seen [m]
  readonly readingError: number; // standard deviation of one reading [m]
  readonly readings: readonly BeamReading[]; // ascending in passes
  readonly setAside: string | null; // why a person left it out of the fit; it is still shown
}

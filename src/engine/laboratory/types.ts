/** Laboratory programmes as the engine sees them. SI throughout; temperatures in °C; strains are amplitudes, never ranges. */

/** Shape of a bending specimen and where it is held. */
export type SpecimenShape =
  | {
      readonly kind: "trapezoid"; // two-point bending, clamped at the wide end: EN 12697-24 annex A
      readonly baseWidth: number; // B [m]
      readonly topWidth: number; // b [m]
      readonly height: number; // h, clamp to head [m]
      readonly thickness: number; // e [m]
    }
  | {
      readonly kind: "prism"; // four-point bending: EN 12697-24 annex D
      readonly outerSpan: number; // L, between the outer clamps [m]
      readonly innerSpan: number; // between the inner clamps [m]
      readonly height: number; // h [m]
      readonly width: number; // b [m]
    };

/** What a machine was told to do, as the amplitude of one sine. */
export type TestAmplitude =
  | {readonly kind: "strain"; readonly strain: number} // largest in the specimen [–]
  | {readonly kind: "displacement"; readonly displacement: number}; // of the head, or of mid-span against the outer clamps [m]

/** One bending test in strain control. */
export interface Specimen {
  readonly name: string;
  readonly material: string;
  readonly shape: SpecimenShape | null; // null: the strain is given and no modulus is wanted
  readonly temperature: number | null; // [°C]
  readonly frequency: number | null; // [Hz]
  readonly amplitude: TestAmplitude;
  readonly cycles: number | null; // to failure, or to the stop of a run-out; null: the history tells
  readonly runOut: boolean; // stopped before failure: the life is longer than `cycles`
  readonly initialModulus: number | null; // at the 100th cycle [Pa]
  readonly phase: number | null; // of the complex modulus [rad]
  readonly history: StiffnessSummary | null;
  readonly setAside: string | null; // why a person left it out of the regression; it is still shown
}

/** What remains of a stiffness history after it was read once, row by row. */
export interface StiffnessSummary {
  readonly initialModulus: number; // at the 100th cycle, interpolated [Pa]
  readonly cyclesToHalf: number | null; // to 50 % of the initial modulus, interpolated; null: it never got there
  readonly lastCycle: number;
  readonly lastRatio: number; // of modulus to initial modulus, at the last cycle [–]
  readonly startsLate: boolean; // the record begins after the 100th cycle: `initialModulus` is that of its first row
  readonly startsWithJump: boolean;
  readonly displacementDrifts: boolean; // the amplitude held was not held
  /** For a picture: at most some hundred points, thinned evenly in lg N. */
  readonly cycles: Float64Array;
  readonly modulus: Float64Array; // [Pa]
}

export interface FatigueProgramme {
  readonly name: string;
  readonly specimens: readonly Specimen[];
}

export type {
  BeamBase,
  BeamCourse,
  BeamFoundation,
  BeamReading,
  BeamTest,
  CrackReading,
} from "./beamTypes.ts";

/** Beams for the tests: one with readings as wished, and solutions made up of given tractions. */
import type {BeamSolution} from "../../../src/engine/laboratory/beam.ts";
import type {BeamFit} from "../../../src/engine/laboratory/beamFit.ts";
import type {BeamTest, CrackReading} from "../../../src/engine/laboratory/beamTypes.ts";

export function beamTest(change: Partial<BeamTest> = {}): BeamTest {
  return {
    name: "B1",
    overlay: {material: "mix", thickness: 0.05, modulus: 4e9, poisson: 0.35},
    interlayer: null,
    base: {thickness: 0.04, modulus: 10e9, poisson: 0.2, gap: 0.008},
    length: 0.6,
    width: 0.1,
    foundation: {kind: "stiffness", stiffness: 1e8},
    wheel: {load: 1500, length: 0.03, width: 0.08},
    travel: {from: -0.25, to: 0.25},
    speed: null,
    temperature: 20,
    detection: 2e-3,
    readingError: 1e-3,
    readings: [],
    setAside: null,
    ...change,
  };
}

/** Laws of one mix fitted to beams. */
export function beamFit(change: Partial<BeamFit>): BeamFit {
  return {
    parameters: Float64Array.of(-15, 4),
    covariance: Float64Array.of(0.09, 0.06, 0.06, 0.16),
    scatter: {beam: 0.2, upper: 0.2, exponent: 0.1, lower: 1e-3, surface: 1e-3},
    pivots: {mix: 5e-4},
    effects: [],
    degrees: 5,
    likelihood: 0,
    iterations: 5,
    converged: true,
    materials: ["mix"],
    faceDeviation: 1e-3,
    ...change,
  };
}

export const INTERLAYER = {material: "soft", thickness: 0.012, modulus: 5e8, poisson: 0.4};

/** Readings of faces in mm; "n": not visible, "t": through. */
export function faces(...read: readonly (number | "n" | "t")[]): CrackReading[] {
  return read.map((r): CrackReading => {
    if (r === "n") return {kind: "not visible"};
    return r === "t" ? {kind: "through"} : {kind: "length", length: r * 1e-3};
  });
}

/** An overlay of 50 mm whose tips feel the same tractions in every state, by place of the wheel [Pa]. */
export function evenSolution(
  lower: readonly number[],
  upper: readonly number[] = lower.map(() => 0),
  shear: readonly number[] = lower.map(() => 0),
): BeamSolution {
  const levels = Float64Array.of(0, 0.01, 0.02, 0.03, 0.04);
  const n = levels.length;
  let states = 0;
  const number = Int32Array.from({length: n * n}, (_, k) =>
    levels[Math.floor(k / n)] + levels[k % n] < 0.05 - 1e-9 ? states++ : -1,
  );
  const every = (own: readonly (readonly number[])[]): Float64Array =>
    Float64Array.from(Array.from({length: states}, () => own.flat()).flat());
  const none = lower.map(() => 0);
  return {
    cracks: {interlayerLength: Float64Array.of(0), undersideLength: levels, surfaceLength: levels, number},
    overlayThickness: 0.05,
    interlayerThickness: 0,
    positions: Float64Array.from(lower, (_, k) => k - (lower.length - 1) / 2),
    tips: Int8Array.from({length: 3 * states}, (_, k) => (k % 3 ? 1 : 0)),
    opening: every([none, lower, upper]),
    shear: every([none, shear, none]),
    planeStrainModulus: {overlay: 1e9, interlayer: 1e8},
    foundation: 1e8,
  };
}

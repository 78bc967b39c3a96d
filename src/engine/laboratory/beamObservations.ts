/** Readings of a beam turned into what a fit can use: the faces averaged, and what was not seen kept as a bound. */
import {ln} from "../numeric/index.ts";
import type {BeamReading, BeamTest, CrackReading} from "./beamTypes.ts";

/** Fronts of a beam, in the order of `SteadyFronts.fronts`. */
export type BeamFront = 0 | 1 | 2; // interlayer, underside, surface

/** One statement about one front at one number of passes. */
export type Observation =
  | {
      readonly kind: "length"; // read
      readonly reading: number; // index into the test's readings
      readonly front: BeamFront;
      readonly logPasses: number;
      readonly length: number; // mean of the faces [m]
      readonly error: number; // standard deviation of that mean, by reading alone [m]
    }
  | {
      readonly kind: "shorter"; // not visible
      readonly reading: number;
      readonly front: BeamFront;
      readonly logPasses: number;
      readonly length: number; // than this [m]
      readonly error: number;
    }
  | {readonly kind: "broken"; readonly reading: number; readonly logPasses: number}
  | {readonly kind: "unbroken"; readonly reading: number; readonly logPasses: number};

/** The faces of one reading taken together. */
export interface MeanReading {
  readonly passes: number;
  readonly front: "lower" | "upper";
  readonly length: number; // mean of the faces that show a length [m]
  readonly difference: number | null; // of the faces, largest less smallest; null with one face [m]
}

/** Lengths of both fronts, averaged over the faces. A face on which the crack is not visible counts half the detection limit. */
export function meanReadings(test: BeamTest): MeanReading[] {
  return test.readings.flatMap(reading =>
    (["lower", "upper"] as const).flatMap(front => {
      const lengths = lengthsOf(reading[front], test.detection);
      if (!lengths) return [];
      const mean = meanOf(lengths);
      const difference = lengths.length > 1 ? Math.max(...lengths) - Math.min(...lengths) : null;
      return [{passes: reading.passes, front, length: mean, difference}];
    }),
  );
}

const meanOf = (lengths: readonly number[]): number => lengths.reduce((sum, l) => sum + l, 0) / lengths.length;

/** Of the faces; null when none shows a length or one is through. */
function lengthsOf(faces: readonly CrackReading[], detection: number): number[] | null {
  if (!faces.some(f => f.kind === "length") || faces.some(f => f.kind === "through")) return null;
  return faces.map(f => (f.kind === "length" ? f.length : detection / 2));
}

/**
 * Standard deviation of one face's reading about the crack's own length: what the reading error says, or what the faces of
 * all beams show by their differences when that is more [m].
 */
export function faceDeviation(tests: readonly BeamTest[]): number {
  const stated = Math.max(...tests.map(t => t.readingError));
  return Math.max(stated, shownDeviation(tests, 5) ?? 0);
}

/** The same as the differences of the faces alone show it; null with fewer than `least` of them [m]. */
export function shownDeviation(tests: readonly BeamTest[], least: number): number | null {
  const differences = tests.flatMap(meanReadings).flatMap(r => (r.difference === null ? [] : [r.difference]));
  if (differences.length < least) return null;
  // Two faces differ with the variance of two readings.
  return Math.sqrt(differences.reduce((sum, d) => sum + d * d, 0) / (2 * differences.length));
}

/**
 * A lower crack is read from the gap up to its highest tip. Within the interlayer that is the interlayer's own front; above
 * it, the front in the overlay, and then nothing is said of the interlayer, which a crack may have passed over.
 *
 * @param deviation  of one face's reading [m]
 */
export function observationsOf(test: BeamTest, deviation: number): Observation[] {
  const t = test.interlayer?.thickness ?? 0;
  const out: Observation[] = [];
  const lastWhole = test.readings.findLastIndex(r => r.passes > 0 && !isThrough(r)); // what it says, those before say too
  const firstBroken = test.readings.findIndex(isThrough);
  test.readings.forEach((r, reading) => {
    if (r.passes <= 0) return; // nothing has happened yet
    const logPasses = ln(r.passes);
    if (isThrough(r)) {
      if (reading === firstBroken) out.push({kind: "broken", reading, logPasses});
      return;
    }
    if (reading === lastWhole) out.push({kind: "unbroken", reading, logPasses});
    for (const side of ["lower", "upper"] as const) {
      const faces = r[side];
      if (!faces.length) continue;
      const error = deviation / Math.sqrt(faces.length);
      const lengths = lengthsOf(faces, test.detection);
      const shorter = (front: BeamFront, length: number): void =>
        void out.push({kind: "shorter", reading, front, logPasses, length, error});
      const read = (front: BeamFront, length: number): void =>
        void out.push({kind: "length", reading, front, logPasses, length, error});
      const mean = lengths && meanOf(lengths);
      if (side === "upper") {
        if (mean === null) shorter(2, test.detection);
        else read(2, mean);
      } else if (mean === null) {
        if (t > 0) shorter(0, test.detection);
        shorter(1, test.detection);
      } else if (mean <= t) {
        read(0, mean);
        shorter(1, test.detection);
      } else read(1, mean - t);
    }
  });
  return out;
}

export function isThrough(reading: BeamReading): boolean {
  return [...reading.lower, ...reading.upper].some(f => f.kind === "through");
}

/** When the beam broke: passes of the last reading before and the first after; null after it when the test was stopped. */
export function breakage(test: BeamTest): {readonly after: number; readonly before: number | null} {
  const broken = test.readings.find(isThrough);
  const last = test.readings.filter(r => !isThrough(r) && (!broken || r.passes < broken.passes)).at(-1);
  return {after: last?.passes ?? 0, before: broken?.passes ?? null};
}

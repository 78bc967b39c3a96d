import {type SurfaceModel, surfaceModel} from "../layered/index.ts";
import type {LeastSquares} from "./leastSquares.ts";
import type {MeasuredBowl} from "./measured.ts";
import type {BowlTest, Solution} from "./types.ts";

/** A bowl as a problem of least squares in ln E of the unknown moduli. */
export interface Problem extends LeastSquares {
  readonly start: Float64Array; // ln E
  readonly unknowns: readonly number[]; // layers
  readonly count: number; // of sensors
  readonly model: SurfaceModel;
  readonly moduliOf: (x: Float64Array) => number[]; // by layer [Pa]
  readonly bowl: (moduli: readonly number[]) => Float64Array; // under the mean pressure [m]
  readonly solution: (x: Float64Array) => Solution;
}

export function problemOf({layers, base, radius, offsets}: BowlTest, {pressure, sensors}: MeasuredBowl): Problem {
  const model = surfaceModel({layers, base: {kind: base}, radius, offsets});
  const unknowns = layers.flatMap(({modulus}, j) => (modulus.kind === "unknown" ? [j] : []));
  const logs = (key: "start" | "low" | "high"): Float64Array =>
    Float64Array.from(
      layers.flatMap(({modulus}) => (modulus.kind === "unknown" ? [modulus[key]] : [])),
      Math.log,
    );
  const moduliOf = (x: Float64Array): number[] =>
    layers.map(({modulus}, j) => (modulus.kind === "fixed" ? modulus.value : Math.exp(x[unknowns.indexOf(j)])));
  const bowl = (moduli: readonly number[]): Float64Array => model.deflections(moduli).map(w => w * pressure);
  return {
    start: logs("start"),
    low: logs("low"),
    high: logs("high"),
    unknowns,
    count: sensors.length,
    model,
    moduliOf,
    bowl,
    residuals: x => bowl(moduliOf(x)).map((d, k) => (d - sensors[k].measured) / sensors[k].deviation),
    solution: x => {
      const moduli = moduliOf(x);
      const squares = bowl(moduli).reduce((sum, d, k) => sum + (d / sensors[k].measured - 1) ** 2, 0);
      return {moduli, rms: Math.sqrt(squares / sensors.length)};
    },
  };
}

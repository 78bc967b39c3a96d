import {InputError} from "../errors.ts";

/** A wheel that passes over a point of the pavement. */
export interface PassingWheel {
  readonly speed: number; // [m/s]
  readonly depth: number; // below the surface [m]
}

const SPEED = [1 / 3.6, 200 / 3.6] as const; // [m/s]
const DEPTH = [0, 1] as const; // [m]

/**
 * How long a passing wheel loads a point [s]: lg t = 0.0005·d − 0.2 − 0.94·lg v, d in mm and v in km/h.
 *
 * Speed 1 to 200 km/h and depth to 1 m are bounds of ours; the source computed asphalt layers on soil under a dual wheel at
 * the speeds of roads.
 *
 * @throws InputError "domain" outside these bounds
 * @source Brown 1973, Highway Research Record 431, 38-49 (from memory)
 */
export function loadingTime({speed, depth}: PassingWheel): number {
  if (!(speed >= SPEED[0] && speed <= SPEED[1])) throw outside("speed", speed, SPEED, "m/s");
  if (!(depth >= DEPTH[0] && depth <= DEPTH[1])) throw outside("depth", depth, DEPTH, "m");
  return 10 ** (0.0005 * (1000 * depth) - 0.2 - 0.94 * Math.log10(3.6 * speed));
}

/**
 * Frequency [Hz] at which the modulus stands for a passing wheel: f = 1/(2πt), so that ω = 1/t. Some take f = 1/t;
 * docs/theory/viscoelastic.md says what that changes.
 */
export function loadingFrequency(wheel: PassingWheel): number {
  return 1 / (2 * Math.PI * loadingTime(wheel));
}

function outside(path: string, value: number, [low, high]: readonly [number, number], unit: string): InputError {
  return new InputError("domain", path, value, `${low} to ${high} [${unit}]`);
}

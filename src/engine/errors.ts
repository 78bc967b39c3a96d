/** A value that the engine cannot work with. The code is stable; the message is for people. */
export class InputError extends Error {
  readonly code: "domain" | "shape" | "convergence";
  readonly path: string;
  readonly got: unknown;
  readonly need: string;

  constructor(code: "domain" | "shape" | "convergence", path: string, got: unknown, need: string) {
    super(`${path}: got ${got}, need ${need}`);
    this.name = "InputError";
    this.code = code;
    this.path = path;
    this.got = got;
    this.need = need;
  }
}

/** The caller's progress callback asked to stop. */
export class Cancelled extends Error {
  constructor() {
    super("cancelled");
    this.name = "Cancelled";
  }
}

/** @throws InputError "domain" unless value is finite and > 0 */
export function requirePositive(path: string, value: number, unit: string): void {
  if (!(value > 0 && value < Infinity)) throw new InputError("domain", path, value, `finite, > 0 [${unit}]`);
}

/** @throws InputError "domain" unless value is finite and ≥ 0 */
export function requireNonNegative(path: string, value: number, unit: string): void {
  if (!(value >= 0 && value < Infinity)) throw new InputError("domain", path, value, `finite, ≥ 0 [${unit}]`);
}

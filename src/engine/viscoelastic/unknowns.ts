/** One parameter of a fit between bounds; the fit moves u, value = low + (high − low)/(1 + e^−u), of the logarithm when `log`. */
export interface Unknown {
  readonly name: string; // as in the equations
  readonly low: number;
  readonly high: number;
  readonly log: boolean;
  readonly typical: number | null; // where it stays when the readings do not tell it; null: they always do
  readonly loose: number; // standard error, of ln value when `log`, beyond which it is hardly known
}

/** Of the way between bounds [–]: so near one of them the readings ask for more. */
const AT_BOUND = 2e-3;

export function valueAt({low, high, log}: Unknown, u: number): number {
  const part = 1 / (1 + Math.exp(-u));
  return log ? low * (high / low) ** part : low + (high - low) * part;
}

/** u of a value; one outside the bounds, or near them, is taken a little inside. */
export function unknownOf({low, high, log}: Unknown, value: number): number {
  const part = log ? Math.log(value / low) / Math.log(high / low) : (value - low) / (high - low);
  const inside = Math.min(0.98, Math.max(0.02, part));
  return Math.log(inside / (1 - inside));
}

export function boundReached(u: number): "low" | "high" | null {
  const part = 1 / (1 + Math.exp(-u));
  if (part < AT_BOUND) return "low";
  return part > 1 - AT_BOUND ? "high" : null;
}

/** d value/du, of ln value when `log`. */
export function sensitivityOf({low, high, log}: Unknown, u: number): number {
  const part = 1 / (1 + Math.exp(-u));
  return part * (1 - part) * (log ? Math.log(high / low) : high - low);
}

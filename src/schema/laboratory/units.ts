/** Units that laboratory files may use, and how they become SI. */

export type Quantity =
  | "length"
  | "strain"
  | "temperature"
  | "frequency"
  | "modulus"
  | "angle"
  | "force"
  | "speed"
  | "foundation"
  | "count"
  | "ratio";

export interface Unit {
  readonly shown: string;
  readonly names: readonly string[]; // other spellings, in any case
  readonly factor: number; // SI = (value + offset) · factor / divisor
  readonly divisor: number; // so that 120 µε become 0.00012 and not its neighbour
  readonly offset: number;
}

const unit = (shown: string, factor: number, ...names: string[]): Unit => shifted(shown, factor, 0, ...names);
function shifted(shown: string, factor: number, offset: number, ...names: string[]): Unit {
  const divisor = Math.round(1 / factor);
  const exact = divisor > 1 && Math.abs(divisor * factor - 1) < 1e-15;
  return {shown, names, offset, ...(exact ? {factor: 1, divisor} : {factor, divisor: 1})};
}

/** Exact by definition: 1 in = 25.4 mm, 1 lbf = 4.4482216152605 N, so 1 psi = 6894.757293168 Pa (NIST SP 811, app. B). */
const psi = 4.4482216152605 / 0.0254 ** 2;

/** The first unit of each list is the one that templates use. */
export const units: Readonly<Record<Quantity, readonly Unit[]>> = {
  length: [
    unit("mm", 1e-3, "millimeter", "millimetre", "millimeters", "millimetres"),
    unit("cm", 1e-2, "centimeter", "centimetre"),
    unit("m", 1, "meter", "metre"),
    unit("µm", 1e-6, "micron", "microns", "micrometer", "micrometre"),
    unit("in", 0.0254, "inch", "inches", '"'),
  ],
  strain: [
    unit(
      "µε",
      1e-6,
      "ue",
      "µstrain",
      "microstrain",
      "microstrains",
      "micro strain",
      "µm/m",
      "µdef",
      "microdef",
      "10^-6",
      "10-6",
      "1e-6",
      "E-6",
      "ppm",
    ),
    unit("m/m", 1, "mm/mm", "–", "1"),
    unit("‰", 1e-3, "mm/m", "10^-3", "10-3", "1e-3"),
    unit("%", 1e-2, "percent"),
  ],
  temperature: [
    shifted("°C", 1, 0, "C", "degC", "deg C", "Celsius", "degrees C"),
    shifted("K", 1, -273.15, "Kelvin"),
    shifted("°F", 5 / 9, -32, "F", "degF", "deg F", "Fahrenheit"),
  ],
  frequency: [unit("Hz", 1, "Hertz", "1/s", "s-1", "s^-1", "cps")],
  modulus: [
    unit("MPa", 1e6, "N/mm²", "MN/m²", "N/mm^2"),
    unit("GPa", 1e9, "kN/mm²", "GN/m²"),
    unit("kPa", 1e3, "kN/m²"),
    unit("Pa", 1, "N/m²"),
    unit("psi", psi),
    unit("ksi", 1e3 * psi),
  ],
  angle: [unit("°", Math.PI / 180, "deg", "degree", "degrees"), unit("rad", 1, "radian", "radians")],
  force: [unit("kN", 1e3), unit("N", 1, "Newton"), unit("lbf", 4.4482216152605, "lb"), unit("kip", 4448.2216152605)],
  speed: [unit("m/s", 1, "m s-1"), unit("mm/s", 1e-3), unit("m/min", 1 / 60), unit("km/h", 1 / 3.6, "kmh", "kph")],
  foundation: [
    unit("MPa/mm", 1e9, "N/mm³", "N/mm^3", "GN/m³"),
    unit("MPa/m", 1e6, "kPa/mm", "MN/m³", "MN/m^3"),
    unit("kPa/m", 1e3, "kN/m³"),
    unit("Pa/m", 1, "N/m³"),
  ],
  count: [
    unit("–", 1, "-", "cycles", "passes", "number", "1", "#"),
    unit("10³", 1e3, "10^3", "1e3", "×10³", "x1000", "×1000", "thousand", "thousands", "1000", "E3"),
    unit("10⁶", 1e6, "10^6", "1e6", "×10⁶", "million", "millions", "mio", "E6"),
  ],
  ratio: [unit("–", 1, "-", "1")],
};

/** Whether a column of this quantity may stand without a unit. */
export const isDimensionless = (quantity: Quantity): boolean => quantity === "count" || quantity === "ratio";

/** What values have after conversion. */
export const siUnit: Readonly<Record<Quantity, string>> = {
  length: "m",
  strain: "–",
  temperature: "°C",
  frequency: "Hz",
  modulus: "Pa",
  angle: "rad",
  force: "N",
  speed: "m/s",
  foundation: "Pa/m",
  count: "–",
  ratio: "–",
};

export const unitNames = (quantity: Quantity): string => units[quantity].map(({shown}) => shown).join(", ");

/**
 * A unit as spelled in a header → one key for all its spellings: case, blanks, kinds of µ, ε, minus and degree do not
 * count, exponents are plain digits. Case may be dropped because no two units of one quantity differ by it.
 */
export function unitKey(text: string): string {
  return text
    .replaceAll(/[º˚]/g, "°")
    .normalize("NFKD")
    .replaceAll(/\p{Mark}/gu, "")
    .toLowerCase()
    .replaceAll("μ", "u")
    .replaceAll("ε", "e")
    .replaceAll(/[–—−‐‑]/g, "-")
    .replaceAll(/[\s_*·⋅]/g, "");
}

/** By quantity: key → unit. */
const byKey: ReadonlyMap<Quantity, ReadonlyMap<string, Unit>> = new Map(
  (Object.keys(units) as Quantity[]).map(quantity => [
    quantity,
    new Map(units[quantity].flatMap(one => [one.shown, ...one.names].map(name => [unitKey(name), one]))),
  ]),
);

export function findUnit(quantity: Quantity, text: string): Unit | null {
  return byKey.get(quantity)?.get(unitKey(text)) ?? null;
}

export function isUnitOfAnything(text: string): boolean {
  const key = unitKey(text);
  return [...byKey.values()].some(keys => keys.has(key));
}

export function toSi(value: number, {factor, divisor, offset}: Unit): number {
  return ((value + offset) * factor) / divisor;
}

export function fromSi(value: number, {factor, divisor, offset}: Unit): number {
  return (value * divisor) / factor - offset;
}

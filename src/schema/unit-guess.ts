import type {SchemaNode} from "./json-schema.ts";
import {findUnit, fromSi, type Quantity, toSi, units} from "./laboratory/units.ts";

/** By unit of the field: what a number may have been given in, and the factor that puts it right. */
const slips: Readonly<Record<string, readonly (readonly [meant: string, factor: number])[]>> = {
  mm: [
    ["in m", 1000],
    ["in cm", 10],
    ["in inches", 25.4],
    ["in µm", 1e-3],
  ],
  m: [
    ["in mm", 1e-3],
    ["in cm", 1e-2],
  ],
  MPa: [
    ["in kPa", 1e-3],
    ["in Pa", 1e-6],
    ["in GPa", 1000],
    ["in psi", 0.00689476],
  ],
  "MPa/mm": [
    ["in kPa/mm (= MPa/m)", 1e-3],
    ["in Pa/m", 1e-9],
  ],
  kN: [
    ["in N", 1e-3],
    ["in t", 9.80665],
  ],
  "1/°C": [["in millionths", 1e-6]],
  µε: [["as a plain strain", 1e6]],
  "%": [["as a fraction", 100]],
  "–": [["in percent", 1e-2]],
  "kg/m³": [["in t/m³ or g/cm³", 1000]],
  "J/(kg·K)": [["in kJ/(kg·K)", 1000]],
};

/** Something like "80 if 0.08 was meant in m", when one of the usual slips makes the number usual; else null. */
export function unitSlip(value: number, node: SchemaNode | undefined): string | null {
  const unit = node?.["x-unit"];
  if (!node || unit === undefined) return null;
  for (const [meant, factor] of slips[unit] ?? []) {
    const corrected = Number((value * factor).toPrecision(6));
    if (corrected !== 0 && isUsual(corrected, node)) return `write ${corrected} if ${value} was meant ${meant}`;
  }
  return null;
}

function isUsual(value: number, node: SchemaNode): boolean {
  const [low, high] = node["x-typical"] ?? [-Infinity, Infinity];
  return (
    value >= Math.max(low, node.minimum ?? -Infinity) &&
    value <= Math.min(high, node.maximum ?? Infinity) &&
    value > (node.exclusiveMinimum ?? -Infinity) &&
    value < (node.exclusiveMaximum ?? Infinity)
  );
}

/** Spellings that headers of laboratory files do not have, in SI. */
const alsoWritten: Partial<Readonly<Record<Quantity, Readonly<Record<string, number>>>>> = {
  length: {ft: 0.3048, "'": 0.3048, km: 1000},
  modulus: {bar: 1e5},
  force: {MN: 1e6, t: 9806.65, kg: 9.80665, lbs: 4.4482216152605},
};

/** A number in one unit, in another of the same quantity; null where there is none. */
function converted(value: number, from: string, to: string): number | null {
  for (const quantity of Object.keys(units) as Quantity[]) {
    const field = findUnit(quantity, to);
    if (field === null) continue;
    const known = findUnit(quantity, from);
    const others = alsoWritten[quantity] ?? {};
    if (known !== null) return fromSi(toSi(value, known), field);
    if (Object.hasOwn(others, from)) return fromSi(value * others[from], field);
  }
  return null;
}

/** What to write in place of a text that has a number in it; null when it has none. */
export function writtenNumber(text: string, unit: string | undefined): string | null {
  const thousands = /^\s*([-+]?[1-9]\d{0,2}(?:,\d{3})+)\s*([^\d]*)$/.exec(text);
  const [number, word] = thousands
    ? [Number(thousands[1].replaceAll(",", "")), thousands[2].trim()]
    : [numberInText(text), unitWord(text)];
  if (number === null) return null;
  if (word === "" || word === unit) {
    const why = word === "" ? "" : ": the unit is in the name of the field";
    // One comma may be a decimal mark.
    const other = thousands && !/,.*,/.test(text) ? ` or ${Number(thousands[1].replace(",", "."))}` : "";
    return `write ${number}${other}${why}`;
  }
  if (unit === undefined || unit === "–") return `write ${number}`;
  const meant = converted(number, word, unit);
  return meant === null
    ? `write the number alone, in ${unit}`
    : `write ${Number(meant.toPrecision(6))}: the field is in ${unit}`;
}

const unitWord = (text: string): string => /[^\d\s].*$/.exec(text.replace(/^.*\d/, ""))?.[0].trim() ?? "";

/** A number hidden in a text: "80 mm", "0,5", "1 200". Null when there is none. */
export function numberInText(text: string): number | null {
  const match = /^\s*([-+]?\d[\d\s_]*(?:[.,]\d+)?(?:[eE][-+]?\d+)?)\s*[^\d]*$/.exec(text);
  if (!match) return null;
  const number = Number(match[1].replaceAll(/[\s_]/g, "").replace(",", "."));
  return Number.isFinite(number) ? number : null;
}

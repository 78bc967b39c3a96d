import type {SchemaNode} from "./json-schema.ts";

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

/** A number hidden in a text: "80 mm", "0,5", "1 200". Null when there is none. */
export function numberInText(text: string): number | null {
  const match = /^\s*([-+]?\d[\d\s_]*(?:[.,]\d+)?(?:[eE][-+]?\d+)?)\s*[^\d]*$/.exec(text);
  if (!match) return null;
  const number = Number(match[1].replaceAll(/[\s_]/g, "").replace(",", "."));
  return Number.isFinite(number) ? number : null;
}

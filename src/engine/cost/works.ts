import {InputError, requireNonNegative, requirePositive} from "../errors.ts";
import type {CostItem, LaidLayer, Rates, Works} from "./types.ts";

/**
 * What one operation pays for, a square metre: material by volume h·1 m² or by mass ρ·h·1 m², each course laid, planing by
 * area and by depth, and what every operation costs whatever it is.
 *
 * @throws InputError "domain" where a rate is missing or a quantity is not finite and ≥ 0
 */
export function operationItems(works: Works, rates: Rates): CostItem[] {
  const items: CostItem[] = [];
  const add = (what: CostItem["what"], amount: number, name = ""): void => {
    requireNonNegative(`rates for ${name || what}`, amount, "cur/m²");
    if (amount !== 0 || what === "material" || what === "reinforcement") items.push({what, name, amount});
  };
  requireNonNegative("works.planedDepth", works.planedDepth, "m");
  if (works.planedDepth > 0) add("planing", rates.planing.area + rates.planing.volume * works.planedDepth);
  if (works.cracking) add("cracking", rates.cracking);
  for (const layer of works.layers) add("material", materialAmount(layer, rates), layer.name);
  if (works.reinforcement !== null)
    add("reinforcement", rateOf(rates.reinforcements, works.reinforcement, "reinforcements"), works.reinforcement);
  add("laying", rates.laying * works.layers.length);
  add("fixed", rates.fixed);
  add("traffic management", rates.trafficManagement);
  return items;
}

/** Sum of an operation [cur/m²]. */
export function operationCost(works: Works, rates: Rates): number {
  return totalOf(operationItems(works, rates));
}

export function totalOf(items: readonly CostItem[]): number {
  return items.reduce((sum, {amount}) => sum + amount, 0);
}

/** Material of one layer [cur/m²]. */
export function materialAmount({material, thickness, density}: LaidLayer, rates: Rates): number {
  requirePositive(`thickness of ${material}`, thickness, "m");
  const price = rateOf(rates.materials, material, "materials");
  if (price.kind === "volume") return price.rate * thickness;
  requirePositive(`density of ${material}`, density, "kg/m³");
  return price.rate * density * thickness;
}

function rateOf<T>(rates: Readonly<Record<string, T>>, name: string, where: string): T {
  if (!Object.hasOwn(rates, name)) throw new InputError("domain", `rates.${where}`, name, "a rate for it");
  return rates[name];
}

import {z} from "zod";

/** Limits of a number in the document. Outside `above…max` is a fault, outside `typical` a warning. */
export interface Bounds {
  readonly above?: number; // exclusive
  readonly min?: number;
  readonly below?: number; // exclusive
  readonly max?: number;
  readonly typical?: readonly [number, number]; // range met in practice
  readonly why?: string; // what is wrong with a value outside, for people
}

/** A number with a unit. The unit, the usual range and the description travel into the JSON Schema. */
export function quantity(unit: string, description: string, bounds: Bounds = {}) {
  const error = bounds.why ?? "outside the range that makes sense for this field";
  let number = z.number();
  if (bounds.above !== undefined) number = number.gt(bounds.above, {error});
  if (bounds.min !== undefined) number = number.gte(bounds.min, {error});
  if (bounds.below !== undefined) number = number.lt(bounds.below, {error});
  if (bounds.max !== undefined) number = number.lte(bounds.max, {error});
  return number.meta({
    description,
    "x-unit": unit,
    ...(bounds.typical && {"x-typical": [...bounds.typical]}),
  });
}

/** A whole number. */
export function count(description: string, min: number, max: number) {
  const error = `a whole number from ${min} to ${max} is needed`;
  return z.int().gte(min, {error}).lte(max, {error}).meta({description});
}

/** A text that must say something. */
export function words(description: string) {
  return z.string().min(1, {error: "the text is empty"}).max(2000, {error: "the text is too long"}).meta({description});
}

/** Names are keys for look-up and captions of the report, so they are short. */
export function nameOf(what: string) {
  return z
    .string()
    .min(1, {error: "the name is empty"})
    .max(80, {error: "the name is longer than 80 characters"})
    .meta({description: `Name of the ${what}`});
}

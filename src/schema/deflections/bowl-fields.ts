import {z} from "zod";
import {nameOf, quantity, words} from "../quantity.ts";

const modulus = (description: string) =>
  quantity("MPa", description, {
    above: 0,
    max: 500_000,
    typical: [5, 60_000],
    why: "a modulus is positive and no pavement material is stiffer than steel",
  });

const layerFields = z.strictObject({
  name: nameOf("layer"),
  thickness_mm: quantity("mm", "Thickness; of every layer but the last, which reaches down to the base", {
    above: 0,
    max: 20_000,
    typical: [20, 3000],
    why: "a layer is thicker than nothing",
  }).optional(),
  poisson: quantity("–", "Poisson ratio", {
    min: 0,
    max: 0.5,
    typical: [0.1, 0.5],
    why: "a Poisson ratio is from 0 to 0.5",
  }),
  modulus_MPa: modulus("Modulus that is known").optional(),
  modulus_range_MPa: z
    .strictObject({
      low: modulus("Lowest modulus searched"),
      high: modulus("Highest modulus searched"),
      start: modulus("Where the first search starts. Left out: the geometric mean of the two").optional(),
    })
    .meta({description: "Instead of modulus_MPa: a modulus to be found, and where to search"})
    .optional(),
  temperature_C: quantity("°C", "Temperature in the layer during the test; a note for the report", {
    min: -60,
    max: 90,
  }).optional(),
});

const dropFields = z.strictObject({
  load_kN: quantity("kN", "Peak load of the drop", {
    above: 0,
    max: 1000,
    typical: [5, 350],
    why: "a load is positive",
  }),
  deflections_um: z
    .array(
      quantity("µm", "Peak deflection of a sensor", {
        above: 0,
        max: 50_000,
        typical: [3, 5000],
        why: "a deflection is positive, downward",
      }),
    )
    .min(1, {error: "there is no deflection"})
    .max(50, {error: "more than 50 sensors"})
    .meta({description: "In the order of offsets_mm"}),
});

/** The document of one deflection bowl. */
export const bowlSchema = z.strictObject({
  bowl_format: z.literal(1).meta({description: "Version of this format"}),
  name: nameOf("test"),
  source: words("Where the numbers come from, shown in the report. May say 'invented'").optional(),
  plate: z
    .strictObject({
      diameter_mm: quantity("mm", "Diameter of the loaded plate", {
        above: 0,
        max: 2000,
        typical: [100, 762],
        why: "a plate has a size",
      }),
    })
    .meta({description: "Plate under the weight; its pressure is taken as uniform"}),
  offsets_mm: z
    .array(quantity("mm", "Distance of a sensor from the plate's centre", {min: 0, max: 20_000, typical: [0, 3000]}))
    .min(1, {error: "there is no sensor"})
    .max(50, {error: "more than 50 sensors"})
    .meta({description: "Sensors outward, ascending"}),
  drops: z
    .array(dropFields)
    .min(1, {error: "there is no drop"})
    .max(200, {error: "more than 200 drops"})
    .meta({description: "Drops at one place; each is brought to their mean load in proportion"}),
  sensors: z
    .strictObject({
      accuracy_percent: quantity("%", "Stated accuracy as a standard deviation of the reading", {
        min: 0,
        max: 50,
      }).default(2),
      accuracy_um: quantity("µm", "The same as a length; the larger of the two counts", {min: 0, max: 1000}).default(2),
    })
    .meta({description: "Accuracy of the sensors, by which they are weighed"})
    .prefault({}),
  layers: z
    .array(layerFields)
    .min(1, {error: "there is no layer"})
    .max(10, {error: "more than 10 layers: no bowl tells them"})
    .meta({description: "Layers from the surface down, fully bonded"}),
  base: z
    .union([
      z.literal("half-space"),
      z.strictObject({
        rigid_at_mm: quantity("mm", "Depth of a rigid bottom below the surface: rock, or what acts like it", {
          above: 0,
          max: 100_000,
          typical: [500, 20_000],
        }),
      }),
    ])
    .default("half-space")
    .meta({description: "What the last layer reaches down to: half-space, without end; or rigid_at_mm"}),
  confidence_percent: z
    .union([z.literal(90), z.literal(95)])
    .default(90)
    .meta({description: "Of all intervals"}),
});

export type BowlDocument = z.output<typeof bowlSchema>;

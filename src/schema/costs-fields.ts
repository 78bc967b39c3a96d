import {z} from "zod";
import {nameOf, quantity, words} from "./quantity.ts";

/** What a unit of each thing costs, or its carbon: the same fields under two sets of names. */
const perArea = (unit: string, description: string) =>
  quantity(`${unit}/m²`, description, {min: 0, max: 1e6, why: "a price or factor is 0 or more"});
const perVolume = (unit: string, description: string) =>
  quantity(`${unit}/m³`, description, {min: 0, max: 1e7, why: "a price or factor is 0 or more"});
const perDepth = (unit: string, description: string) =>
  quantity(`${unit}/(m²·mm)`, description, {min: 0, max: 1e4, why: "a price or factor is 0 or more"});

const money = "currency";
const carbon = "kg CO₂e";

const NOT_APART = "Left out: 0, as where other rates include it";

const carbonFields = z.strictObject({
  materials: z
    .record(
      z.string(),
      z.strictObject({
        kg_CO2e_per_m3: perVolume(carbon, "By volume; either this or by mass").optional(),
        kg_CO2e_per_kg: quantity("kg CO₂e/kg", "By mass, with the density in `thermal`", {
          min: 0,
          max: 1000,
          typical: [0, 10],
          why: "a factor is 0 or more",
        }).optional(),
      }),
    )
    .meta({description: "Factors by material name; needed for every material that is laid"}),
  reinforcements: z
    .record(z.string(), z.strictObject({kg_CO2e_per_m2: perArea(carbon, "Of the reinforcement laid")}))
    .meta({description: "By name of the reinforcement; needed for every one that is laid"})
    .default({}),
  laying_kg_CO2e_per_m2: perArea(carbon, `Laying, each course. ${NOT_APART}`).default(0),
  planing_kg_CO2e_per_m2: perArea(carbon, "Planing, whatever its depth. Left out: 0").default(0),
  planing_kg_CO2e_per_m2_and_mm: perDepth(carbon, "Planing, for each mm of depth. Left out: 0").default(0),
  cracking_kg_CO2e_per_m2: perArea(carbon, "Cracking and seating. Left out: 0").default(0),
  fixed_kg_CO2e_per_m2: perArea(carbon, "Whatever else each operation has. Left out: 0").default(0),
});

const renewalFields = z.strictObject({
  treatment: words("Name of the treatment that is renewed so"),
  planing_mm: quantity("mm", "Planed off before. Left out: the thickness of what is laid then", {
    min: 0,
    max: 1000,
    typical: [0, 300],
  }).optional(),
  layers: z
    .array(
      z.strictObject({
        material: words("Name of one of the materials"),
        thickness_mm: quantity("mm", "Thickness", {min: 1, max: 1000, typical: [2, 300]}),
        role: z.enum(["overlay", "interlayer"]).meta({description: "What it is laid as"}).default("overlay"),
      }),
    )
    .min(1, {error: "a renewal lays at least one layer"})
    .max(20)
    .meta({description: "Laid then, from the surface down, one a course. Left out: the treatment's own again"})
    .optional(),
  reinforcement: nameOf(
    "reinforcement laid then. Left out: the treatment's own where `layers` is left out as well, otherwise none",
  ).optional(),
  life_years: quantity("years", "Life of each renewal. Left out: that of the treatment", {
    above: 0,
    max: 1000,
    typical: [2, 60],
  }).optional(),
});

export const costsFields = z.strictObject({
  currency: z
    .string()
    .min(1, {error: "the currency is empty"})
    .max(12, {error: "longer than 12 characters"})
    .meta({description: "Unit of money as it is to be printed, such as EUR or k$"}),
  price_date: words("When the prices hold and where they come from, shown in the report; may say 'invented'"),
  discount_percent: quantity("% a year", "Real discount rate, above inflation; prices stay those of price_date", {
    above: -20,
    max: 50,
    typical: [0, 10],
    why: "a real discount rate lies between −20 and 50 % a year",
  }),
  analysis_period_years: quantity("years", "Over which costs are added up. Left out: that of the study", {
    above: 0,
    max: 200,
    typical: [10, 100],
  }).optional(),
  longest_life_years: quantity(
    "years",
    "Other causes (ageing, wear) end an overlay by then; a longer computed life counts as this",
    {
      above: 0,
      max: 1000,
      typical: [10, 60],
      why: "no overlay lasts for ever: ageing ends it, usually after 15 to 40 years",
    },
  ),
  materials: z
    .record(
      z.string(),
      z.strictObject({
        price_per_m3: perVolume(money, "By volume, compacted; either this or by mass").optional(),
        price_per_tonne: quantity("currency/t", "By mass, with the density in `thermal`", {
          min: 0,
          max: 1e7,
          why: "a price is 0 or more",
        }).optional(),
      }),
    )
    .meta({description: "Prices by material name, delivered; needed for every material that is laid"}),
  reinforcements: z
    .record(z.string(), z.strictObject({price_per_m2: perArea(money, "Of the reinforcement, laid")}))
    .meta({description: "Prices by name of the reinforcement; needed for every one that is laid"})
    .default({}),
  operations: z
    .strictObject({
      laying_per_m2: perArea(money, `Laying and compacting, each course. ${NOT_APART}`).default(0),
      planing_per_m2: perArea(
        money,
        "Planing, whatever its depth. One of the two is needed where something is planed",
      ).optional(),
      planing_per_m2_and_mm: perDepth(money, "Planing, for each mm of depth").optional(),
      cracking_per_m2: perArea(
        money,
        "Cracking and seating; needed where a treatment has a jointed_modulus_factor below 1 or another spacing_m",
      ).optional(),
      fixed_per_m2: perArea(money, `Whatever else each operation costs: site, sweeping, marking. ${NOT_APART}`).default(
        0,
      ),
    })
    .meta({description: "Prices of what is done on the road"})
    .prefault({}),
  traffic_management_per_m2: perArea(money, "Closing and guarding the lane, each operation. Left out: 0").default(0),
  first_construction: z
    .strictObject({
      planing_mm: quantity("mm", "Planed off the old surface before any treatment", {
        min: 0,
        max: 1000,
        typical: [0, 300],
      }).default(0),
    })
    .meta({description: "What every treatment begins with"})
    .prefault({}),
  renewals: z
    .array(renewalFields)
    .max(20)
    .meta({
      description:
        "What is done at the end of each life, where it is not the same again. Left out: the new layers are planed off and laid anew; slabs are not cracked again",
    })
    .default([]),
  carbon: carbonFields
    .meta({description: "Embodied carbon of the same quantities, undiscounted. Left out: not told"})
    .optional(),
});

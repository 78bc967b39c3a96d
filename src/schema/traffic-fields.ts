import {z} from "zod";
import {count, nameOf, quantity} from "./quantity.ts";

/** Lateral wander on roads [mm]; design value 10 in, measured 140 to 430 mm for heavy vehicles. */
export const roadWander_mm = 250;

const growth = quantity("%", "Compound growth a year", {
  min: -20,
  max: 20,
  typical: [-5, 10],
  why: "growth beyond ±20 % a year cannot be meant for a whole analysis period",
}).default(0);

const passes = quantity("1/year", "Passes in the first year", {
  min: 0,
  max: 1e9,
  why: "a count of passes is 0 or more",
});

const wander = quantity("mm", "Lateral wander: standard deviation of the wheel path, normal", {
  min: 0,
  max: 5000,
  typical: [0, 2000],
});

const distance = (description: string, min = 0) =>
  quantity("mm", description, {min, max: 50_000, typical: [100, 20_000]});

const wheelFields = {
  wheel_load_kN: quantity("kN", "Load on one tyre", {
    above: 0,
    max: 500,
    typical: [5, 350],
    why: "a wheel carries between 0 and 500 kN",
  }),
  pressure_MPa: quantity("MPa", "Contact pressure", {
    above: 0,
    max: 3,
    typical: [0.2, 2],
    why: "no tyre stands on the road with more than 3 MPa",
  }),
  contact_width_mm: quantity(
    "mm",
    "Width of the contact rectangle. Left out: 0.6·L by 0.8712·L with 0.5227·L² = load over pressure",
    {above: 0, max: 2000, typical: [80, 700]},
  ).optional(),
  arrangement: z
    .strictObject({
      axles: count("Axles one behind the other", 1, 10).default(1),
      axle_spacing_mm: distance("Between neighbouring axles; needed with two axles or more", 1).optional(),
      tyres_per_side: count("Tyres beside each other on one side of an axle", 1, 4).default(1),
      tyre_spacing_mm: distance("Between neighbouring tyres; needed with two tyres or more", 1).optional(),
      track_mm: distance(
        "Between the middles of the left and right side. Left out: one side only, as for one leg of an aircraft gear",
        1,
      ).optional(),
    })
    .meta({description: "Regular group of wheels, instead of `wheels`"})
    .optional(),
  wheels: z
    .array(
      z.strictObject({
        x_mm: quantity("mm", "In the direction of travel", {min: -50_000, max: 50_000}),
        y_mm: quantity("mm", "Across it", {min: -50_000, max: 50_000}),
      }),
    )
    .min(1, {error: "a load has at least one wheel"})
    .max(64, {error: "more than 64 wheels"})
    .meta({description: "Centre of every wheel, instead of `arrangement`"})
    .optional(),
};

/** The usual 80 kN single axle with dual tyres. */
export const genericStandardAxle = {
  wheel_load_kN: 20,
  pressure_MPa: 0.7,
  arrangement: {axles: 1, tyres_per_side: 2, tyre_spacing_mm: 340, track_mm: 1800},
};

export const trafficFields = z.strictObject({
  speed_km_per_h: quantity(
    "km/h",
    "Speed of the vehicles, from which with the depth the loading frequency of materials with a master curve follows",
    {above: 0, max: 400, typical: [5, 130], why: "vehicles that load the pavement drive at 5 to 130 km/h"},
  ).optional(),
  standard_axle: z
    .strictObject(wheelFields)
    .meta({
      description:
        "The axle in whose passes lives are also told. Left out: 80 kN single axle, two tyres a side of 20 kN at 0.7 MPa, 340 mm apart, track 1800 mm",
    })
    .prefault(genericStandardAxle),
  standard_axles: z
    .strictObject({passes_per_year: passes, growth_percent: growth, wander_mm: wander.default(roadWander_mm)})
    .meta({description: "Traffic as a number of standard axles"})
    .optional(),
  load_classes: z
    .array(
      z.strictObject({
        name: nameOf("load class"),
        ...wheelFields,
        passes_per_year: passes,
        growth_percent: growth,
        wander_mm: wander,
      }),
    )
    .max(200, {error: "more than 200 load classes"})
    .meta({description: "Axle groups or aircraft gears"})
    .default([]),
});

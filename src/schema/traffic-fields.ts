import {z} from "zod";
import {count, nameOf, quantity} from "./quantity.ts";
import {mostClasses, spectrumFields} from "./spectrum-fields.ts";
import {usualWander_mm, wanderFields} from "./wander.ts";
import {wheelGroupNames} from "./wheel-groups.ts";

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

const share = (description: string) =>
  quantity("%", description, {
    above: 0,
    max: 100,
    why: "a share of the traffic is more than 0 and at most 100 %",
  }).default(100);

const shares = (length: number, description: string) =>
  z
    .array(quantity("%", "Share of the passes", {min: 0, max: 100, why: "a share lies between 0 and 100 %"}))
    .length(length, {error: `${length} shares are needed`})
    .meta({description});

const distance = (description: string, min = 0) =>
  quantity("mm", description, {min, max: 50_000, typical: [100, 20_000]});

const wheelLoad = (description: string) =>
  quantity("kN", description, {
    above: 0,
    max: 500,
    typical: [5, 350],
    why: "a wheel carries between 0 and 500 kN",
  });

const pressure = (description: string) =>
  quantity("MPa", description, {
    above: 0,
    max: 3,
    typical: [0.2, 2],
    why: "no tyre stands on the road with more than 3 MPa",
  });

const wheelFields = {
  wheel_load_kN: wheelLoad("Load on one tyre"),
  pressure_MPa: pressure("Contact pressure"),
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
  group: z
    .enum(wheelGroupNames)
    .meta({description: "Usual axle group or leg of a gear, instead of `arrangement` or `wheels`"})
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
    "Speed of the vehicles, from which with the depth of a layer the loading frequency follows at which its modulus is taken from a master curve",
    {above: 0, max: 400, typical: [5, 130], why: "vehicles that load the pavement move, at 5 to 130 km/h as a rule"},
  ).optional(),
  loading_frequency_Hz: quantity("Hz", "In the place of the speed: loading frequency of all layers", {
    above: 0,
    max: 1000,
    typical: [0.1, 50],
  }).optional(),
  standard_axle: z
    .strictObject(wheelFields)
    .meta({
      description:
        "The axle in whose passes lives are also told. Left out: 80 kN single axle, two tyres a side of 20 kN at 0.7 MPa, 340 mm apart, track 1800 mm",
    })
    .prefault(genericStandardAxle),
  standard_axles: z
    .strictObject({passes_per_year: passes, growth_percent: growth, wander_mm: wander.default(usualWander_mm.road)})
    .meta({description: "Traffic as a number of standard axles"})
    .optional(),
  load_classes: z
    .array(
      z.strictObject({
        name: nameOf("load class"),
        ...wheelFields,
        passes_per_year: passes,
        growth_percent: growth,
        wander_mm: wander.optional(),
        wander: wanderFields.optional(),
      }),
    )
    .max(mostClasses, {error: `more than ${mostClasses} load classes`})
    .meta({description: "Axle groups or aircraft gears"})
    .default([]),
  spectra: z
    .array(
      z.strictObject({
        ...spectrumFields,
        ...wheelFields,
        wheel_load_kN: wheelLoad(
          "Load on one tyre at which `pressure_MPa` and the contact patch are given. Left out: usual for the group",
        ).optional(),
        pressure_MPa: pressure("Contact pressure at that load. Left out: usual for the group").optional(),
        growth_percent: growth,
        wander_mm: wander.optional(),
        wander: wanderFields.optional(),
      }),
    )
    .max(20, {error: "more than 20 spectra"})
    .meta({description: "Axle load spectra, one for each kind of axle group or gear"})
    .default([]),
  design_lane: z
    .strictObject({
      direction_percent: share("Share of the counts that drives in the direction of this lane"),
      lane_percent: share("Share of these that drives in this lane"),
    })
    .meta({
      description: "For counts of a whole road: all passes are multiplied by both. Left out: they are of this lane",
    })
    .prefault({}),
  by_hour_percent: shares(
    24,
    "Share of the day's passes in each hour from midnight. Left out: all hours alike",
  ).optional(),
  by_month_percent: shares(
    12,
    "Share of the year's passes in each month from January. Left out: all days alike",
  ).optional(),
});

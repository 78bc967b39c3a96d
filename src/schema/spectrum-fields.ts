import {z} from "zod";
import {nameOf, quantity, words} from "./quantity.ts";

/** Load classes of all spectra and gears together. */
export const mostClasses = 200;

const load = quantity("kN", "Load on the whole axle group or leg", {
  above: 0,
  max: 3000,
  typical: [10, 2000],
  why: "an axle group or a leg carries up to 3000 kN",
});

/** What a spectrum has besides its wheels, growth and wander. */
export const spectrumFields = {
  name: nameOf("spectrum; left out: that of its group").optional(),
  contact: z
    .enum(["fixed area", "fixed pressure"])
    .meta({
      description:
        "Under other loads than wheel_load_kN: the patch stays and the pressure changes (all loads then cost one computation), or the pressure stays and the patch changes (each load costs its own)",
    })
    .default("fixed area"),
  loads: z
    .array(
      z.strictObject({
        load_kN: load,
        passes_per_year: quantity("1/year", "Passes in the first year", {
          min: 0,
          max: 1e9,
          why: "a count of passes is 0 or more",
        }),
      }),
    )
    .min(1, {error: "a spectrum has at least one load"})
    .max(mostClasses, {error: `more than ${mostClasses} loads`})
    .meta({description: "Loads with their counts"})
    .optional(),
  file: words("CSV file with loads and counts, relative to the study, instead of `loads`").optional(),
  columns: z
    .strictObject({
      load_kN: words("Column name: load on the whole group in kN"),
      passes_per_year: words("Column name: passes in the first year"),
    })
    .meta({description: "Columns of `file`. Left out: load_kN and passes_per_year"})
    .optional(),
};

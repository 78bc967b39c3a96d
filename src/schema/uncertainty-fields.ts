import {z} from "zod";
import {count, quantity, words} from "./quantity.ts";

const number = (description: string) => quantity("–", description, {min: -1e9, max: 1e9});
const spread = (description: string) => quantity("–", description, {above: 0, max: 1e9});
const percent = (description: string) => quantity("%", description, {above: 0, max: 300, typical: [1, 100]});

/** One of the ways to say how an input is spread; in the unit of the input. */
export const distributionFields = {
  normal: z
    .strictObject({
      mean: number("Left out: the value in the study").optional(),
      deviation: spread("Standard deviation").optional(),
      cv_percent: percent("Standard deviation, in percent of the mean, instead of `deviation`").optional(),
    })
    .meta({description: "Normal"})
    .optional(),
  lognormal: z
    .strictObject({
      median: spread("Left out: the value in the study").optional(),
      cv_percent: percent("Standard deviation in percent of the mean"),
    })
    .meta({description: "Log-normal"})
    .optional(),
  uniform: z
    .strictObject({low: number("Least value"), high: number("Largest value")})
    .meta({description: "Even between two values"})
    .optional(),
  triangular: z
    .strictObject({
      low: number("Least value"),
      mode: number("Most likely value. Left out: that of the study").optional(),
      high: number("Largest value"),
    })
    .meta({description: "Triangular"})
    .optional(),
  discrete: z
    .array(z.strictObject({value: number("Value"), weight: spread("Weight; any sum")}))
    .min(1)
    .max(100)
    .meta({description: "Some values with weights"})
    .optional(),
  sample: z.array(number("Measured value")).min(2).max(10_000).meta({description: "Measured values"}).optional(),
  truncated: z
    .strictObject({low: number("Nothing below").optional(), high: number("Nothing above").optional()})
    .meta({description: "Cuts the distribution; what is left is scaled up"})
    .optional(),
};

/** Factors on everything of one kind; 1 is the study as it is. `growth_percent` is added to the growth of all classes. */
export const scales = ["passes", "loads", "growth_percent", "temperatures", "rates"] as const;

export const uncertaintyFields = z.strictObject({
  usual: z
    .boolean()
    .meta({
      description:
        "Adds the usual spread of every input that is not in `inputs`: laws, traffic, thicknesses, moduli, and the choices of the model that nobody has measured",
    })
    .default(false),
  inputs: z
    .array(
      z.strictObject({
        name: words("How it is called in results. Left out: made from what varies").optional(),
        law: words(
          "Material whose A and n vary together, by the covariance of its law file, or by ln_A_deviation and n_deviation",
        ).optional(),
        ln_A_deviation: spread("Standard deviation of ln A").optional(),
        n_deviation: spread("Standard deviation of n").optional(),
        correlation: quantity("–", "Of ln A and n", {above: -1, below: 1}).default(0),
        fatigue_line: words("Material whose ε₆ is multiplied by what the distribution gives").optional(),
        relaxation: words(
          "Material whose relaxation moduli are multiplied by what the distribution gives; each sample is solved anew",
        ).optional(),
        scale: z
          .enum(scales)
          .meta({
            description:
              "Factor on all passes, on all loads, on all departures of temperature, on the growth rates of all laws; or percentage points added to the growth of traffic",
          })
          .optional(),
        field: words(
          "Number of this document by its path, such as section.layers.overlay.thickness_mm; each sample is solved anew",
        ).optional(),
        ...distributionFields,
      }),
    )
    .max(40, {error: "more than 40 uncertain inputs"})
    .meta({
      description: "What is uncertain: one of law, fatigue_line, relaxation, scale and field, with a distribution",
    })
    .default([]),
  reliability_percent: quantity("%", "Reliability whose life is to be known well", {
    above: 0,
    below: 100,
    typical: [50, 99],
  }).default(85),
  standard_error_percent: quantity("%", "Sampling ends when that life is known so well", {
    above: 0,
    max: 100,
    typical: [1, 20],
  }).default(5),
  most_samples: count("Samples at most; with sections solved anew at least 8 of each", 16, 1_000_000).default(4096),
  most_solutions: count("Times that sections are solved anew, at most", 8, 100_000).default(128),
  seed: count("Another seed, another series of samples", 0, 4_000_000_000).default(1),
});

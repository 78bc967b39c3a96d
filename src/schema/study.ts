import {z} from "zod";
import {binFields, climateFields, surfaceFields} from "./climate-fields.ts";
import {costsFields} from "./costs-fields.ts";
import {materialFields} from "./material-fields.ts";
import {nameOf, quantity} from "./quantity.ts";
import {sectionFields, treatmentFields} from "./section-fields.ts";
import {thermalLoadingFields} from "./stiffness-fields.ts";
import {trafficFields} from "./traffic-fields.ts";
import {uncertaintyFields} from "./uncertainty-fields.ts";

/** Bins derived from the record when nothing else is said. */
export const derivedBins = 6;

/** The study document. Types, the published JSON Schema and the field tables all come from here. */
export const studySchema = z.strictObject({
  format: z.literal(1).meta({description: "Version of this format"}),
  name: nameOf("study"),
  materials: z.record(z.string(), materialFields).meta({description: "Materials by name"}),
  section: sectionFields.meta({description: "The pavement before any treatment"}),
  treatments: z
    .array(treatmentFields)
    .min(1, {error: "a study has at least one treatment; the first is the control"})
    .max(60, {error: "more than 60 treatments"})
    .meta({description: "Ways to treat the section. The first is the control, with which the others are compared"}),
  traffic: trafficFields.meta({description: "Loads and their counts"}),
  climate: climateFields
    .meta({
      description:
        "Temperature record, hourly or daily. Left out: no damage by temperature, and temperature_bins must be a list",
    })
    .optional(),
  surface: surfaceFields.meta({description: "Heat exchange at the surface"}).prefault({}),
  temperature_bins: binFields.default("derive"),
  neutral_temperature_C: quantity(
    "°C",
    "Temperature at which the tip is free of strain. Left out: mean of the record",
    {
      min: -40,
      max: 60,
    },
  ).optional(),
  thermal_loading: thermalLoadingFields
    .meta({
      description: "Loading times of temperature, at which relaxation moduli are taken from master curves",
    })
    .prefault({}),
  uncertainty: uncertaintyFields
    .meta({description: "How sure the inputs are, for the command `risk`. Left out: the usual spread of everything"})
    .optional(),
  analysis_period_years: quantity("years", "Period for which crack depth and lives are reported", {
    above: 0,
    max: 100,
    typical: [5, 60],
    why: "the period is more than 0 and at most 100 years",
  }),
  costs: costsFields
    .meta({description: "Prices, from which costs over a period follow. Left out: no costs are told"})
    .optional(),
  numerical: z
    .strictObject({
      accuracy_percent: quantity("%", "Numerical accuracy asked for in the tip strain", {
        min: 0.1,
        max: 5,
        why: "numerical accuracy runs from 0.1 to 5 %: beyond that nothing gets coarser",
      }).default(1),
    })
    .meta({description: "Numerical settings; there is no need to touch them"})
    .prefault({}),
});

/** A valid document with its defaults filled in. */
export type StudyDocument = z.output<typeof studySchema>;
export type MaterialDocument = StudyDocument["materials"][string];
export type SectionDocument = StudyDocument["section"];
export type LayerDocument = SectionDocument["layers"][number];
export type TreatmentDocument = StudyDocument["treatments"][number];
export type CostsDocument = NonNullable<StudyDocument["costs"]>;
export type TrafficDocument = StudyDocument["traffic"];
export type ClimateDocument = NonNullable<StudyDocument["climate"]>;
export type HourlyDocument = NonNullable<ClimateDocument["hourly"]>;
export type DailyDocument = NonNullable<ClimateDocument["daily"]>;

/** What can be trusted of a faulty document: every field may be missing. */
export type Partially<T> = T extends readonly (infer U)[]
  ? readonly (Partially<U> | undefined)[]
  : T extends object
    ? {readonly [K in keyof T]?: Partially<T[K]> | undefined}
    : T;

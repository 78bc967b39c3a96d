import {z} from "zod";
import {count, quantity, words} from "./quantity.ts";

const file = words("CSV file, relative to the study");
const label = words("Where the record comes from, shown in the report");
const kind = z
  .enum(["air", "surface"])
  .meta({description: "What the temperature is: of the air, or of the pavement's surface"});

const tableFields = {
  file,
  header_line: count("Line of the file with the column names; lines above it are skipped", 1, 1000).default(1),
  temperature_is: kind,
  temperature_unit: z.enum(["C", "F", "K"]).meta({description: "Unit of the temperatures in the file"}).default("C"),
  date_format: z
    .enum(["YYYY-MM-DD", "MM/DD/YYYY", "DD/MM/YYYY", "DD.MM.YYYY"])
    .meta({description: "How dates are written in the file"})
    .default("YYYY-MM-DD"),
  record: z
    .enum(["continuous", "typical_year"])
    .meta({description: "typical_year: a year made of months of different years, so the year in the dates is ignored"})
    .default("continuous"),
  label,
};

const column = (description: string) => words(`Column name: ${description}`);

export const climateFields = z.strictObject({
  hourly: z
    .strictObject({
      format: z
        .enum(["csv", "epw", "isd-lite"])
        .meta({
          description:
            "csv: columns by name. epw: the EPW format of building energy work. isd-lite: the ISD-Lite format of the United States' weather service. Both hold times, units and columns that are known",
        })
        .default("csv"),
      ...tableFields,
      columns: z
        .strictObject({
          temperature: column("temperature"),
          solar_W_per_m2: column("global horizontal irradiance in W/m²").optional(),
          wind_m_per_s: column("wind speed in m/s").optional(),
          dew_point: column("dew point, in the unit of the temperatures").optional(),
          relative_humidity_percent: column("relative humidity over water in %, in place of the dew point").optional(),
          cloud_tenths: column("sky under cloud, in tenths").optional(),
          cloud_oktas: column("sky under cloud, in eighths; 9: obscured, taken as 8").optional(),
          cloud_percent: column("sky under cloud, in %").optional(),
          timestamp: column("date and time in one, as 2001-07-31 14:00").optional(),
          date: column("date, with `time` beside it").optional(),
          time: column("time of day, as 14:00").optional(),
        })
        .meta({description: "Names of the columns; only and always with format csv"})
        .optional(),
      clock: z
        .enum(["standard", "summer_time"])
        .meta({
          description:
            "summer_time: local clock time, with an hour missing in spring and one double in autumn, which is turned into standard time. Not needed where each time has its zone, as 2001-07-31T14:00+02:00",
        })
        .default("standard"),
      utc_offset_h: quantity("h", "Local standard time less UTC, east positive; only and always with format isd-lite", {
        min: -12,
        max: 14,
      }).optional(),
      choose_typical_year: z
        .boolean()
        .meta({
          description:
            "true: from a continuous record of several years a typical year is chosen month by month, by the Finkelstein-Schafer statistic",
        })
        .default(false),
      start_hour: quantity("h", "Local hour of day of the first row; only for a file without time columns", {
        min: 0,
        below: 24,
      }).optional(),
    })
    .meta({description: "One row an hour"})
    .optional(),
  daily: z
    .strictObject({
      ...tableFields,
      columns: z.strictObject({
        minimum: column("lowest temperature of the day"),
        maximum: column("highest temperature of the day"),
        date: column("date").optional(),
      }),
    })
    .meta({
      description:
        "One row a day: the hours are filled in by half cosine waves from the minimum at 6 h to the maximum at 15 h",
    })
    .optional(),
});

export const surfaceFields = z.strictObject({
  absorptivity: quantity("–", "Of the surface for sunlight", {min: 0, max: 1, typical: [0.4, 1]}).default(0.9),
  emissivity: quantity("–", "Of the surface for heat radiation", {min: 0, max: 1, typical: [0.6, 1]}).default(0.93),
  film_coefficient_W_per_m2K: quantity("W/(m²·K)", "Heat exchange with the air where no wind is recorded", {
    above: 0,
    max: 200,
    typical: [5, 50],
  }).default(20),
});

export const binFields = z
  .union([
    z.literal("derive"),
    z.strictObject({count: count("Number of bins to derive from the record", 1, 24)}),
    z
      .array(
        z.strictObject({
          temperature_C: quantity("°C", "Overlay temperature", {
            min: -60,
            max: 90,
            why: "no overlay is that cold or hot in °C",
          }),
          share_percent: quantity("%", "Share of the year's passes", {
            min: 0,
            max: 100,
            why: "a share lies between 0 and 100 %",
          }),
        }),
      )
      .min(1, {error: "the list is empty; for bins from the record write `derive`"})
      .max(24, {error: "more than 24 bins"}),
  ])
  .meta({
    description:
      "Overlay temperatures at which traffic is computed: `derive` (six, from the record), another number of them, or a list of temperatures and shares",
  });

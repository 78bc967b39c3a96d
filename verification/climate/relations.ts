/** The heat balance on the hourly year that is shipped, beside published relations for pavement temperature. */
import {readFileSync} from "node:fs";
import {parse} from "csv-parse/sync";
import {expect, test} from "vitest";
import {type PavementTemperatures, pavementTemperatures, type WeatherRecord} from "../../src/engine/climate/index.ts";
import type {Layer, LayerRole, Section} from "../../src/engine/section/index.ts";
import type {verificationTable} from "../table.ts";
import {barber, bells, ltppHigh, ltppLow, shrpAt20, shrpSurface} from "./formulas.ts";

type Table = ReturnType<typeof verificationTable>;

const LATITUDE = 36.1; // of the station [°]; from memory
const EXCHANGE = {absorptivity: 0.9, emissivity: 0.93, filmCoefficient: 20};
const ASPHALT = {conductivity: 1.4, density: 2350, heatCapacity: 920};
const CONCRETE = {conductivity: 1.75, density: 2400, heatCapacity: 960};
const SOIL = {conductivity: 1.5, density: 1900, heatCapacity: 1100};

/** Means over measured cores: k 2.2, ρc 1.5 MJ/(m³·K), diffusivity 1.5 mm²/s. */
const CORES = {conductivity: 2.2, density: 2350, heatCapacity: 1.5e6 / 2350};

/** 200 mm of asphalt, cut at 20 and 100 mm so that these depths are shown, on concrete. */
function thickAsphalt(asphalt: typeof ASPHALT): Section {
  const layer = (role: LayerRole, thickness: number, thermal: typeof ASPHALT): Layer => ({
    name: role,
    role,
    thickness,
    material: {
      name: role,
      modulus: [{temperature: 20, modulus: 5e9}],
      relaxationModulus: 1e9,
      seasonalRelaxationModulus: 1e9,
      masterCurve: null,
      poisson: 0.35,
      expansion: 2e-5,
      growth: null,
      fatigue: null,
      source: "verification",
      ...thermal,
    },
  });
  return {
    layers: [
      layer("overlay", 0.02, asphalt),
      layer("overlay", 0.08, asphalt),
      layer("overlay", 0.1, asphalt),
      layer("jointed", 0.2, CONCRETE),
      layer("foundation", 0.5, SOIL),
    ],
    joint: {
      spacing: 5,
      width: 0.01,
      unbondedStrip: 0,
      transfer: {kind: "spring", stiffness: 0},
      facesTouch: false,
      cutDepth: 0.3,
    },
    slabFriction: 0,
    base: {kind: "rigid"},
    crackInterlock: 0,
    shearWeight: 1,
  };
}

function shippedYear(): WeatherRecord {
  const file = new URL("../../examples/climate/greensboro_tmy3.csv", import.meta.url);
  const rows: Record<string, string>[] = parse(readFileSync(file), {columns: true});
  const column = (name: string) => Float64Array.from(rows, row => Number(row[name]));
  return {
    kind: "air",
    temperature: column("tair_C"),
    solar: column("ghi"),
    wind: column("wind_ms"),
    dewPoint: column("tdew_C"),
    cloud: null,
    startHour: 1,
    startDay: 0,
    label: "TMY3 723170",
  };
}

const DAYS = 365;

/** One value a day, of its 24 hours from one to midnight. */
function daily(values: Float64Array, of: (hours: Float64Array) => number): Float64Array {
  return Float64Array.from({length: DAYS}, (_, d) => of(values.subarray(24 * d, 24 * (d + 1))));
}
const highest = (hours: Float64Array) => Math.max(...hours);
const lowest = (hours: Float64Array) => Math.min(...hours);
const mean = (values: Float64Array) => values.reduce((sum, x) => sum + x, 0) / values.length;

/** The hottest mean of seven days on end. */
function hottestWeek(days: Float64Array): number {
  return Math.max(...Array.from({length: DAYS - 6}, (_, d) => mean(days.subarray(d, d + 7))));
}

/** Temperature at a depth that is shown [m]. */
function at({atDepth}: PavementTemperatures, depth: number): Float64Array {
  return atDepth.find(shown => Math.abs(shown.depth - depth) < 1e-9)!.temperature;
}

export function relationTests({compare, show, heading, remark}: Table): void {
  arithmetic({compare, heading});

  const weather = shippedYear();
  const temperatures = pavementTemperatures(thickAsphalt(ASPHALT), weather, EXCHANGE);
  const air = daily(weather.temperature, highest);
  const summer = hottestWeek(air);
  const winter = Math.min(...weather.temperature);

  test("extremes of the year beside SHRP and LTPP", () => {
    heading(
      "The shipped year, 200 mm of asphalt on 200 mm of concrete, absorptivity 0.9: extremes beside SHRP and LTPP",
    );
    compare({
      name: "hottest seven days, mean of the highest, 20 mm down",
      source:
        "SHRP, from the hottest seven days of the air and latitude; form from memory. Allowed: two standard deviations of 2.2 K, " +
        "from 83 % of cases within 3 K as the abstract of Solaimanian & Kennedy 1993 (Transp. Res. Rec. 1417) says of the " +
        "method it was made with (read)",
      standing: "memory",
      unit: "°C",
      expected: shrpAt20(summer, LATITUDE),
      computed: hottestWeek(daily(at(temperatures, 0.02), highest)),
      tolerance: 4.4,
      absolute: true,
    });
    const memory = {standing: "memory", unit: "°C"} as const;
    show({
      ...memory,
      name: "hottest seven days, mean of the highest, surface",
      source: "SHRP",
      expected: shrpSurface(summer, LATITUDE),
      computed: hottestWeek(daily(temperatures.surface, highest)),
    });
    for (const depth of [20, 100]) {
      show({
        ...memory,
        name: `hottest seven days, mean of the highest, ${depth} mm down`,
        source: "LTPP high (Mohseni 1998), 50 % reliability; its own error, 3.0 K, from memory",
        expected: ltppHigh(summer, LATITUDE, depth),
        computed: hottestWeek(daily(at(temperatures, depth / 1000), highest)),
      });
    }
    for (const depth of [0, 20, 100]) {
      const computed = depth === 0 ? temperatures.surface : at(temperatures, depth / 1000);
      show({
        ...memory,
        name: `lowest of the year, ${depth === 0 ? "surface" : `${depth} mm down`}`,
        source: "LTPP low (Mohseni 1998), 50 % reliability; its own error, 2.1 K, from memory",
        expected: ltppLow(winter, LATITUDE, depth),
        computed: Math.min(...computed),
      });
    }
    show({
      name: "lowest of the year, surface",
      source: "SHRP: the lowest air temperature, as the abstract of FHWA-RD-97-103 says",
      standing: "read",
      unit: "°C",
      expected: winter,
      computed: Math.min(...temperatures.surface),
    });
    remark(EXTREMES);
  });

  test("a sunny day beside BELLS", () => {
    heading("The same, 100 mm down through sunny days: from the computed surface by BELLS, and computed");
    const sun = daily(weather.solar!, mean);
    const air = daily(weather.temperature, hours => 0.5 * (highest(hours) + lowest(hours)));
    const inside = at(temperatures, 0.1);
    for (const {month, from, to} of [
      {month: "April", from: 90, to: 120},
      {month: "July", from: 181, to: 212},
      {month: "October", from: 273, to: 304},
    ]) {
      const day = from + sun.subarray(from, to).indexOf(highest(sun.subarray(from, to)));
      for (const hour of [8, 10, 12, 14, 16, 18]) {
        const i = 24 * day + hour - weather.startHour;
        const input = {surface: temperatures.surface[i], depth: 100, dayBefore: air[day - 1], hour};
        const range = input.surface > 40 ? ", hotter than it was made for" : "";
        show({
          name: `sunniest day of ${month}, ${hour} h, surface at ${input.surface.toFixed(0)} °C${range}`,
          source: "BELLS3 (FHWA-RD-98-085)",
          standing: "read",
          unit: "°C",
          expected: bells(3, input),
          computed: inside[i],
        });
      }
    }
    for (const [name, run] of [
      ["asphalt as above", temperatures],
      [
        "asphalt as the mean of measured cores (k 2.2, 1.5 mm²/s)",
        pavementTemperatures(thickAsphalt(CORES), weather, EXCHANGE),
      ],
    ] as const) {
      for (const {what, of, hours} of SPANS) {
        show({
          name: `${what}, ${hours[0]} to ${hours[1]} h, surface at 0 to 40 °C, whole year; ${name}`,
          source: "computed less BELLS3",
          standing: "read",
          unit: "K",
          expected: 0,
          computed: of(bellsDifferences(run, weather, hours)),
        });
      }
    }
    remark(BELLS);
  });

  test("monthly means beside Barber", () => {
    heading(
      "The same, surface of an average day of each season: Barber with the month's air, sun and wind, and computed",
    );
    const computed = {
      highest: daily(temperatures.surface, highest),
      lowest: daily(temperatures.surface, lowest),
    };
    for (const {month, from, to} of [
      {month: "January", from: 0, to: 31},
      {month: "April", from: 90, to: 120},
      {month: "July", from: 181, to: 212},
      {month: "October", from: 273, to: 304},
    ]) {
      const hours = (values: Float64Array) => values.subarray(24 * from, 24 * to);
      const range = daily(weather.temperature, hours => highest(hours) - lowest(hours)).subarray(from, to);
      const wave = barber({
        mean: 32 + 1.8 * mean(hours(weather.temperature)),
        range: 1.8 * mean(range),
        sun: (mean(hours(weather.solar!)) * 86_400) / 41_840, // 1 langley = 41.84 kJ/m²
        wind: mean(hours(weather.wind!)) / 0.44704,
        absorptivity: EXCHANGE.absorptivity,
        conductivity: ASPHALT.conductivity / 1.730735, // 1 BTU/(ft·h·°F) = 1.730735 W/(m·K)
        specificHeat: ASPHALT.heatCapacity / 4186.8,
        weight: ASPHALT.density / 16.01846,
      });
      for (const end of ["highest", "lowest"] as const) {
        show({
          name: `${month}, mean of the ${end} of each day`,
          source: "Barber 1957; factors of sun and of the night from memory",
          standing: "memory",
          unit: "°C",
          expected: (wave[end] - 32) / 1.8,
          computed: mean(computed[end].subarray(from, to)),
        });
      }
    }
    remark(BARBER);
  });
}

const rootMeanSquare = (values: readonly number[]) =>
  Math.sqrt(values.reduce((sum, x) => sum + x * x, 0) / values.length);
const meanOf = (values: readonly number[]) => values.reduce((sum, x) => sum + x, 0) / values.length;
const SPANS = [
  {what: "mean difference", of: meanOf, hours: [8, 18]},
  {what: "mean difference", of: meanOf, hours: [10, 13]},
  {what: "mean difference", of: meanOf, hours: [16, 18]},
  {what: "root mean square", of: rootMeanSquare, hours: [8, 18]},
] as const;

/** Computed less BELLS3, 100 mm down, at all hours of a span in which the surface is in the relation's range [K]. */
function bellsDifferences(run: PavementTemperatures, weather: WeatherRecord, [from, to]: readonly [number, number]) {
  const air = daily(weather.temperature, hours => 0.5 * (highest(hours) + lowest(hours)));
  const inside = at(run, 0.1);
  const differences: number[] = [];
  for (let day = 1; day < DAYS; day++)
    for (let hour = from; hour <= to; hour++) {
      const i = 24 * day + hour - weather.startHour;
      const surface = run.surface[i];
      if (surface < 0 || surface > 40) continue;
      differences.push(inside[i] - bells(3, {surface, depth: 100, dayBefore: air[day - 1], hour}));
    }
  return differences;
}

const EXTREMES =
  "In summer the balance lies between the two relations, 2 K below the one and 1 K above the other at 20 mm, and falls off with " +
  "depth as LTPP's does; all of it is within the errors that the relations claim for themselves. In winter it is 4 to 6 K colder " +
  "than LTPP's, more than twice that relation's error, and 1 K warmer than SHRP's rule that the surface is as cold as the air. " +
  "Two things make LTPP's warmer: it was fitted to all weather, and this record has no sky cover, so every night is clear (half a " +
  "sky of cloud lifts the coldest night by 4 K, docs/theory/climate.md); and a typical year's lowest hour is one hour, the " +
  "relation's input a mean over years. Cold extremes computed without sky cover are on the cold side, which is the safe one.";
const BELLS =
  "With the conductivity and heat capacity usual in design the balance follows BELLS3 with a root mean square of 2.4 K over the " +
  "whole year, but 100 mm down it lags behind: colder by 2 K before noon, warmer in the evening. Measured cores conduct heat " +
  "faster (k 1.0 to 3.0, diffusivity 0.6 to 2.0 mm²/s, abstract of a study of field cores, read), and with their mean values the " +
  "lag before noon is 0.5 K and the root mean square 1.8 K. So a study whose answer hangs on temperatures at depth should state " +
  "measured thermal properties. On the sunniest days, chosen above, differences are largest: BELLS takes the day's course from the " +
  "clock alone. It was made for surfaces of 0 to 40 °C and depths below a third of the asphalt (AASHTO T 317, read), and it says " +
  "no standard error where it was read: nothing here is pass or fail.";
const BARBER =
  "The highest temperatures of an average day agree within 1 K through the year, though Barber has no long-wave radiation but the " +
  "factor of two thirds on the sun. His lowest ones are 5 to 7 K warmer: by his way the mean rise by the sun, R, counts at night " +
  "as by day, and there is no loss to a clear sky. He offered the relation for the highest temperatures only.";

/** The formulas as written here, against values that were computed by hand elsewhere. */
function arithmetic({compare, heading}: Pick<Table, "compare" | "heading">): void {
  test("arithmetic of the relations", () => {
    heading("Published relations as they are used below: arithmetic");
    const check = (name: string, expected: number, computed: number, source: string) =>
      compare({name, source, standing: "derived", unit: "°C", expected, computed, tolerance: 2e-6});
    const lukanen = "Lukanen, Stubstad & Briggs 2000, FHWA-RD-98-085, evaluated independently";
    for (const [surface, depth, dayBefore, hour, three, two] of [
      [30, 100, 20, 13, 25.6748073, 27.1533223],
      [45, 50, 25, 14.5, 39.3744332, 41.3915482],
      [10, 150, 8, 8, 8.2071855, 9.3277371],
      [20, 75, 15, 20, 20.7992367, 22.9119339],
    ]) {
      const input = {surface, depth, dayBefore, hour};
      const name = `surface ${surface} °C, ${depth} mm, day before ${dayBefore} °C, ${hour} h`;
      check(`BELLS3: ${name}`, three, bells(3, input), lukanen);
      check(`BELLS2: ${name}`, two, bells(2, input), lukanen);
    }
    for (const [air, latitude, surface, at20, high20, high75] of [
      [35, 40, 58.668, 55.209, 52.59, 47.34],
      [30, 52, 49.592, 46.546, 45.93, 40.68],
      [40, 33, 65.224, 61.466, 57.768, 52.518],
    ]) {
      const rounded = {standing: "derived", unit: "°C", tolerance: 6e-4, absolute: true} as const; // printed to 0.001
      const name = `air ${air} °C, latitude ${latitude}°`;
      const from = "form from memory, evaluated independently";
      const rows = [
        [`SHRP surface: ${name}`, surface, shrpSurface(air, latitude)],
        [`SHRP at 20 mm: ${name}`, at20, shrpAt20(air, latitude)],
        [`LTPP high at 20 mm: ${name}`, high20, ltppHigh(air, latitude, 20)],
        [`LTPP high at 75 mm: ${name}`, high75, ltppHigh(air, latitude, 75)],
      ] as const;
      for (const [row, expected, computed] of rows) compare({...rounded, name: row, source: from, expected, computed});
    }
    for (const [air, latitude, depth, low] of [
      [-20, 45, 0, -15.308896],
      [-30, 50, 20, -22.81089],
      [-10, 40, 100, -2.033343],
    ]) {
      const name = `LTPP low: air ${air} °C, latitude ${latitude}°, ${depth} mm`;
      check(name, low, ltppLow(air, latitude, depth), "form from memory, evaluated independently");
    }
    const wave = barber({
      mean: 0,
      range: 2,
      sun: 0,
      wind: 10,
      absorptivity: 0.95,
      conductivity: 0.7,
      specificHeat: 0.22,
      weight: 140,
    });
    const source = "Barber 1957, k = 0.7, s = 0.22, w = 140, 10 mph, evaluated independently";
    const barberCheck = {source, standing: "derived", tolerance: 1e-8} as const;
    compare({...barberCheck, name: "Barber: C", unit: "1/ft", expected: 2.4008331887, computed: wave.C});
    compare({...barberCheck, name: "Barber: h", unit: "BTU/(ft²·h·°F)", expected: 4.7865162162, computed: wave.film});
    compare({...barberCheck, name: "Barber: H", unit: "1/ft", expected: 6.8378803088, computed: wave.H});
    compare({...barberCheck, name: "Barber: surface over air", unit: "–", expected: 0.716341014, computed: wave.ratio});
    expect(wave.highest).toBeCloseTo(wave.ratio, 12); // an air wave of 1 °F about 0 without sun
  });
}

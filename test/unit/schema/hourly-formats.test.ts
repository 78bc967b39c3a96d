import {describe, expect, test} from "vitest";
import {dewPointOf} from "../../../src/schema/humidity.ts";
import {csv, faults, goodText, madeUpTemperature, spoiled, study} from "./good-study.ts";

const whole = /columns: \{temperature: t, timestamp: when\}\n/;
const as = (fields: string) => goodText.replace(whole, `${fields}\n`);

describe("humidity and cloud", () => {
  const withColumns = (extra: string) => spoiled(["{temperature: t,", `{temperature: t, ${extra},`]);
  const record = (header: string, cells: (h: number) => string) =>
    csv(720, (row, h) => [...row, cells(h)]).replace("when,t", `when,t,${header}`);

  test("dew point by Magnus", () => {
    // By hand: γ = ln 0.5 + 17.625·20/263.04 = −0.693147 + 1.340100 = 0.646953; 243.04·0.646953/16.978047 = 9.2612.
    // Psychrometric tables give 9.3 °C at 20 °C and 50 %: common practice, no source.
    expect(dewPointOf(20, 50)).toBeCloseTo(9.2612, 3);
    expect(dewPointOf(-5, 100)).toBeCloseTo(-5, 12);
  });

  test("dew point in the unit of the temperatures, humidity turned into it", () => {
    const dew = study(
      withColumns("dew_point: d"),
      record("d", h => (madeUpTemperature(h) - 4).toFixed(2)),
    ).study.weather!;
    expect(dew.dewPoint![100]).toBeCloseTo(dew.temperature[100] - 4, 1);
    const fahrenheit = study(
      withColumns("dew_point: d").replace("temperature_is: air", "temperature_is: air\n    temperature_unit: F"),
      csv(720, ([when], h) => [when, ((madeUpTemperature(h) * 9) / 5 + 32).toFixed(2), "5"]).replace(
        "when,t",
        "when,t,d",
      ),
    ).study.weather!;
    expect(fahrenheit.dewPoint![0]).toBeCloseTo(-15, 10);
    const humid = study(
      withColumns("relative_humidity_percent: rh"),
      record("rh", () => "50"),
    ).study.weather!;
    expect(humid.dewPoint![5]).toBeCloseTo(dewPointOf(humid.temperature[5], 50), 10);
    expect(study(goodText).study.weather).toMatchObject({dewPoint: null, cloud: null});
  });

  test("cloud in three units; an obscured sky is a covered one", () => {
    for (const [role, cell, part] of [
      ["cloud_tenths", "5", 0.5],
      ["cloud_oktas", "2", 0.25],
      ["cloud_oktas", "9", 1],
      ["cloud_percent", "30", 0.3],
    ] as const) {
      const {weather} = study(
        withColumns(`${role}: c`),
        record("c", () => cell),
      ).study;
      expect(weather!.cloud![7]).toBeCloseTo(part, 12);
    }
  });

  test("refused: impossible, twice, or a dew point above the air", () => {
    expect(
      faults(
        withColumns("cloud_tenths: c"),
        record("c", h => (h === 3 ? "11" : "5")),
      ),
    ).toMatchObject([{path: "climate.hourly.columns.cloud_tenths", found: "11 in line 5"}]);
    expect(
      faults(
        withColumns("cloud_tenths: c, cloud_percent: c"),
        record("c", () => "5"),
      ),
    ).toMatchObject([{problem: "sky cover is given twice"}]);
    expect(
      faults(
        withColumns("dew_point: c, relative_humidity_percent: c"),
        record("c", () => "5"),
      ),
    ).toMatchObject([{problem: "humidity is given twice"}]);
    const above = faults(
      withColumns("dew_point: d"),
      record("d", h => (h === 9 ? "40" : "-30")),
    );
    expect(above).toMatchObject([
      {path: "climate.hourly.columns.dew_point", problem: expect.stringMatching(/in line 11 /)},
    ]);
  });
});

describe("EPW", () => {
  const text = as("format: epw");
  const headers = [
    "LOCATION,Made Up,XX,XXX,invented,000000,45.0,5.0,1.0,100.0",
    "DESIGN CONDITIONS,0",
    "TYPICAL/EXTREME PERIODS,0",
    "GROUND TEMPERATURES,0",
    "HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0",
    "COMMENTS 1,invented",
    "COMMENTS 2,invented",
    "DATA PERIODS,1,1,Data,Sunday,1/1,12/31",
  ];
  interface Hour {
    readonly t?: string;
    readonly dew?: string;
    readonly rh?: string;
    readonly sun?: string;
    readonly wind?: string;
    readonly total?: string;
    readonly opaque?: string;
  }
  const epw = (hours = 720, of: (h: number) => Hour = () => ({})) => {
    const rows = Array.from({length: hours}, (_, h) => {
      const day = new Date(Date.UTC(2003, 0, 1, h));
      const {t = madeUpTemperature(h).toFixed(1), dew = "-8.0", rh = "60", sun = "999", wind = "2.5", ...sky} = of(h);
      const {total = "8", opaque = "4"} = sky;
      const date = [day.getUTCFullYear(), day.getUTCMonth() + 1, day.getUTCDate(), (h % 24) + 1, 60];
      const flags = "?9?9?9";
      return [
        ...date,
        flags,
        t,
        dew,
        rh,
        99000,
        0,
        0,
        280,
        sun,
        0,
        0,
        0,
        0,
        0,
        0,
        180,
        wind,
        total,
        opaque,
        9,
        99999,
      ].join(",");
    });
    return [...headers, ...rows].join("\r\n");
  };

  test("is read by the place of its fields; 999 W/m² is sunshine there", () => {
    const {study: read, warnings} = study(text, epw());
    const weather = read.weather!;
    expect(weather).toMatchObject({kind: "air", startHour: 1, startDay: 0});
    expect(weather.temperature).toHaveLength(720);
    expect(weather.temperature[100]).toBeCloseTo(madeUpTemperature(100), 0);
    expect([weather.solar![5], weather.wind![5], weather.dewPoint![5], weather.cloud![5]]).toEqual([999, 2.5, -8, 0.4]);
    expect(warnings).toHaveLength(1); // of the short record
  });

  test("what is missing: by field, total for opaque cover, humidity for dew point, a column left out", () => {
    const record = epw(720, h => ({
      t: h === 50 ? "99.9" : "10.0",
      dew: h === 7 ? "99.9" : "2.0",
      rh: "50",
      wind: h > 300 && h < 400 ? "999" : "2.5",
      sun: h === 60 ? "9999" : "100",
      opaque: h === 9 ? "99" : "4",
    }));
    const {study: read, warnings} = study(text, record);
    const weather = read.weather!;
    expect(weather.temperature[50]).toBeCloseTo(10, 12);
    expect(weather.solar![60]).toBeCloseTo(100, 12);
    expect(weather.dewPoint![7]).toBeCloseTo(dewPointOf(10, 50), 10);
    expect(weather.cloud![9]).toBeCloseTo(0.8, 12);
    expect(weather.wind).toBeNull();
    const told = warnings.map(w => w.problem).join("\n");
    expect(told).toMatch(/values of wind_m_per_s are missing .* from line 310 of the file: they are not used/);
    expect(told).toMatch(/1 missing hour of temperature was filled in .* line 59 /);
    const none = study(
      text,
      epw(720, () => ({dew: "99.9", rh: "999", opaque: "99", total: "99"})),
    ).study.weather!;
    expect([none.dewPoint, none.cloud]).toEqual([null, null]);
  });

  test("months of different years need record: typical_year", () => {
    const record = epw(8760).replaceAll("2003,2,", "1998,2,");
    expect(faults(text, record)[0].suggestion).toMatch(/typical_year/);
    const typical = as("format: epw\n    record: typical_year");
    expect(study(typical, record).study.weather!.temperature).toHaveLength(8760);
  });

  test("refused, with lines: no header, half-hours, torn rows, fields of other formats", () => {
    expect(faults(text, "when,t\n")[0].problem).toMatch(/8 header lines/);
    expect(faults(text, epw().replace("PERIODS,1,1", "PERIODS,1,2"))[0].problem).toMatch(/line 8 says/);
    expect(faults(text, epw().replace("2003,1,1,3,60", "2003,1,x,3,60"))[0].problem).toBe(
      "no rows of the format in line 11",
    );
    expect(faults(goodText.replace("hourly:", "hourly:\n    format: epw"), epw())[0].path).toBe(
      "climate.hourly.columns",
    );
    expect(faults(as("format: epw\n    utc_offset_h: 1"), epw())[0].path).toBe("climate.hourly.utc_offset_h");
    expect(faults(as("format: csv"), csv())[0].path).toBe("climate.hourly.columns");
  });

  test("a gap in the temperature is a fault", () => {
    const fault = faults(
      text,
      epw(720, h => (h > 100 && h < 110 ? {t: "99.9"} : {})),
    )[0];
    expect(fault).toMatchObject({path: "climate.hourly.file"});
    expect(fault.problem).toMatch(/values of temperature are missing .* from line 110 /);
  });
});

describe("ISD-Lite", () => {
  const text = as("format: isd-lite\n    utc_offset_h: -5");
  const isd = (
    hours = 720,
    of: (h: number) => Partial<Record<"t" | "dew" | "wind" | "cloud", number>> | null = () => ({}),
  ) =>
    Array.from({length: hours}, (_, h) => {
      const hour = of(h);
      if (!hour) return "";
      const day = new Date(Date.UTC(2004, 1, 20, h)); // a leap year, over its 29 February
      const {t = Math.round(10 * madeUpTemperature(h)), dew = -80, wind = 25, cloud = 2} = hour;
      const date = day.toISOString();
      const numbers = [t, dew, 10132, 180, wind, cloud, -9999, -9999].map(n => String(n).padStart(6)).join("");
      return `${date.slice(0, 4)} ${date.slice(5, 7)} ${date.slice(8, 10)} ${date.slice(11, 13)}${numbers}`;
    })
      .filter(line => line !== "")
      .join("\n");

  test("is read by the places of its characters, UTC turned into local standard time", () => {
    const weather = study(text, isd()).study.weather!;
    expect(weather).toMatchObject({startHour: 19, startDay: 49, solar: null}); // 19 February, 19 h
    expect(weather.temperature).toHaveLength(720);
    expect(weather.temperature[100]).toBeCloseTo(madeUpTemperature(100), 0);
    expect([weather.dewPoint![3], weather.wind![3], weather.cloud![3]]).toEqual([-8, 2.5, 0.25]);
  });

  test("sky obscured, words for oktas, not recorded", () => {
    const codes = [9, 11, 15, 18, 8, 10];
    const weather = study(
      text,
      isd(720, h => ({cloud: codes[h] ?? 0})),
    ).study.weather!;
    expect([...weather.cloud!.slice(0, 7)]).toEqual([1, 0.5, 0.875, 1, 1, 0.5, 0]); // the sixth filled in
    const {study: read, warnings} = study(
      text,
      isd(720, h => ({cloud: h % 3 === 0 ? 4 : -9999, dew: -9999})),
    );
    expect(read.weather!.cloud).toBeNull(); // the last hours are missing
    expect(read.weather!.dewPoint).toBeNull();
    expect(warnings.some(w => /cloud_oktas .* not used/.test(w.problem))).toBe(true);
  });

  test("missing rows: short ones filled in, long ones refused", () => {
    const filled = study(
      text,
      isd(720, h => (h === 30 ? null : {})),
    );
    expect(filled.study.weather!.temperature).toHaveLength(720);
    expect(
      faults(
        text,
        isd(720, h => (h >= 30 && h < 40 ? null : {})),
      )[0].problem,
    ).toMatch(/10 hours are missing before line 31/);
  });

  test("refused: no offset, torn lines", () => {
    expect(faults(as("format: isd-lite"), isd())[0].path).toBe("climate.hourly.utc_offset_h");
    expect(faults(text, isd().replace("2004 02 21 03", "2004 02 31 03"))[0].problem).toMatch(
      /no rows of the format in line 28 /,
    );
  });
});

import {describe, expect, test} from "vitest";
import {hoursFromExtremes} from "../../../src/schema/daily.ts";
import {csv, faults, goodText, madeUpTemperature, spoiled, study} from "./good-study.ts";

const cell = (hour: number, text: string) => csv(8760, (row, h) => (h === hour ? [row[0], text] : row));

test("a good record", () => {
  const {weather} = study(goodText).study;
  expect(weather).toMatchObject({kind: "air", startHour: 0, solar: null, wind: null, label: "made up"});
  expect(weather!.temperature).toHaveLength(8760);
  expect(weather!.temperature[5000]).toBeCloseTo(madeUpTemperature(5000), 2);
});

describe("refused", () => {
  const refused = (record: string | {problem: string}, text = goodText) => {
    const found = faults(text, record);
    expect(found).toHaveLength(1);
    return found[0];
  };
  test("no file", () => {
    expect(refused({problem: "no such file"})).toMatchObject({path: "climate.hourly.file", found: '"year.csv"'});
  });
  test("no such column", () => {
    const fault = refused(csv().replace("when,t", "when,temp"), spoiled(["temperature: t,", "temperature: tmep,"]));
    expect(fault).toMatchObject({path: "climate.hourly.columns.temperature", suggestion: "did you mean temp?"});
  });
  test("words in the column, with their lines", () => {
    const fault = refused(csv(8760, (row, h) => (h >= 100 && h < 107 ? [row[0], "NA"] : row)));
    expect(fault.problem).toBe("not a number in lines 102, 103, 104, 105, 106 and 2 more of the file");
    expect(fault.found).toBe('"NA" in line 102');
  });
  test("decimal commas", () => {
    const fault = refused(cell(3, '"3,5"'));
    expect(fault.suggestion).toMatch(/decimal points/);
  });
  test("a gap of four hours", () => {
    const fault = refused(csv(8760, (row, h) => (h >= 50 && h < 54 ? null : row)));
    expect(fault.problem).toBe("4 hours are missing before line 52 of the file");
  });
  test("four hours of -999", () => {
    const fault = refused(csv(8760, (row, h) => (h >= 50 && h < 54 ? [row[0], "-999"] : row)));
    expect(fault.problem).toMatch(/missing for more than 3 hours.*line 52.*-999 taken as not recorded/);
  });
  test("an empty cell at the start", () => {
    expect(refused(cell(0, "")).problem).toMatch(/start or end, from line 2 /);
  });
  test("the same hour twice", () => {
    const fault = refused(csv(8760, (row, h) => (h === 31 ? ["2023-01-02 06:00", row[1]] : row)));
    expect(fault).toMatchObject({
      path: "climate.hourly.columns.timestamp",
      problem: "the same time again in line 33 of the file",
    });
  });
  test("time backward", () => {
    const fault = refused(csv(8760, (row, h) => (h >= 744 ? [row[0].replace("2023", "2019"), row[1]] : row)));
    expect(fault.problem).toMatch(/^time runs backward in line/);
    expect(fault.suggestion).toMatch(/typical_year/);
  });
  test("half-hourly rows", () => {
    const record = csv(96)
      .split("\n")
      .map((line, i) => (i % 2 === 0 ? line.replace(":00,", ":30,") : line))
      .join("\n");
    expect(refused(record).problem).toMatch(/not one hour apart/);
  });
  test("dates in another format", () => {
    const record = csv(8760, ([when, t]) => [`${when.slice(5, 7)}/${when.slice(8, 10)}/2023 ${when.slice(11)}`, t]);
    const fault = refused(record);
    expect(fault.problem).toMatch(/not a date and time/);
    expect(fault.suggestion).toBe("perhaps date_format: MM/DD/YYYY or DD/MM/YYYY");
  });
  test("temperatures in °F", () => {
    const record = csv(8760, ([when], h) => [when, ((madeUpTemperature(h) * 9) / 5 + 32).toFixed(2)]);
    const fault = refused(record);
    expect(fault.suggestion).toBe("by the look of them they are in °F: write temperature_unit: F");
    const {weather} = study(
      spoiled(["temperature_is: air", "temperature_is: air\n    temperature_unit: F"]),
      record,
    ).study;
    expect(weather!.temperature[4000]).toBeCloseTo(madeUpTemperature(4000), 1);
  });
  test("temperatures in kelvin", () => {
    const record = csv(8760, ([when], h) => [when, (madeUpTemperature(h) + 273.15).toFixed(2)]);
    expect(refused(record).suggestion).toMatch(/temperature_unit: K/);
  });
  test("°C said to be °F", () => {
    const text = spoiled(["temperature_is: air", "temperature_is: air\n    temperature_unit: K"]);
    expect(refused(csv(), text).suggestion).toMatch(/temperature_unit: C/);
  });
  test("less than a day, no rows, no header", () => {
    expect(refused(csv(20)).problem).toMatch(/shorter than a day/);
    expect(refused("when,t\n").problem).toMatch(/no rows/);
    expect(refused("").problem).toMatch(/column names/);
  });
  test("broken quotes", () => {
    expect(refused(cell(3, '"3.5')).problem).toMatch(/proper CSV/);
  });
  test("impossible sun", () => {
    const text = spoiled(["{temperature: t,", "{temperature: t, solar_W_per_m2: sun,"]);
    const record = csv(8760, (row, h) => [...row, h === 12 ? "5000" : "100"]).replace("when,t", "when,t,sun");
    expect(refused(record, text)).toMatchObject({
      path: "climate.hourly.columns.solar_W_per_m2",
      found: "5000 in line 14",
    });
  });
  test("no time columns and no first hour; both", () => {
    expect(refused(csv(), spoiled([", timestamp: when", ""])).path).toBe("climate.hourly.start_hour");
    const both = spoiled(["temperature_is: air", "temperature_is: air\n    start_hour: 3"]);
    expect(refused(csv(), both).path).toBe("climate.hourly.start_hour");
  });
});

describe("accepted with a warning", () => {
  test("short gaps are filled by straight lines", () => {
    const record = csv(8760, (row, h) => (h === 50 || h === 51 ? null : h === 80 ? [row[0], "-99.9"] : row));
    const {study: read, warnings} = study(goodText, record);
    const t = read.weather!.temperature;
    expect(t).toHaveLength(8760);
    expect(t[50]).toBeCloseTo(t[49] + (t[52] - t[49]) / 3, 10);
    expect(t[80]).toBeCloseTo((t[79] + t[81]) / 2, 10);
    expect(warnings).toMatchObject([
      {problem: expect.stringMatching(/^3 missing hours were filled in .*lines 52 and 80.*-99.9/)},
    ]);
  });
  test("a part day, a short record, a record that is no year", () => {
    const warned = (hours: number) => study(goodText, csv(hours)).warnings.map(warning => warning.problem);
    expect(warned(8763)).toEqual([expect.stringMatching(/last 3 hours are left out/)]);
    expect(warned(240)).toEqual([expect.stringMatching(/cannot stand for a climate/)]);
    expect(warned(2400)).toEqual([expect.stringMatching(/not of whole years/)]);
  });
  test("night offset of the sun", () => {
    const text = spoiled(["{temperature: t,", "{temperature: t, solar_W_per_m2: sun,"]);
    const record = csv(8760, (row, h) => [...row, h % 24 < 6 ? "-2" : "100"]).replace("when,t", "when,t,sun");
    const {study: read, warnings} = study(text, record);
    expect(read.weather!.solar!.slice(0, 8)).toEqual(Float64Array.of(0, 0, 0, 0, 0, 0, 100, 100));
    expect(warnings.some(warning => /taken as 0/.test(warning.problem))).toBe(true);
  });
});

test("a typical year of months of different years, hours 1 to 24, date and time apart", () => {
  const text = spoiled(
    ["timestamp: when", "date: day, time: hour"],
    ["temperature_is: air", "temperature_is: air\n    record: typical_year\n    date_format: MM/DD/YYYY"],
  );
  const rows = ["day,hour,t"];
  for (let h = 0; h < 8760; h++) {
    const day = new Date(Date.UTC(2023, 0, 1, h)); // 2023 is only the calendar; the year written changes by month
    const month = day.getUTCMonth() + 1;
    const date = `${String(month).padStart(2, "0")}/${String(day.getUTCDate()).padStart(2, "0")}/${1980 + ((month * 7) % 13)}`;
    rows.push(`${date},${String((h % 24) + 1).padStart(2, "0")}:00,${madeUpTemperature(h).toFixed(2)}`);
  }
  const {weather} = study(text, rows.join("\n")).study;
  expect(weather).toMatchObject({startHour: 1});
  expect(weather!.temperature).toHaveLength(8760);
});

test("no time columns: rows are hours; semicolons; lines above the header", () => {
  const text = spoiled(
    [", timestamp: when", ""],
    ["temperature_is: air", "temperature_is: air\n    start_hour: 7.5\n    header_line: 3"],
  );
  const record = `station,x\n"a ""b""\n${csv().replaceAll(",", ";")}`;
  expect(study(text, record).study.weather).toMatchObject({startHour: 7.5});
});

describe("daily minima and maxima", () => {
  const text = goodText.replace(
    / {2}hourly:[\s\S]*?label/,
    "  daily:\n    file: days.csv\n    columns: {date: d, minimum: lo, maximum: hi}\n    temperature_is: air\n    label",
  );
  const days = (change: (row: string[], day: number) => string[] | null = row => row) => {
    const rows = ["d,lo,hi"];
    for (let day = 0; day < 365; day++) {
      const date = new Date(Date.UTC(2023, 0, 1 + day)).toISOString().slice(0, 10);
      const row = change([date, String(5 + (day % 3)), String(15 + (day % 5))], day);
      if (row) rows.push(row.join(","));
    }
    return rows.join("\n");
  };
  test("each day reaches its extremes and nothing beyond", () => {
    const {study: read, warnings} = study(text, days());
    const t = read.weather!.temperature;
    expect(t).toHaveLength(8760);
    for (let day = 0; day < 365; day++) {
      expect(t[24 * day + 6]).toBeCloseTo(5 + (day % 3), 12);
      expect(t[24 * day + 15]).toBeCloseTo(15 + (day % 5), 12);
    }
    expect(Math.max(...t)).toBeLessThanOrEqual(19);
    expect(Math.min(...t)).toBeGreaterThanOrEqual(5);
    expect(warnings).toMatchObject([{path: "climate.daily"}]);
  });
  test("constant extremes give the same day again and again", () => {
    const t = hoursFromExtremes(Float64Array.of(0, 0, 0), Float64Array.of(10, 10, 10));
    expect(t.slice(0, 24)).toEqual(t.slice(24, 48));
  });
  test("swapped columns, missing days, empty cells", () => {
    expect(
      faults(
        text,
        days(([d, lo, hi]) => [d, hi, lo]),
      ),
    ).toMatchObject([{suggestion: "are the two columns swapped?"}]);
    expect(
      faults(
        text,
        days((row, day) => (day === 9 ? null : row)),
      ),
    ).toMatchObject([{problem: "1 day is missing before line 11 of the file"}]);
    expect(
      faults(
        text,
        days((row, day) => (day === 9 ? [row[0], "", row[2]] : row)),
      ),
    ).toMatchObject([{path: "climate.daily.columns.minimum"}]);
  });
  test("hourly and daily at once", () => {
    const both = text.replace(
      "  daily:",
      "  hourly: {file: a, columns: {temperature: t}, temperature_is: air, label: x}\n  daily:",
    );
    expect(faults(both)).toMatchObject([{path: "climate.daily", problem: "the climate is given twice"}]);
  });
});

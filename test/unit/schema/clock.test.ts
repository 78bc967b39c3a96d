import {describe, expect, test} from "vitest";
import {csv, faults, goodText, madeUpTemperature, spoiled, study} from "./good-study.ts";

/** Rows at instants of UTC, as a clock shows them. */
function record(
  from: number,
  hours: number,
  stamp: (instant: Date) => string,
  skip: (h: number) => boolean = () => false,
) {
  const rows = ["when,t"];
  for (let h = 0; h < hours; h++)
    if (!skip(h)) rows.push(`${stamp(new Date(from + 3_600_000 * h))},${madeUpTemperature(h).toFixed(2)}`);
  return rows.join("\n");
}

/** Central European clock, standard UTC+1: 2023 forward on 26 March at 1 h UTC, back on 29 October at 1 h UTC. */
const summer = [Date.UTC(2023, 2, 26, 1), Date.UTC(2023, 9, 29, 1)] as const;
const offset = (instant: Date) => (instant.getTime() >= summer[0] && instant.getTime() < summer[1] ? 2 : 1);
const local = (instant: Date) =>
  new Date(instant.getTime() + 3_600_000 * offset(instant)).toISOString().slice(0, 16).replace("T", " ");
const zoned = (instant: Date) => `${local(instant).replace(" ", "T")}+0${offset(instant)}:00`;
const year = Date.UTC(2022, 11, 31, 23); // 1 January, 0 h there
const clock = spoiled(["temperature_is: air", "temperature_is: air\n    clock: summer_time"]);
const warned = (text: string, rows: string) => study(text, rows).warnings.map(w => w.problem);
const lineOfHour = (instant: number) => 2 + (instant - year) / 3_600_000;

describe("summer time", () => {
  test("is turned into standard time where the study says that the clock has it", () => {
    const rows = record(year, 8760, local);
    const {study: read, warnings} = study(clock, rows);
    expect(read.weather).toMatchObject({startHour: 0, startDay: 0});
    expect(read.weather!.temperature).toHaveLength(8760);
    for (const h of [0, 2018, 2030, 5000, 7250, 8759])
      expect(read.weather!.temperature[h]).toBeCloseTo(madeUpTemperature(h), 2);
    expect(warnings.map(w => w.problem)).toEqual([
      `summer time was turned into standard time: clocks go forward before line ${lineOfHour(summer[0])}, back at line ${lineOfHour(summer[1])} of the file`,
    ]);
    expect(warnings[0].path).toBe("climate.hourly.clock");
  });

  test("is a fault with a suggestion where it does not", () => {
    const fault = faults(goodText, record(year, 8760, local))[0];
    expect(fault.problem).toBe(`the same time again in line ${lineOfHour(summer[1])} of the file`);
    expect(fault.suggestion).toMatch(/write clock: summer_time/);
  });

  test("at the start of a record, at its end, and beside a gap", () => {
    const july = Date.UTC(2023, 5, 30, 22); // 1 July, 0 h of summer time: 23 h of standard time the day before
    const started = study(clock, record(july, 4000, local));
    expect(started.study.weather).toMatchObject({startHour: 23, startDay: 180});
    expect(started.warnings[0].problem).toMatch(/clocks go back at line/);
    expect(warned(clock, record(year, 4000, local))[0]).toMatch(
      new RegExp(`clocks go forward before line ${lineOfHour(summer[0])} of the file`),
    );
    const gap = (Date.UTC(2023, 4, 10, 1) - year) / 3_600_000; // a Wednesday night
    const beside = study(
      clock,
      record(year, 8760, local, h => h === gap),
    );
    expect(beside.study.weather!.temperature).toHaveLength(8760);
    expect(beside.study.weather!.temperature[5000]).toBeCloseTo(madeUpTemperature(5000), 2);
    const late = (Date.UTC(2023, 10, 15, 1) - year) / 3_600_000; // a Wednesday after the change back
    const after = study(
      clock,
      record(year, 8760, local, h => h === late),
    );
    expect(after.study.weather!.temperature).toHaveLength(8760);
    expect(after.warnings.map(w => w.problem).join()).toMatch(/1 missing hour was filled in/);
  });

  test("over several years", () => {
    const twice = [Date.UTC(2024, 2, 31, 1), Date.UTC(2024, 9, 27, 1)];
    const both = (i: Date) => {
      const more = i.getTime() >= twice[0] && i.getTime() < twice[1] ? 1 : 0;
      return new Date(i.getTime() + 3_600_000 * (offset(i) + more)).toISOString().slice(0, 16).replace("T", " ");
    };
    const {study: read, warnings} = study(clock, record(year, 8760 + 8784, both));
    expect(read.weather!.temperature).toHaveLength(8760 + 8784); // 29 February is kept
    expect(warnings[0].problem.split(";")).toHaveLength(2);
    expect(warnings).toHaveLength(1); // two years are whole years
  });

  test("refused where the changes do not fit together", () => {
    const noSpring = record(
      year,
      8760,
      i => local(i.getTime() < summer[0] ? new Date(i.getTime() + 3_600_000) : i),
      h => h === 0,
    );
    expect(faults(clock, noSpring)[0].problem).toMatch(/stands twice, but none is missing/);
    const noAutumn = record(year, 8760, local, h => h === (summer[1] - year) / 3_600_000);
    expect(faults(clock, noAutumn)[0].problem).toMatch(/none stands twice in the autumn/);
    const both = (Date.UTC(2023, 3, 9, 1) - year) / 3_600_000; // another Sunday
    expect(
      faults(
        clock,
        record(year, 8760, local, h => h === both),
      )[0].problem,
    ).toMatch(/several single hours/);
  });

  test("none to be found", () => {
    expect(warned(clock, csv())).toEqual([expect.stringMatching(/no change of the clocks/)]);
  });
});

describe("time zones", () => {
  test("make instants of the rows; standard time is that of the smaller offset", () => {
    const {study: read, warnings} = study(goodText, record(year, 8760, zoned));
    expect(read.weather).toMatchObject({startHour: 0, startDay: 0});
    expect(read.weather!.temperature[5000]).toBeCloseTo(madeUpTemperature(5000), 2);
    expect(warnings).toEqual([]);
    const utc = study(
      goodText,
      record(year, 8760, i => i.toISOString().replace(".000", "")),
    ).study.weather!;
    expect(utc).toMatchObject({startHour: 23, startDay: 364});
  });

  test("in some rows only are a fault that names the others", () => {
    const rows = record(year, 48, i => (i.getTime() === year + 7_200_000 ? local(i) : zoned(i)));
    expect(faults(goodText, rows)[0].problem).toBe(
      "some times have a time zone and those in line 4 of the file have none",
    );
  });
});

test("29 February is kept in a continuous record and refused in a typical year", () => {
  const leap = csv(8784).replaceAll("2023-", "2024-").split("\n");
  const rows = ["when,t"];
  for (let h = 0; h < 8784; h++)
    rows.push(`${new Date(Date.UTC(2024, 0, 1, h)).toISOString().slice(0, 16)},${leap[1 + (h % 8760)].split(",")[1]}`);
  const {study: read, warnings} = study(goodText, rows.join("\n"));
  expect(read.weather!.temperature).toHaveLength(8784);
  expect(warnings).toEqual([]);
  const typical = spoiled(["temperature_is: air", "temperature_is: air\n    record: typical_year"]);
  expect(faults(typical, rows.join("\n"))[0].accepted).toMatch(/no 29 February/);
});

describe("a typical year out of several", () => {
  const chosen = spoiled(["temperature_is: air", "temperature_is: air\n    choose_typical_year: true"]);
  const years = (count: number) => {
    const rows = ["when,t"];
    const end = Date.UTC(2001 + count, 0, 1);
    for (let t = Date.UTC(2001, 0, 1), h = 0; t < end; t += 3_600_000, h++) {
      const warmer = (7 * new Date(t).getUTCFullYear()) % 5;
      rows.push(`${new Date(t).toISOString().slice(0, 16)},${(madeUpTemperature(h % 8760) + warmer).toFixed(2)}`);
    }
    return rows.join("\n");
  };

  test("says which year each month is from", () => {
    const {study: read, warnings} = study(chosen, years(5));
    expect(read.weather!.temperature).toHaveLength(8760);
    expect(read.weather).toMatchObject({startHour: 0, startDay: 0});
    // 7·year mod 5 is 2, the middle of 0 to 4, in 2001 alone.
    expect(read.weather!.label).toMatch(
      /^made up; typical year chosen month by month: Jan 2001, Feb 2001, .*Dec 2001$/,
    );
    expect(warnings).toMatchObject([{path: "climate.hourly.choose_typical_year", found: "5 years"}]);
  });

  test("is refused without enough of them, without dates, or from a typical year", () => {
    expect(faults(chosen, years(1))[0]).toMatchObject({path: "climate.hourly.choose_typical_year", found: "365 days"});
    const undated = chosen
      .replace(", timestamp: when", "")
      .replace("temperature_is", "start_hour: 0\n    temperature_is");
    expect(faults(undated, years(2))[0].path).toBe("climate.hourly.choose_typical_year");
    const again = chosen.replace("temperature_is", "record: typical_year\n    temperature_is");
    expect(faults(again)[0].path).toBe("climate.hourly.choose_typical_year");
  });
});

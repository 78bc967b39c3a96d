import {expect, test} from "vitest";
import {climateLines} from "../../../src/cli/summary.ts";
import {fixture} from "../report/fixture.ts";

test("a record of decades is summed up, with what it holds", () => {
  const {study} = fixture();
  const hours = 24 * 365 * 30; // more values than a call can take arguments
  const temperature = Float64Array.from({length: hours}, (_, h) => (h === 5 ? -20 : h === 7 ? 35 : 10));
  const weather = {...study.weather!, temperature, solar: temperature, wind: null, dewPoint: temperature, cloud: null};
  const lines = climateLines({...study, weather}).map(line => line.trim());
  expect(lines[1]).toBe("262,800 hours of air temperature, with sunshine and dew point");
  expect(lines[2]).toMatch(/^mean 10 °C, from −20 to 35 °C; mean daily range /);
});

import {describe, expect, test} from "vitest";
import {
  clearSkyEmissivity,
  clearSkyTemperature,
  cloudySkyEmissivity,
  windFilmCoefficient,
} from "../../../src/engine/climate/index.ts";
import {skyPower} from "../../../src/engine/climate/sky.ts";
import {effectiveSurface, surfaceModel} from "../../../src/engine/climate/surface.ts";
import {EXCHANGE, recordOf} from "./fixtures.ts";

const DAY = new Float64Array(24).fill(20);

describe("which model a record calls for", () => {
  test("follows from its columns", () => {
    expect(surfaceModel(recordOf(DAY, {kind: "surface"}), EXCHANGE).kind).toBe("prescribed");
    expect(surfaceModel(recordOf(DAY), EXCHANGE)).toEqual({kind: "film", filmCoefficient: 20});
    const sun = recordOf(DAY, {solar: DAY});
    expect(surfaceModel(sun, EXCHANGE)).toMatchObject({kind: "balance", filmCoefficient: 20});
    expect(surfaceModel({...sun, wind: DAY}, EXCHANGE)).toMatchObject({kind: "balance", filmCoefficient: null});
  });

  test("refuses properties out of range, but only those it needs", () => {
    const sun = recordOf(DAY, {solar: DAY, wind: DAY});
    expect(() => surfaceModel(sun, {...EXCHANGE, absorptivity: 1.2})).toThrow("exchange.absorptivity: got 1.2");
    expect(() => surfaceModel(sun, {...EXCHANGE, emissivity: 0})).toThrow("exchange.emissivity: got 0");
    expect(() => surfaceModel(recordOf(DAY), {...EXCHANGE, filmCoefficient: 0})).toThrow("exchange.filmCoefficient");
    expect(surfaceModel(sun, {...EXCHANGE, filmCoefficient: NaN}).kind).toBe("balance");
  });
});

describe("relations", () => {
  test("film from the wind", () => {
    // By hand: T_m = 300 K, 300^0.3 = 5.53505, 3^0.7 = 2.15767, 20^0.3 = 2.45646.
    // 698.24·(0.00144·5.53505·2.15767 + 0.00097·2.45646) = 698.24·(0.0171977 + 0.00238277) = 13.6719
    expect(windFilmCoefficient(16.85, 36.85, 3)).toBeCloseTo(13.6719, 3);
    expect(windFilmCoefficient(36.85, 16.85, 3)).toBeCloseTo(13.6719, 3);
  });

  test("clear sky", () => {
    // By hand: 0.0552·288.15^1.5 = 0.0552·288.15·16.97498 = 270.002 K
    expect(clearSkyTemperature(15)).toBeCloseTo(270.002 - 273.15, 2);
  });
});

test("effective surface gives the heat flow of the full balance when the surface is where it was expanded", () => {
  const model = surfaceModel(recordOf(DAY, {solar: DAY}), EXCHANGE);
  const out = new Float64Array(2);
  effectiveSurface(model, {temperature: 25, solar: 800, wind: 0, dewPoint: null, cloud: null, surface: 45}, out, 0);
  // Derived term by term: convection + absorbed sun + long wave in kelvin to the fourth.
  const sky = 0.0552 * 298.15 ** 1.5;
  const balance = 20 * (25 - 45) + 0.9 * 800 + 0.93 * 5.670374419e-8 * (sky ** 4 - 318.15 ** 4);
  expect(out[1] * (out[0] - 45)).toBeCloseTo(balance, 8);
  // And its slope is that of the balance: a central difference of the same expression.
  const longWave = (Ts: number) => -0.93 * 5.670374419e-8 * (Ts + 273.15) ** 4;
  expect(-out[1]).toBeCloseTo(-20 + (longWave(45.01) - longWave(44.99)) / 0.02, 5);
});

describe("the sky", () => {
  test("clear, by its dew point", () => {
    // By hand: 0.711 + 0.056 + 0.0073 at 10 °C; 0.711 − 0.056 + 0.0073 at −10 °C.
    expect(clearSkyEmissivity(10)).toBeCloseTo(0.7743, 10);
    expect(clearSkyEmissivity(-10)).toBeCloseTo(0.6623, 10);
    // Clark & Allen 1978 with ln in kelvin, worked in the public manual of the EPW format: 0.815 at 10 °C, 5 % more.
    expect(Math.abs(clearSkyEmissivity(10) / 0.815 - 1)).toBeLessThan(0.06);
  });

  test("under cloud", () => {
    // By hand: 0.7743 + 0.2257·0.784 = 0.951249. The factor of Walton 1983 in the same manual, 1.154 when overcast, on its
    // 0.815 gives 0.9405: 1.1 % less.
    expect(cloudySkyEmissivity(0.7743, 1)).toBeCloseTo(0.951249, 6);
    expect(Math.abs(cloudySkyEmissivity(0.7743, 1) / 0.9405 - 1)).toBeLessThan(0.02);
    expect(cloudySkyEmissivity(0.7743, 0)).toBe(0.7743);
  });

  test("power is emissivity times that of the air, and without dew point that of the black sky", () => {
    const air = 283.15 ** 4;
    expect(skyPower({temperature: 10, dewPoint: 10, cloud: null}) / air).toBeCloseTo(0.7743, 12);
    const black = (clearSkyTemperature(10) + 273.15) ** 4;
    expect(skyPower({temperature: 10, dewPoint: null, cloud: null}) / black).toBeCloseTo(1, 12);
    expect(skyPower({temperature: 10, dewPoint: null, cloud: 0}) / black).toBeCloseTo(1, 12);
    expect(skyPower({temperature: 10, dewPoint: null, cloud: 0.5})).toBeGreaterThan(black);
    expect(skyPower({temperature: 10, dewPoint: null, cloud: 1})).toBeLessThan(air);
  });
});

import {describe, expect, test} from "vitest";
import {
  geometriesOf,
  type LoadClass,
  loadRatio,
  streamsOf,
  trafficByHour,
  type Wheel,
} from "../../../src/engine/traffic/index.ts";

const axle = (load: number, more: Partial<LoadClass> = {}): LoadClass => ({
  name: `${load}`,
  group: null,
  wheels: [-1, 1].map((y): Wheel => ({x: 0, y, load: load / 2, length: 0.2, width: 0.2})),
  passesPerYear: load,
  growth: 0,
  wander: {kind: "normal", deviation: 0.25},
  ...more,
});

describe("streams", () => {
  test("loads on the same wheels are one, told by their part of the heaviest", () => {
    const streams = streamsOf([axle(80), axle(120), axle(60)]);
    expect(streams).toHaveLength(1);
    expect(streams[0].wheels[0].load).toBe(60);
    expect(streams[0].loads).toEqual([
      {index: 0, factor: 80 / 120, passesPerYear: 80},
      {index: 1, factor: 1, passesPerYear: 120},
      {index: 2, factor: 0.5, passesPerYear: 60},
    ]);
  });

  test("another patch, another proportion between the wheels: another geometry", () => {
    const wider = axle(80, {wheels: axle(80).wheels.map(w => ({...w, width: 0.3}))});
    const lopsided = axle(80, {wheels: axle(80).wheels.map((w, k) => ({...w, load: 30 + 20 * k}))});
    const streams = streamsOf([axle(80), wider, lopsided, axle(40)]);
    expect(streams.map(s => s.geometry)).toEqual([0, 1, 2]);
    expect(geometriesOf(streams)).toHaveLength(3);
    expect(loadRatio(wider.wheels, axle(80).wheels)).toBeNull();
    expect(loadRatio(axle(100).wheels, axle(80).wheels)).toBe(1.25);
  });

  test("other growth or wander: the same geometry in another stream", () => {
    const streams = streamsOf([axle(80), axle(120, {growth: 0.02}), axle(60, {wander: {kind: "uniform", width: 1}})]);
    expect(streams.map(s => s.geometry)).toEqual([0, 0, 0]);
    expect(streams.map(s => s.loads[0].factor)).toEqual([80 / 120, 1, 0.5]);
  });
});

describe("calendar", () => {
  const evenings = Array.from({length: 24}, (_, h) => (h >= 18 ? 1 / 6 : 0));
  const july = Array.from({length: 12}, (_, m) => (m === 6 ? 1 : 0));

  test("hours count from the record's first, months from its first day", () => {
    const day = trafficByHour({hours: evenings, months: null}, {count: 24, startHour: 17.5, startDay: null})!;
    expect([...day.slice(0, 8)]).toEqual([0, 4, 4, 4, 4, 4, 4, 0]); // 17:30, 18:30 … 23:30, 0:30
    const weights = trafficByHour({hours: null, months: july}, {count: 8760, startHour: 0, startDay: 0})!;
    expect(weights.findIndex(w => w > 0)).toBe(181 * 24);
    expect(weights.reduce((sum, w) => sum + w, 0)).toBeCloseTo(8760, 6);
    const summer = trafficByHour({hours: null, months: july}, {count: 48, startHour: 0, startDay: 180})!;
    expect([summer[23], summer[24]]).toEqual([0, 365 / 31]);
  });

  test("none is needed when all hours are alike, and months need dates", () => {
    expect(trafficByHour({hours: null, months: null}, {count: 24, startHour: 0, startDay: null})).toBeNull();
    const dateless = {count: 24, startHour: 0, startDay: null};
    expect(() => trafficByHour({hours: null, months: july}, dateless)).toThrow("a date");
    expect(() => trafficByHour({hours: [1], months: null}, dateless)).toThrow("calendar.hours.length");
    expect(() => trafficByHour({hours: evenings.map(s => s / 2), months: null}, dateless)).toThrow("sum");
  });
});

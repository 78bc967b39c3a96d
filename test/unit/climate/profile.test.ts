import fc from "fast-check";
import {describe, expect, test} from "vitest";
import {pavementTemperatures} from "../../../src/engine/climate/index.ts";
import {Cancelled, InputError} from "../../../src/engine/errors.ts";
import {ASPHALT, CONCRETE, EXCHANGE, greensboro, OVERLAID, recordOf, SOIL, sectionOf} from "./fixtures.ts";

describe("constant weather", () => {
  test("gives a constant profile, exactly", () => {
    fc.assert(
      fc.property(
        fc.double({min: -40, max: 50, noNaN: true}),
        fc.constantFrom("air" as const, "surface" as const),
        (value, kind) => {
          const run = pavementTemperatures(OVERLAID, recordOf(new Float64Array(24).fill(value), {kind}), EXCHANGE);
          for (const series of [run.surface, run.overlayMean, run.slabMean, run.halfWayOverlay]) {
            for (const T of series) expect(T).toBeCloseTo(value, 9);
          }
          for (const slope of run.slabGradient) expect(slope).toBeCloseTo(0, 8);
        },
      ),
      {numRuns: 5},
    );
  });

  test("under sun settles where the balance is zero", () => {
    const solar = new Float64Array(24).fill(300);
    const run = pavementTemperatures(OVERLAID, recordOf(new Float64Array(24).fill(10), {solar}), EXCHANGE);
    const Ts = run.surface[0] + 273.15;
    const sky = 0.0552 * 283.15 ** 1.5;
    const net = 20 * (283.15 - Ts) + 0.9 * 300 + 0.93 * 5.670374419e-8 * (sky ** 4 - Ts ** 4);
    // What is left is the spin-up residual of 0.01 K a year: 20 MJ/(m²·K) of ground takes up 0.006 W/m² at most.
    expect(Math.abs(net)).toBeLessThan(0.01);
    expect(run.spinUp.residual).toBeLessThanOrEqual(0.01);
  });
});

describe("a real year", () => {
  const run = pavementTemperatures(OVERLAID, greensboro(), EXCHANGE);
  const range = (x: Float64Array) => Math.max(...x) - Math.min(...x);

  test("is spun up, and hotter and wider at the surface than below", () => {
    expect(run.spinUp.passes).toBeGreaterThanOrEqual(1);
    expect(run.spinUp.residual).toBeLessThanOrEqual(0.01);
    expect(run.warnings).toEqual([]);
    expect(run.surface).toHaveLength(8760);
    expect(range(run.surface)).toBeGreaterThan(range(run.overlayMean));
    expect(range(run.overlayMean)).toBeGreaterThan(range(run.slabMean));
    // Plausible: black pavement reaches 60 to 70 °C in the summer of the south-eastern United States (practice).
    expect(Math.max(...run.surface)).toBeGreaterThan(55);
    expect(Math.max(...run.surface)).toBeLessThan(72);
  });

  test("means of the layers make up the means over several of them", () => {
    const [overlay, interlayer, slab] = run.layerMean;
    expect(run.layerMean).toHaveLength(4);
    for (let i = 0; i < 8760; i += 97) {
      expect((0.08 * overlay[i] + 0.025 * interlayer[i]) / 0.105).toBeCloseTo(run.overlayMean[i], 9);
      expect(slab[i]).toBeCloseTo(run.slabMean[i], 9);
    }
  });

  test("at depth: the places shown, and an envelope that their series touch", () => {
    const {atDepth, envelope, surface, halfWayOverlay} = run;
    expect(atDepth.map(d => [d.layer, d.place])).toEqual([
      [0, "surface"],
      [0, "middle"],
      [0, "bottom"],
      [2, "middle"],
      [2, "bottom"],
    ]);
    [0, 0.04, 0.08, 0.205, 0.305].forEach((depth, i) => {
      expect(atDepth[i].depth).toBeCloseTo(depth, 12);
    });
    expect(atDepth[0].temperature).toBe(surface);
    for (let i = 0; i < 8760; i += 97) expect(atDepth[1].temperature[i]).toBeCloseTo(halfWayOverlay[i], 9);
    expect(envelope.depth).toHaveLength(41);
    expect(envelope.depth[40]).toBe(1);
    expect(envelope.lowest[0]).toBe(Math.min(...surface));
    expect(envelope.highest[0]).toBe(Math.max(...surface));
    expect(envelope.mean[0]).toBeCloseTo(surface.reduce((sum, T) => sum + T, 0) / 8760, 9);
    // The bottom of the slab is between two points of the envelope, which narrows downward.
    const next = envelope.depth.findIndex(z => z > 0.305);
    const bottom = atDepth[4].temperature;
    expect(Math.max(...bottom)).toBeLessThan(envelope.highest[next - 1]);
    expect(Math.max(...bottom)).toBeGreaterThan(envelope.highest[next]);
    expect(Math.min(...bottom)).toBeGreaterThan(envelope.lowest[next - 1]);
    expect(Math.min(...bottom)).toBeLessThan(envelope.lowest[next]);
    for (let i = 1; i < 41; i++)
      expect(envelope.highest[i] - envelope.lowest[i]).toBeLessThan(envelope.highest[i - 1] - envelope.lowest[i - 1]);
  });

  test("twice in one record is the same year twice", () => {
    const {temperature, solar, wind, ...rest} = greensboro();
    const twice = (x: Float64Array) => Float64Array.from([...x, ...x]);
    const doubled = {...rest, temperature: twice(temperature), solar: twice(solar!), wind: twice(wind!)};
    const two = pavementTemperatures(OVERLAID, doubled, EXCHANGE);
    for (let i = 0; i < 8760; i += 97) expect(two.slabMean[i]).toBeCloseTo(two.slabMean[i + 8760], 1.7); // 0.01 K
    for (let i = 0; i < 8760; i += 97) expect(two.slabMean[i]).toBeCloseTo(run.slabMean[i], 1.7);
  });
});

test("a week is repeated until it is periodic", () => {
  const {temperature, solar, wind, ...rest} = greensboro();
  const week = (x: Float64Array) => x.slice(24 * 180, 24 * 187);
  const record = {...rest, temperature: week(temperature), solar: week(solar!), wind: week(wind!)};
  const run = pavementTemperatures(OVERLAID, record, EXCHANGE);
  expect(run.spinUp.residual).toBeLessThanOrEqual(0.01);
  expect(run.slabMean).toHaveLength(168);
});

test("half way in a two-course overlay is at the interface of the courses", () => {
  const wave = Float64Array.from({length: 24}, (_, i) => Math.sin((Math.PI * i) / 12));
  const record = recordOf(wave, {kind: "surface"});
  const foundation = ["foundation", 1, SOIL] as const;
  const one = sectionOf([["overlay", 0.1, ASPHALT], ["jointed", 0.2, CONCRETE], foundation]);
  const course = ["overlay", 0.05, ASPHALT] as const;
  const two = sectionOf([course, course, ["jointed", 0.2, CONCRETE], foundation]);
  const a = pavementTemperatures(one, record, EXCHANGE).halfWayOverlay;
  const b = pavementTemperatures(two, record, EXCHANGE).halfWayOverlay;
  for (let i = 0; i < 24; i++) expect(a[i]).toBeCloseTo(b[i], 2.5); // the grids differ: 0.002 of a unit wave
});

describe("refuses", () => {
  const day = new Float64Array(24);
  const compute = (...args: Parameters<typeof recordOf>) => pavementTemperatures(OVERLAID, recordOf(...args), EXCHANGE);

  test("records that are not whole days, with the place and the value", () => {
    expect(() => compute(new Float64Array(25))).toThrow("record.temperature.length: got 25");
    expect(() => compute(new Float64Array(0))).toThrow(InputError);
    expect(() => compute(day, {startHour: 24})).toThrow("record.startHour: got 24");
    expect(() => compute(day.with(3, NaN))).toThrow("record.temperature[3]: got NaN");
    expect(() => compute(day, {solar: day.with(5, -1)})).toThrow("record.solar[5]: got -1");
    expect(() => compute(day, {wind: new Float64Array(3)})).toThrow("record.wind.length: got 3, need 24");
  });

  test("sections without overlay or jointed layer", () => {
    const record = recordOf(day);
    const bare = sectionOf([["jointed", 0.2, CONCRETE]]);
    const uncut = sectionOf([["overlay", 0.2, ASPHALT]]);
    expect(() => pavementTemperatures(bare, record, EXCHANGE)).toThrow("need an overlay");
    expect(() => pavementTemperatures(uncut, record, EXCHANGE)).toThrow("need a jointed layer");
  });

  test("to go on once progress says stop", () => {
    let calls = 0;
    const stop = () => ++calls < 3;
    expect(() => pavementTemperatures(OVERLAID, recordOf(day), EXCHANGE, stop)).toThrow(Cancelled);
    expect(calls).toBe(3);
  });
});

test("says what it assumed", () => {
  const day = new Float64Array(24).fill(5);
  const ungrounded = sectionOf([
    ["overlay", 0.1, ASPHALT],
    ["jointed", 0.2, CONCRETE],
  ]);
  const warnings = pavementTemperatures(ungrounded, recordOf(day, {wind: day}), EXCHANGE).warnings.join(" ");
  expect(warnings).toMatch("No foundation layer");
  expect(warnings).toMatch("No sunshine is recorded");
  expect(warnings).toMatch("Wind is recorded but not used");
});

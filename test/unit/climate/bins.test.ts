import fc from "fast-check";
import {expect, test} from "vitest";
import {deriveBins, meansByBin} from "../../../src/engine/climate/index.ts";

test("shares sum to exactly one, temperatures ascend, and the mean is kept", () => {
  const series = fc.float64Array({min: -40, max: 70, noNaN: true, minLength: 1, maxLength: 300});
  fc.assert(
    fc.property(series, fc.integer({min: 1, max: 30}), (values, count) => {
      const bins = deriveBins(values, count);
      expect(bins.length).toBeLessThanOrEqual(count);
      expect(bins.reduce((sum, bin) => sum + bin.share, 0)).toBe(1);
      for (const bin of bins) expect(bin.share).toBeGreaterThan(0);
      for (let b = 1; b < bins.length; b++) expect(bins[b].temperature).toBeGreaterThan(bins[b - 1].temperature);
      const mean = values.reduce((sum, x) => sum + x, 0) / values.length;
      expect(bins.reduce((sum, bin) => sum + bin.share * bin.temperature, 0)).toBeCloseTo(mean, 9);
    }),
  );
});

test("hours beyond the 1st and 99th percentile join the outermost bins", () => {
  // 0 … 199 and one value far off. By hand: n = 201, low = sorted[2] = 2, high = sorted[198] = 198, width 98.
  const values = Float64Array.from([...Array(200).keys(), 10_000]);
  const bins = deriveBins(values, 2);
  expect(bins.map(bin => bin.share)).toEqual([100 / 201, 1 - 100 / 201]);
  expect(bins[0].temperature).toBeCloseTo(49.5, 12);
});

test("empty bins are left out; a constant is one bin", () => {
  const twoSeasons = Float64Array.from({length: 100}, (_, i) => (i < 50 ? 0 : 30));
  expect(deriveBins(twoSeasons, 10)).toMatchObject([
    {temperature: 0, share: 0.5},
    {temperature: 30, share: 0.5},
  ]);
  expect(deriveBins(new Float64Array(9).fill(7), 5)).toMatchObject([{temperature: 7, share: 1}]);
});

test("refuses", () => {
  expect(() => deriveBins(new Float64Array(0), 3)).toThrow("halfWayOverlay.length");
  expect(() => deriveBins(new Float64Array(3), 0)).toThrow("count: got 0");
  expect(() => deriveBins(new Float64Array(3), 1.5)).toThrow("count: got 1.5");
  expect(() => deriveBins(new Float64Array([1, NaN]), 2)).toThrow("halfWayOverlay[1]: got NaN");
});

test("traffic weighs shares and means; a bin that nobody drives in is left out", () => {
  // Hours of 0, 10, 20 and 30 °C in two bins of 15 K; by hand: (1·0 + 3·10)/4 and (1·20 + 0·30)/1.
  const bins = deriveBins(Float64Array.of(30, 0, 20, 10), 2, Float64Array.of(0, 1, 1, 3));
  expect(bins).toMatchObject([
    {temperature: 7.5, share: 0.8},
    {temperature: 20, share: 1 - 0.8},
  ]);
  expect(deriveBins(Float64Array.of(0, 10, 20, 30), 2, Float64Array.of(1, 1, 0, 0))).toMatchObject([
    {temperature: 5, share: 1},
  ]);
  expect(() => deriveBins(Float64Array.of(1, 2), 2, Float64Array.of(0, 0))).toThrow("traffic");
});

test("means of another temperature follow the hours of each bin and their traffic", () => {
  const halfWayOverlay = Float64Array.of(30, 0, 20, 10);
  const values = Float64Array.of(1, 2, 3, 4);
  const bins = deriveBins(halfWayOverlay, 2);
  expect(meansByBin(bins, {halfWayOverlay, values, traffic: null})).toEqual([3, 2]); // hours of 0, 10 and of 20, 30 °C
  const traffic = Float64Array.of(1, 1, 3, 3);
  const weighted = deriveBins(halfWayOverlay, 2, traffic);
  expect(meansByBin(weighted, {halfWayOverlay, values, traffic})).toEqual([3.5, 2.5]);
  expect(meansByBin(bins, {halfWayOverlay, values: halfWayOverlay, traffic: null})).toEqual(
    bins.map(bin => bin.temperature),
  );
});

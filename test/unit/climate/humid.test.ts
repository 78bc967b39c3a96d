import {expect, test} from "vitest";
import {pavementTemperatures} from "../../../src/engine/climate/index.ts";
import {EXCHANGE, greensboro, OVERLAID} from "./fixtures.ts";

const mean = (x: Float64Array) => x.reduce((sum, v) => sum + v, 0) / x.length;
const figures = (x: Float64Array) => [mean(x), Math.min(...x), Math.max(...x)];

/** The table of docs/theory/climate.md, "The sky". Our own numbers: they prove nothing but that the page is up to date. */
const TABLE = [
  {dewPoint: false, cloud: null, surface: [18.54, -15.64, 66.45], slab: [18.54, -6.32, 39.86]},
  {dewPoint: true, cloud: null, surface: [18.61, -15.32, 66.88], slab: [18.62, -6.25, 40.54]},
  {dewPoint: false, cloud: 0.5, surface: [20.42, -11.94, 68.34], slab: [20.42, -3.9, 41.61]},
  {dewPoint: true, cloud: 0.5, surface: [20.47, -11.75, 68.59], slab: [20.47, -3.86, 42.02]},
] as const;

test.each(TABLE)("what dew point ($dewPoint) and cloud ($cloud) change on the example year", row => {
  const cloud = row.cloud === null ? null : new Float64Array(8760).fill(row.cloud);
  const run = pavementTemperatures(OVERLAID, {...greensboro({dewPoint: row.dewPoint}), cloud}, EXCHANGE);
  figures(run.surface).forEach((value, i) => {
    expect(value).toBeCloseTo(row.surface[i], 1);
  });
  figures(run.slabMean).forEach((value, i) => {
    expect(value).toBeCloseTo(row.slab[i], 1);
  });
  // 10 of the 8760 hours have a dew point below −20 °C.
  expect(run.warnings.join(" ")).toMatch(row.dewPoint ? /In 10 of 8760 hours the dew point/ : /^$/);
});

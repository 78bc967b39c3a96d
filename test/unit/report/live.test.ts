/** What a live page asks of charts: a time to be read, a window of days, a cursor. */
import {parseHTML} from "linkedom";
import {describe, expect, test} from "vitest";
import type {CrackHistory} from "../../../src/engine/life/types.ts";
import {type Canvas, chartScales, frontsChart, temperatureChart, timeAxis} from "../../../src/report/charts/index.ts";
import {frontsAt} from "../../../src/report/fronts.ts";
import {behaviourTable, binsText, ordinaryTable} from "../../../src/report/tables.ts";
import {fixture} from "./fixture.ts";

const {document} = parseHTML("<!doctype html><html><body></body></html>");
const canvas: Canvas = {document, width: 680};
const result = fixture();
const treated = result.treatments[1]!;

describe("fronts at a time", () => {
  /** Straight lines between few points, so that every value between is known. */
  const history: CrackHistory = {
    ...treated.histories[0]!,
    years: Float64Array.of(0, 1, 5),
    interlayer: Float64Array.of(0, 0.01, 0.01),
    underside: Float64Array.of(0, 0, 0.04),
    surface: Float64Array.of(0, 0.002, 0.022),
    failed: true,
  };

  test("linear between steps, exact at them", () => {
    expect(frontsAt(history, 0)).toEqual({interlayer: 0, underside: 0, surface: 0});
    expect(frontsAt(history, 1)).toEqual({interlayer: 0.01, underside: 0, surface: 0.002});
    const quarter = frontsAt(history, 2)!;
    expect(quarter.underside).toBeCloseTo(0.01, 15);
    expect(quarter.surface).toBeCloseTo(0.007, 15);
    expect(frontsAt(history, 0.5)!.interlayer).toBeCloseTo(0.005, 15);
  });

  test("after failure they stay; what was not computed is not told", () => {
    expect(frontsAt(history, 50)).toEqual({interlayer: 0.01, underside: 0.04, surface: 0.022});
    const open = {...history, failed: false};
    expect(frontsAt(open, 5)!.underside).toBe(0.04);
    for (const time of [-0.1, 5.01, Number.NaN, Infinity]) expect(frontsAt(open, time)).toBeNull();
    expect(frontsAt(history, Number.NaN)).toBeNull();
  });

  test("a start only", () => {
    const start = {...history, years: Float64Array.of(0), failed: false};
    expect(frontsAt(start, 0)).toEqual({interlayer: 0, underside: 0, surface: 0});
    expect(frontsAt(start, 1)).toBeNull();
  });
});

describe("a cursor", () => {
  const axis = timeAxis(result.treatments, 20);
  const plain = frontsChart(treated, axis, canvas).toString();

  test("stands at its time", () => {
    const marked = frontsChart(treated, {...axis, cursor: 7.5}, canvas).toString();
    const x = chartScales(marked)!.x!;
    const page = parseHTML(`<html><body>${marked}</body></html>`).document;
    const line = page.querySelector(".cursor line")!;
    expect(x.type === "band" ? null : x.toValue(Number(line.getAttribute("x1")))).toBeCloseTo(7.5, 9);
  });

  test("beside the axis there is none, and the picture is as without", () => {
    for (const cursor of [-1, 21, Number.NaN, undefined])
      expect(frontsChart(treated, {...axis, cursor}, canvas).toString()).toBe(plain);
  });
});

describe("a window of days", () => {
  const view = {weather: result.study.weather!, temperatures: treated.temperatures!};
  const drawn = (window?: readonly [number, number]) => {
    const text = temperatureChart({...view, window}, canvas).toString();
    const page = parseHTML(`<html><body>${text}</body></html>`).document;
    const words = [...page.querySelectorAll("text")].map(t => t.textContent ?? "");
    return {
      scales: chartScales(text)!,
      words,
      bands: page.querySelectorAll("[data-mark=area]").length,
      start: lineStart(page),
      text,
    };
  };

  /** Where the line of the jointed layer begins [px]. */
  function lineStart(page: ReturnType<typeof parseHTML>["document"]): number {
    const path = [...page.querySelectorAll("[data-mark=line] path")].at(-1)?.getAttribute("d") ?? "";
    return Number(/^M(-?[\d.]+),/.exec(path)?.[1]);
  }

  test("the whole record is as without", () => {
    expect(drawn([0, 365]).text).toBe(drawn().text);
    expect(drawn([-10, 1000]).text).toBe(drawn().text);
  });

  test("some months: daily ranges of these days only, with an axis that fits them", () => {
    const {scales, words, bands, start} = drawn([180.4, 240]);
    expect(scales.x!.domain).toEqual([180, 240]); // whole days
    // The first day stands at its middle; paths are written to a thousandth of a pixel.
    expect(scales.x!.type === "band" ? null : scales.x!.toValue(start)).toBeCloseTo(180.5, 3);
    expect(bands).toBe(2);
    expect(words).toContain("surface, daily range");
    const days = view.temperatures.surface.subarray(180 * 24, 240 * 24);
    const [low, high] = scales.y!.domain as readonly [number, number];
    const least = Math.min(...view.weather.temperature.subarray(180 * 24, 240 * 24));
    expect(high - Math.max(...days)).toBeLessThan(5);
    expect(least - low).toBeLessThan(5);
    expect(high).toBeGreaterThanOrEqual(Math.max(...days));
  });

  test("a few days: hour by hour, no ranges", () => {
    const {scales, words, bands, start} = drawn([100.5, 103]);
    expect(scales.x!.type === "band" ? null : scales.x!.toValue(start)).toBeCloseTo(100.5 + 0.5 / 24, 3);
    expect(scales.x!.domain).toEqual([100.5, 103]);
    expect(bands).toBe(0);
    expect(words).toEqual(expect.arrayContaining(["surface", "air", "jointed layer, mean"]));
  });

  test("no day of the record", () => {
    expect(() => drawn([400, 500])).toThrow("days of the record");
    expect(() => drawn([20, 10])).toThrow("days of the record");
  });
});

test("tables in US customary units", () => {
  const plain = (text: {toString(): string} | null): string => String(text).replaceAll("\u00a0", " ");
  const behaviour = plain(behaviourTable(result, "us"));
  expect(behaviour).toContain("<small>ksi/in</small>");
  expect(behaviour).toContain(">0.49<"); // 0.134 MPa/mm: 0.134·25.4/6.894757 = 0.4937 ksi/in
  expect(behaviour).toContain(">0.061<"); // 1.55 mm
  expect(behaviour).not.toMatch(/<small>[^<]*(?:mm|MPa)/);
  expect(plain(ordinaryTable(result, "us"))).toContain("3.15 in"); // 80 mm
  expect(binsText(treated, "us").replaceAll("\u00a0", " ")).toContain("37.8 °F: 25 %"); // 3.2 °C
});

/** Scales that a chart carries: read back from the picture, held against where the plotting library drew its marks. */
import * as Plot from "@observablehq/plot";
import {parseHTML} from "linkedom";
import {describe, expect, test} from "vitest";
import {chart} from "../../../src/report/charts/frame.ts";
import {
  type BandReading,
  binsChart,
  type Canvas,
  chartScales,
  frontsChart,
  livesChart,
  type NumberReading,
  type ScaleReading,
  sectionChart,
  surveyChart,
  temperatureChart,
  timeAxis,
  tipStrainChart,
} from "../../../src/report/charts/index.ts";
import type {Html} from "../../../src/report/html.ts";
import {fixture, section} from "./fixture.ts";

const {document} = parseHTML("<!doctype html><html><body></body></html>");
const canvas: Canvas = {document, width: 330};
const MARGIN = {top: 10, bottom: 30, left: 40, right: 20}; // [px]
const result = fixture();
const treated = result.treatments[1]!;

const svgOf = (picture: Html) => parseHTML(`<html><body>${picture}</body></html>`).document.querySelector("svg")!;

function numbers(scale: ScaleReading | null | undefined): NumberReading {
  if (!scale || scale.type === "band") throw new Error("no numbers along this axis");
  return scale;
}
const bands = (scale: ScaleReading | null | undefined): BandReading => {
  if (scale?.type !== "band") throw new Error("no bands along this axis");
  return scale;
};

/** A chart of dots at these places, and where the library drew them [px]. */
function dotted(places: readonly {x: number; y: number}[], x: Plot.ScaleOptions, y: Plot.ScaleOptions) {
  const picture = chart(canvas, "dots", {
    height: 200,
    margin: MARGIN,
    x,
    y,
    marks: [Plot.dot(places, {x: "x", y: "y"})],
  });
  const at = [...svgOf(picture).querySelectorAll("circle")].map(c => ({
    x: Number(c.getAttribute("cx")),
    y: Number(c.getAttribute("cy")),
  }));
  return {picture, at};
}

describe("what is read is where the library drew it", () => {
  const places = [
    {x: 1, y: 2},
    {x: 30, y: 55},
    {x: 90, y: 99},
  ];
  const cases: [name: string, x: Plot.ScaleOptions, y: Plot.ScaleOptions][] = [
    ["linear", {domain: [0, 100]}, {domain: [0, 100]}],
    ["reversed", {domain: [100, 0]}, {domain: [100, 0]}],
    ["reversed by option", {domain: [0, 100], reverse: true}, {domain: [0, 100]}],
    ["logarithmic", {type: "log", domain: [0.5, 200]}, {type: "log", domain: [1, 100]}],
  ];
  for (const [name, x, y] of cases)
    test(name, () => {
      const {picture, at} = dotted(places, x, y);
      const scales = chartScales(picture.toString())!;
      places.forEach((place, k) => {
        // The library writes positions as doubles; domains go through decimal text and come back the same.
        expect(numbers(scales.x).toPixel(place.x)).toBeCloseTo(at[k]!.x, 9);
        expect(numbers(scales.y).toPixel(place.y)).toBeCloseTo(at[k]!.y, 9);
        expect(numbers(scales.x).toValue(at[k]!.x)).toBeCloseTo(place.x, 9);
        expect(numbers(scales.y).toValue(at[k]!.y)).toBeCloseTo(place.y, 9);
      });
    });

  test("the middle of a straight axis is the mean, of a logarithmic one the geometric mean", () => {
    const {picture} = dotted(places, {domain: [10, 90]}, {type: "log", domain: [1, 10_000]});
    const {x, y} = chartScales(picture.toString())!;
    expect(numbers(x).toValue((40 + 310) / 2)).toBeCloseTo(50, 12);
    expect(numbers(y).toValue((10 + 170) / 2)).toBeCloseTo(100, 9);
    expect([x!.type, y!.type]).toEqual(["linear", "log"]);
  });

  test("dates are milliseconds", () => {
    const day = (n: number) => new Date(Date.UTC(2030, 0, n));
    const picture = chart(canvas, "dates", {
      margin: MARGIN,
      marks: [Plot.dot([day(1), day(11)], {x: d => d, y: () => 1})],
    });
    const {x} = chartScales(picture.toString())!;
    expect(x!.type).toBe("utc");
    expect(numbers(x).toValue(175)).toBeCloseTo(Date.UTC(2030, 0, 6), 3);
  });
});

describe("bands", () => {
  const rows = ["one", "two", "three & <more>"];
  const picture = chart(canvas, "bands", {
    height: 200,
    margin: MARGIN,
    y: {domain: rows, label: "row \"a\" & 'b' <c>"},
    marks: [Plot.barX(rows, {x: (_, i) => i + 1, y: d => d})],
  });
  const y = bands(chartScales(picture.toString())!.y);
  const drawn = [...svgOf(picture).querySelectorAll("rect")].map(r => ({
    top: Number(r.getAttribute("y")),
    height: Number(r.getAttribute("height")),
  }));

  test("by name, at the middle of the bars", () => {
    rows.forEach((name, k) => {
      expect(y.toPixel(name)).toBeCloseTo(drawn[k]!.top + drawn[k]!.height / 2, 9);
      expect(y.toValue(drawn[k]!.top + 1)).toBe(name);
      expect(y.toValue(drawn[k]!.top + drawn[k]!.height - 1)).toBe(name);
    });
    expect([y.toPixel("none"), y.toValue(-50), y.toValue(500)]).toEqual([null, null, null]);
  });

  test("names and labels come through whatever they hold, from text and from an element", () => {
    expect(y.domain).toEqual(rows);
    expect(y.label).toBe("row \"a\" & 'b' <c>");
    expect(chartScales(svgOf(picture))!.y!.label).toBe(y.label);
    expect(picture.toString()).not.toContain("<more>");
  });
});

test("a chart in facets has no scales to be read, nor has one without axes", () => {
  const places = [
    {x: 1, y: 2, part: "a"},
    {x: 2, y: 3, part: "b"},
  ];
  const faceted = chart(canvas, "facets", {marks: [Plot.dot(places, {x: "x", y: "y", fx: "part"})]});
  expect(chartScales(faceted.toString())).toBeNull();
  expect(chartScales(chart(canvas, "nothing", {marks: [Plot.frame()]}).toString())).toBeNull();
  expect(chartScales('<svg class="chart"></svg>')).toBeNull();
});

test("only attributes of the root are read", () => {
  const own = JSON.stringify({type: "linear", domain: [0, 1], range: [0, 1], label: ""}).replaceAll('"', "&quot;");
  expect(chartScales(`<svg><g data-x="${own}"></g></svg>`)).toBeNull();
  expect(chartScales(`<svg aria-label="a > b" data-x="${own}"></svg>`)!.x!.type).toBe("linear");
});

describe("charts of results", () => {
  const scalesOf = (picture: Html) => chartScales(picture.toString())!;

  test("fronts: years across, depth downward", () => {
    const {x, y} = scalesOf(frontsChart(treated, timeAxis(result.treatments, 20), canvas));
    expect([x!.label, y!.label]).toEqual(["Time, years", "Depth below surface, mm"]);
    expect(numbers(y).domain[0]).toBeCloseTo(80, 9); // 40 + 30 + 10 mm
    expect(numbers(y).toPixel(0)).toBeLessThan(numbers(y).toPixel(80));
    expect(numbers(x).domain).toEqual([0, 20]);
  });

  test("lives: years across on a logarithmic axis; nothing to be read downward", () => {
    const {x, y} = scalesOf(livesChart(result, canvas));
    expect([x!.type, x!.label, y]).toEqual(["log", "Life, years", null]);
  });

  test("section: to scale as far as the wedge, the same both ways", () => {
    const {x, y} = scalesOf(sectionChart(section(true), {...canvas, width: 680}));
    const perMm = (s: NumberReading) => Math.abs((s.range[1] - s.range[0]) / (s.domain[1] - s.domain[0]));
    expect(perMm(numbers(x))).toBeCloseTo(perMm(numbers(y)), 9);
    expect(numbers(x).domain[0]).toBeCloseTo(-numbers(x).domain[1], 9);
    expect(numbers(y).toValue(numbers(y).range[0])).toBe(0);
  });

  test("bins: names of the temperatures", () => {
    const {x, y} = scalesOf(binsChart(treated.bins, canvas));
    expect(x!.label).toBe("Share of the year’s passes, %");
    expect(
      bands(y)
        .toValue((y!.range[0] + y!.range[1]) / 8)
        ?.replace("\u00a0", " "),
    ).toBe("3.2 °C");
  });

  test("strain, temperature", () => {
    const strain = scalesOf(tipStrainChart(treated.tipStrain.slice(0, 3), [10, 1000], canvas));
    expect([strain.x!.label, strain.y!.label, strain.y!.type]).toEqual(["Crack length, mm", "Tip strain, µε", "log"]);
    const record = scalesOf(
      temperatureChart({weather: result.study.weather!, temperatures: treated.temperatures!}, canvas),
    );
    expect([record.x!.label, record.y!.label]).toEqual(["Day of the record", "Temperature, °C"]);
    expect(numbers(record.x).domain).toEqual([0, 365]);
  });

  test("a map, drawn in pixels, tells its own axes", () => {
    const map = {
      title: "map",
      x: {label: "traffic, factor (log scale)", domain: [0.5, 8], log: true},
      y: {label: "thickness, mm", domain: [40, 80], log: false},
      values: [
        [1, 2],
        [2, 3],
      ],
      blank: [
        [false, false],
        [false, false],
      ],
      regions: null,
      badges: [],
      nodes: [],
      present: null,
      scale: {levels: [1.5], colours: ["#ffffff", "#000000"], text: String, heavy: null},
      height: 200,
    } as const;
    const {x, y} = scalesOf(surveyChart(map, canvas));
    expect(x!.label).toBe("traffic, factor");
    expect(numbers(x).toValue((x!.range[0] + x!.range[1]) / 2)).toBeCloseTo(2, 9); // √(0.5·8)
    expect(numbers(y).toValue((y!.range[0] + y!.range[1]) / 2)).toBeCloseTo(60, 9);
    expect(surveyChart(map, canvas).toString()).toContain('data-colours="light"');
  });
});

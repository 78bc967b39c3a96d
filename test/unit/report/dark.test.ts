/** Colours of charts in a dark page. */
import {readdirSync, readFileSync} from "node:fs";
import {parseHTML} from "linkedom";
import {expect, test} from "vitest";
import {
  type Canvas,
  cycleBins,
  cycleDamageChart,
  DARK_PAPER,
  darkChartCss,
  darkColours,
  frontsChart,
  livesChart,
  sectionChart,
  temperatureChart,
  timeAxis,
  weekChart,
} from "../../../src/report/charts/index.ts";
import {legend} from "../../../src/report/figureFrame.ts";
import {
  INK,
  LAYER_FILL,
  LAYER_FILL_ALTERNATE,
  PAPER,
  SCENARIO,
  SERIES,
  temperatureMarks,
} from "../../../src/report/palette.ts";
import {fixture} from "./fixture.ts";

/**
 * Relative luminance and contrast ratio (L₁ + 0.05)/(L₂ + 0.05).
 * Source: WCAG 2.2, definitions of relative luminance and of contrast ratio; thresholds 4.5 of text (1.4.3) and 3 of graphics (1.4.11).
 */
function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5]
    .map(at => Number.parseInt(hex.slice(at, at + 2), 16) / 255)
    .map(v => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
function contrast(one: string, other: string): number {
  const [low, high] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (high + 0.05) / (low + 0.05);
}

const dark = (light: string): string => darkColours[light]!;
const layers = [LAYER_FILL, LAYER_FILL_ALTERNATE].flatMap(fills => Object.values(fills));
const OPEN_BAR = "#edf0f3";
const GRID = "#d3d9df";
const BARS = ["#b98a62", "#8793a0", "#7d8b99", "#e9b384"]; // areas without text in their own colour

test("contrast as the recommendation has it", () => {
  expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 12); // the largest ratio there is, by its definition
  expect(contrast("#777777", "#ffffff")).toBeLessThan(4.5); // the well-known grey that just fails, and its neighbour
  expect(contrast("#767676", "#ffffff")).toBeGreaterThan(4.5);
});

test("text, lines and marks stand out from the dark paper, bars too", () => {
  const quiet = new Set([...layers, OPEN_BAR, GRID, PAPER, "white", ...BARS]);
  for (const [light, colour] of Object.entries(darkColours))
    if (!quiet.has(light)) expect(contrast(colour, DARK_PAPER), light).toBeGreaterThanOrEqual(4.5);
  for (const light of BARS) expect(contrast(dark(light), DARK_PAPER), light).toBeGreaterThanOrEqual(3);
});

test("text stands out from what it is written on", () => {
  for (const fill of [...layers, OPEN_BAR]) expect(contrast(dark(INK), dark(fill)), fill).toBeGreaterThanOrEqual(4.5);
  for (const bar of ["#0e5a63", "#7d8b99"]) expect(contrast(dark(PAPER), dark(bar)), bar).toBeGreaterThanOrEqual(4.5);
});

test("paper is paper, grids stay behind, and neighbours stay apart", () => {
  expect([dark(PAPER), dark("white")]).toEqual([DARK_PAPER, DARK_PAPER]);
  expect(contrast(dark(GRID), DARK_PAPER)).toBeLessThan(2);
  for (const role of ["overlay", "jointed", "foundation"] as const)
    expect(dark(LAYER_FILL[role])).not.toBe(dark(LAYER_FILL_ALTERNATE[role]));
  const series = SERIES.map(s => dark(s.colour));
  expect(new Set(series).size).toBe(SERIES.length);
  for (let n = 1; n <= 12; n++) {
    const marks = temperatureMarks(n).map(m => dark(m.colour));
    expect(new Set(marks).size).toBe(n);
    expect(marks).not.toContain(undefined);
  }
});

test("every colour written in the charts has a counterpart; maps apart, which stay light", () => {
  const folder = new URL("../../../src/report/charts/", import.meta.url);
  const files = readdirSync(folder).filter(name => name !== "survey.ts");
  const written = files.flatMap(
    name => readFileSync(new URL(name, folder), "utf8").match(/"(?:#[0-9a-f]{6}|white)"/g) ?? [],
  );
  expect(written.length).toBeGreaterThan(15);
  expect(written.map(text => text.slice(1, -1)).filter(colour => !(colour in darkColours))).toEqual([]);
});

const {document} = parseHTML("<!doctype html><html><body></body></html>");
const canvas: Canvas = {document, width: 330};
const result = fixture();
const treated = result.treatments[1]!;
const pictures = [
  sectionChart(treated.treatment.section, canvas),
  frontsChart(treated, timeAxis(result.treatments, 20), canvas),
  livesChart(result, canvas),
  temperatureChart({weather: result.study.weather!, temperatures: treated.temperatures!}, canvas),
  weekChart(treated.temperatures!.atDepth, {layers: treated.treatment.section.layers, day: 10}, canvas),
  cycleDamageChart(cycleBins(treated.thermalCycles!, 4), canvas),
];

test("every colour drawn has one, and the rules find it", () => {
  const page = parseHTML(
    `<html><body><div class="dark">${pictures.join("")}${legend(["a", "b"])}</div></body></html>`,
  ).document;
  const rules = [...darkChartCss(".dark").matchAll(/^(.+?)\{([a-z-]+):([^!}]+)/gm)].map(
    ([, selector, name, value]) => ({
      selector: selector!.replace(":is(.dark)", ".dark"),
      name: name!,
      value: value!,
    }),
  );
  const plain = new Set(["none", "currentColor", "transparent"]);
  let drawn = 0;
  for (const name of ["fill", "stroke"] as const)
    for (const element of page.querySelectorAll(`svg [${name}]`)) {
      const colour = element.getAttribute(name)!;
      if (plain.has(colour)) continue;
      drawn++;
      const own = rules.filter(r => r.name === name && element.matches(r.selector)).map(r => r.value);
      expect(own, `${name} ${colour}`).toEqual([dark(colour)]);
    }
  expect(drawn).toBeGreaterThan(100);
  const marks = [...page.querySelectorAll("b")].map(
    b => rules.find(r => r.name === "color" && b.matches(r.selector))?.value,
  );
  expect(marks).toEqual([dark(SERIES[0]!.colour), dark(SCENARIO.traffic.colour)]);
});

test("pictures themselves stay light", () => {
  for (const picture of pictures) expect(picture.toString()).not.toContain(DARK_PAPER);
});

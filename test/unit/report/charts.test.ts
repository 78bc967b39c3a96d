import {parseHTML} from "linkedom";
import {describe, expect, test} from "vitest";
import {logTicks, niceCeiling, spread} from "../../../src/report/charts/frame.ts";
import {
  binsChart,
  type Canvas,
  classesChart,
  cycleBins,
  cycleDamageChart,
  cyclesChart,
  dailyRange,
  envelopeChart,
  extremeWeeks,
  frontsChart,
  livesChart,
  sectionChart,
  strainDomain,
  temperatureChart,
  timeAxis,
  tipStrainChart,
  weekChart,
} from "../../../src/report/charts/index.ts";
import type {Html} from "../../../src/report/html.ts";
import {fixture, section} from "./fixture.ts";

const {document} = parseHTML("<!doctype html><html><body></body></html>");
const canvas: Canvas = {document, width: 330};
const result = fixture();
const treated = result.treatments[1]!;

/** Texts of an SVG; throws when it is not one element, and fails on a coordinate that is not a number. */
function texts(chart: Html): string[] {
  const markup = chart.toString();
  const parsed = parseHTML(`<!doctype html><html><body>${markup}</body></html>`).document;
  expect(parsed.querySelectorAll("body > svg").length).toBe(1);
  expect(/NaN|undefined|Infinity/.exec(markup)?.[0]).toBe(undefined);
  expect(parsed.querySelector("svg")?.getAttribute("aria-label")).toBeTruthy();
  return [...parsed.querySelectorAll("text")].map(t => t.textContent?.trim() ?? "");
}

function has(all: readonly string[], part: string): void {
  expect(
    all.some(t => t.replaceAll("\u00a0", " ").includes(part)),
    `“${part}” in ${all.join(" | ")}`,
  ).toBe(true);
}

test("section: every layer with its thickness, joint and depth in mm", () => {
  const all = texts(sectionChart(section(true), {...canvas, width: 680}));
  for (const part of [
    "Wearing course, 40 mm",
    "Interlayer, 10 mm",
    "Cracked base, 200 mm",
    "depth, mm",
    "joint, 1 mm wide",
    "next at 5 m",
    "rigid base",
  ])
    has(all, part);
});

test("section: reinforcement with its name, interfaces without full bond", () => {
  const plain = section(true);
  const reinforcement = {name: "Glass grid", depth: 0.04, height: 0.01, stiffness: 4e6, bondLength: 0.05};
  const layers = plain.layers.map((l, k) => ({...l, ...(k === 1 && {bondBelow: 0}), ...(k === 3 && {bondBelow: 1e9})}));
  const all = texts(sectionChart({...plain, layers, reinforcement}, {...canvas, width: 680}));
  for (const part of ["Glass grid", "no bond", "partial bond"]) has(all, part);
  expect(texts(sectionChart(plain, {...canvas, width: 680})).some(t => /bond/.test(t))).toBe(false);
});

test("section: no foundation, no overlay and a base on springs still draw", () => {
  const s = section(false);
  const bare = {
    ...s,
    layers: s.layers.filter(l => l.role === "jointed"),
    base: {kind: "springs", stiffness: 5e7},
  } as const;
  has(texts(sectionChart(bare, {...canvas, width: 680})), "springs, 50 MPa/m");
});

describe("fronts", () => {
  test("labels each scenario with its life, axes with units", () => {
    const all = texts(frontsChart(treated, timeAxis(result.treatments, 20), canvas));
    for (const part of [
      "together: 17.4 years",
      "traffic alone: 18.6 years",
      "temperature alone: > 100 years",
      "Time, years",
      "Depth below surface, mm",
      "Interlayer",
    ])
      has(all, part);
  });

  test("time axis: linear when lives are of one size, logarithmic when one is far shorter, never beyond 100 years", () => {
    expect(timeAxis(result.treatments, 20)).toEqual({log: false, domain: [0, 20]});
    const short = fixture({
      lives: [
        [7.4, 0.4, 0.39],
        [6, 0.3, 0.29],
      ],
    });
    expect(timeAxis(short.treatments, 20)).toEqual({log: true, domain: [0.01, 20]});
    const long = fixture({
      lives: [
        [99, 300, 98],
        [400, 900, 390],
      ],
    });
    expect(timeAxis(long.treatments, 20).domain[1]).toBe(100);
  });

  test("curves end at the window, by interpolation: no drawn point lies right of the frame", () => {
    const markup = frontsChart(treated, {log: false, domain: [0, 5]}, canvas).toString();
    const xs = [...markup.matchAll(/[ML](-?[\d.]+),/g)].map(m => Number(m[1]));
    expect(Math.max(...xs)).toBeLessThanOrEqual(330);
  });
});

test("lives: bars by treatment, the cap told in words, the governing one marked", () => {
  const all = texts(livesChart(result, {...canvas, width: 560}));
  for (const part of [
    "Overlay 80 mm",
    "> 100 years by this mechanism",
    "6.2 years ◂ governs".replace(" ◂", "  ◂"),
    "Life, years (log scale)",
  ])
    has(all, part);
});

test("temperature: bands and mean with direct labels, °C on the axis", () => {
  const all = texts(temperatureChart({weather: result.study.weather!, temperatures: treated.temperatures!}, canvas));
  for (const part of [
    "surface, daily range",
    "air, daily range",
    "jointed layer, mean",
    "Temperature, °C",
    "Day of the record",
  ])
    has(all, part);
});

test("a week at depth: a line for each place, told with its layer; the envelope with its layers", () => {
  const {atDepth} = treated.temperatures!;
  const {layers} = treated.treatment.section;
  const all = texts(weekChart(atDepth, {layers, day: 180}, canvas));
  has(all, "surface");
  has(all, "Day of the record");
  expect(all.filter(text => /^\d+\smm, (middle|bottom) of /.test(text))).toHaveLength(atDepth.length - 1);
  const envelope = texts(envelopeChart(treated.temperatures!, layers, canvas));
  for (const part of ["lowest", "mean", "highest", "Depth, mm", "Temperature, °C"]) has(envelope, part);
});

test("the warmest and the coldest week, the first of equals", () => {
  const days = [0, 0, 0, 9, 9, 9, 9, 9, 9, 9, 0, -5, -5, -5, -5, -5, -5, -5, 0, 0];
  const hours = Float64Array.from({length: 24 * days.length}, (_, h) => days[Math.floor(h / 24)]);
  expect(extremeWeeks(hours)).toEqual({warm: 3, cold: 11});
  expect(extremeWeeks(new Float64Array(72))).toEqual({warm: 0, cold: 0});
});

test("daily range: by hand for two days, a part day kept, long records grouped", () => {
  const hours = Float64Array.from({length: 54}, (_, h) => h);
  expect(dailyRange(hours)).toEqual([
    {day: 0.5, low: 0, high: 23, mean: 11.5},
    {day: 1.5, low: 24, high: 47, mean: 35.5},
    {day: 2.125, low: 48, high: 53, mean: 50.5},
  ]);
  expect(dailyRange(new Float64Array(10 * 8760)).length).toBeLessThanOrEqual(400);
});

test("cycles: all are kept, damage adds to 100 %, units on the axes", () => {
  const cycles = treated.thermalCycles!;
  const bins = cycleBins(cycles, 4);
  const total = (values: readonly number[]) => values.reduce((a, b) => a + b, 0);
  expect(total(bins.map(b => b.perYear))).toBeCloseTo(total([...cycles.perYear]), 9);
  expect(total(bins.map(b => b.damage))).toBeCloseTo(100, 9);
  has(texts(cyclesChart(bins, canvas)), "Cycles a year");
  has(texts(cyclesChart(bins, canvas)), "Range of tip strain, µε");
  has(texts(cycleDamageChart(bins, canvas)), "Share of thermal damage, %");
  expect(cycleBins({front: "surface", range: new Float64Array(0), perYear: new Float64Array(0)}, 4)).toEqual([]);
});

test("tip strain: curves labelled, every tick of the log axis numbered", () => {
  const curves = treated.tipStrain.filter(c => c.front === "underside");
  const all = texts(tipStrainChart(curves, strainDomain(treated.tipStrain), canvas));
  for (const part of ["single, 30 °C", "10 K day", "Tip strain, µε (log scale)", "Crack length, mm", "50", "500"])
    has(all, part);
});

test("tip strain that falls to zero is left out of the log axis, not drawn at minus infinity", () => {
  const curve = {...treated.tipStrain[0]!, strain: treated.tipStrain[0]!.strain.map((s, i) => (i > 10 ? 0 : s))};
  texts(tipStrainChart([curve], strainDomain([curve]), canvas));
});

test("many tip strain curves: only the telling ones are labelled", () => {
  const many = Array.from({length: 12}, (_, i) => ({
    ...treated.tipStrain[0]!,
    label: `curve ${i}`,
    strain: treated.tipStrain[0]!.strain.map(s => s * (1 + i)),
  }));
  const labels = texts(tipStrainChart(many, strainDomain(many), canvas)).filter(t => t.startsWith("curve"));
  expect(labels.toSorted()).toEqual(["curve 0", "curve 11", "curve 5"]);
});

test("bins and classes: values at the bars, units on the axis", () => {
  has(texts(binsChart(treated.bins, canvas)), "Share of the year’s passes, %");
  has(texts(binsChart(treated.bins, canvas)), "25 %");
  has(texts(classesChart(result.study.traffic.classes, canvas)), "84,000");
});

test("names of the user are text in a figure", () => {
  const s = section(true);
  const evil = {...s, layers: s.layers.map(l => ({...l, name: "<script>x</script>&"}))};
  const markup = sectionChart(evil, {...canvas, width: 680}).toString();
  expect(markup.includes("<script>")).toBe(false);
  expect(markup.includes("&lt;script&gt;")).toBe(true);
});

test("the same numbers give the same picture", () => {
  const draw = () => frontsChart(treated, timeAxis(result.treatments, 20), canvas).toString();
  expect(draw()).toBe(draw());
});

test("spread keeps order and gap, and moves nothing that is free", () => {
  expect(spread([10, 50, 90], 12, 0, 100)).toEqual([10, 50, 90]);
  const moved = spread([50, 51, 52], 12, 0, 100);
  expect(moved[1]! - moved[0]!).toBeGreaterThanOrEqual(12);
  expect(moved[2]! - moved[1]!).toBeGreaterThanOrEqual(12);
  expect(Math.max(...spread([99, 99], 12, 0, 100))).toBeLessThanOrEqual(100);
});

test("ticks", () => {
  expect(logTicks(1, 100)).toEqual([1, 2, 5, 10, 20, 50, 100]);
  expect(logTicks(0.001, 100)).toEqual([0.001, 0.01, 0.1, 1, 10, 100]);
  expect([18.7, 20, 0.31, 7].map(niceCeiling)).toEqual([20, 20, 0.4, 8]);
});

import {parseHTML} from "linkedom";
import {describe, expect, test} from "vitest";
import {axisValues, type Region, type Survey} from "../../../src/engine/survey/index.ts";
import {clearest, crossings, levelsFor} from "../../../src/report/charts/contours.ts";
import {divergingColour, hexOf, sequentialColour} from "../../../src/report/charts/scheme.ts";
import type {ChartDocument, ReportContext} from "../../../src/report/index.ts";
import {searchCsv, searchReport, searchTable, surveyCsv, surveyReport, surveyTable} from "../../../src/report/index.ts";
import type {SearchCase} from "../../../src/report/searched.ts";
import {searchRows} from "../../../src/report/searched.ts";
import {type SurveyCase, surveyView} from "../../../src/report/survey.ts";
import {regionReason, surveyAnswer, valueText} from "../../../src/report/surveyWords.ts";

const context: ReportContext = {
  document: parseHTML("<html></html>").document as unknown as ChartDocument,
  software: "1.2.3",
  inputHash: "0123456789abcdef",
  date: "1 May 2030",
  sources: {},
  warnings: [],
};

describe("contours", () => {
  /** Distance from a middle, in cells: a level is a circle. */
  const circles = (size: number): number[][] =>
    Array.from({length: size}, (_, r) =>
      Array.from({length: size}, (_, c) => Math.hypot(c - (size - 1) / 2, r - (size - 1) / 2)),
    );

  test("of a cone are circles", () => {
    const [size, radius] = [41, 12.3];
    const points = crossings(circles(size), radius);
    expect(points.length).toBeGreaterThan(60);
    // Along an edge the cone is bent by at most 1/(8·radius) cells.
    for (const {column, row} of points)
      expect(Math.abs(Math.hypot(column - 20, row - 20) - radius)).toBeLessThan(1 / (8 * radius));
    const quarters = new Set(points.map(p => `${p.column > 20}${p.row > 20}`));
    expect(quarters.size).toBe(4);
  });

  test("stop where there are no values", () => {
    const values = circles(41).map(row => row.map((v, c) => (c < 20 ? Number.NaN : v)));
    const points = crossings(values, 12.3);
    expect(points.length).toBeGreaterThan(20);
    expect(Math.min(...points.map(p => p.column))).toBeGreaterThanOrEqual(20);
  });

  test("labels keep off each other and the edge", () => {
    const frame = {left: 0, right: 100, top: 0, bottom: 100};
    const options = {frame, room: {width: 20, height: 10}};
    const line = Array.from({length: 101}, (_, x) => ({x, y: 50}));
    const at = clearest(line, [{x: 30, y: 50}], options)!;
    expect(at.x).toBeGreaterThan(60);
    expect(at.x).toBeLessThanOrEqual(88);
    expect(clearest([{x: 30, y: 52}], [{x: 30, y: 50}], options)).toBeNull();
    expect(clearest([{x: 3, y: 50}], [], options)).toBeNull();
  });

  test("levels are round, inside and not too many", () => {
    expect(levelsFor(0.6, 2.1, [[1, 1.5, 2, 3, 5, 7]])).toEqual([0.7, 1, 1.5, 2]);
    expect(levelsFor(0.01, 100, [[1, 1.5, 2, 3, 5, 7], [1]])).toEqual([0.1, 1, 10]);
  });
});

test("values along an axis in the units of the reader: 1 in = 25.4 mm, 1 K = 1.8 °F", () => {
  const told = (name: string, unit: string, value: number) =>
    (["metric", "us"] as const).map(units =>
      valueText({name, unit, words: "", label: "", present: 0}, value, units).replace("\u00a0", " "),
    );
  expect(told("section.layers.overlay.thickness_mm", "mm", 76.2)).toEqual(["76.2 mm", "3 in"]);
  expect(told("temperature", "K", 2)).toEqual(["+2 K", "+3.6 °F"]);
  expect(told("traffic", "–", 2)).toEqual(["×2", "×2"]);
});

describe("colours", () => {
  const bytes = (hex: string): number[] => [1, 3, 5].map(at => Number.parseInt(hex.slice(at, at + 2), 16));
  /** Relative luminance (IEC 61966-2-1, ITU-R BT.709). */
  const linear = (hex: string): number[] =>
    bytes(hex).map(b => (b / 255 <= 0.04045 ? b / 255 / 12.92 : ((b / 255 + 0.055) / 1.055) ** 2.4));
  const luminance = (hex: string): number => {
    const [r, g, b] = linear(hex);
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  /** L* of CIE 1976, from luminance. */
  const lightness = (hex: string): number => 116 * Math.cbrt(luminance(hex)) - 16;

  test("white, black and grey are themselves", () => {
    expect(hexOf({lightness: 1, chroma: 0, hue: 0})).toBe("#ffffff");
    expect(hexOf({lightness: 0, chroma: 0, hue: 0})).toBe("#000000");
    const [r, g, b] = bytes(hexOf({lightness: 0.6, chroma: 0, hue: 0}));
    expect([g, b]).toEqual([r, r]);
    // sRGB red has OKLab lightness 0.628, chroma 0.258, hue 29.2° (Ottosson 2020; CSS Color 4, sample conversions; from memory)
    const red = bytes(hexOf({lightness: 0.628, chroma: 0.2577, hue: 29.23}));
    expect(red[0]).toBeGreaterThan(250);
    expect(Math.max(red[1], red[2])).toBeLessThan(12);
  });

  test("steps of lightness are even, so that greyscale and colour-blind readers see the order", () => {
    const steps = Array.from({length: 11}, (_, k) => k / 10);
    for (const colours of [
      steps.map(sequentialColour),
      steps.map(p => divergingColour(-1 + p)),
      steps.map(p => divergingColour(1 - p)),
    ]) {
      const differences = colours.slice(1).map((c, k) => lightness(c) - lightness(colours[k]));
      const mean = differences.reduce((a, b) => a + b) / differences.length;
      expect(mean).toBeGreaterThan(2);
      for (const d of differences) expect(Math.abs(d / mean - 1)).toBeLessThan(0.35);
    }
  });

  test("harm and gain are told apart without red or green receptors", () => {
    // Dichromats keep the difference of blue against red and green: Viénot, Brettel & Mollon 1999, from memory, reduce R and G to
    // one. What is left is blue against their sum.
    const blueness = (hex: string): number => {
      const [r, g, b] = linear(hex);
      return b / (0.3 * r + 0.7 * g);
    };
    for (const part of [0.3, 0.6, 1])
      expect(blueness(divergingColour(part)) / blueness(divergingColour(-part))).toBeGreaterThan(1.8);
  });
});

const years = (value: number) => ({years: value, censored: false});

/** Plain: 10 years everywhere; soft: its ratio goes with x, from harm to more than can be told. */
function caseOf(count: number): SurveyCase {
  const x = {values: axisValues(0.5, 20, {count, log: true}), log: true};
  const y = {values: axisValues(40, 80, {count, log: false}), log: false};
  const survey: Survey = {
    x,
    y,
    level: {x: x.values.map((_, i) => i), y: y.values.map((_, j) => j)},
    outcome: i => ({
      treatments: [
        {name: "plain", overlay: 0.06, lives: {"reflection by traffic": years(10)}, presentWorth: null},
        {name: "soft", overlay: 0.05, lives: {"reflection by traffic": years(10 * x.values[i])}, presentWorth: null},
      ],
      warnings: [],
    }),
  };
  const input = {name: "a", unit: "mm", words: "overlay thickness", label: "overlay thickness, mm", present: 50};
  return {
    study: "Road <1>",
    x: {name: "traffic", unit: "–", words: "traffic", label: "traffic, factor", present: 1.5},
    y: input,
    treatments: ["plain", "soft"],
    interlayer: true,
    accuracy: 0.02,
    survey,
    missed: null,
    computed: count * count,
    finished: true,
  };
}

describe("a survey is told", () => {
  const one = caseOf(5);
  const view = surveyView(one);

  test("in an answer", () => {
    const {headline, details} = surveyAnswer(one, view);
    expect(headline.replaceAll("\u00a0", " ")).toBe(
      "In the study as it is, “soft” lasts 15 years where “plain” lasts 10 years: 1.5 times as long.",
    );
    expect(details.join("\n").replaceAll("\u00a0", " ")).toContain(
      "Over these ranges the ratio runs from ×0.5 at traffic ×0.5 and overlay thickness 40 mm",
    );
    expect(details.join("\n")).toContain("The ratio does not depend on overlay thickness here");
    expect(details.join("\n").replaceAll("\u00a0", " ")).toMatch(
      /On 1\d % of the map “soft” shortens the life, by the overlay that is lost to it\./,
    );
  });

  test("as a first picture without lives, which four corners do not tell", () => {
    const {headline, details} = surveyAnswer({...one, finished: false}, view);
    expect(headline).toBe(
      "By a first, coarse picture: in the study as it is, “soft” lasts about 1.5 times as long as “plain”.",
    );
    expect(details.at(-1)).toContain("not all of its points are computed");
  });

  test("in regions with reasons", () => {
    expect(view.regions.map(r => [r.cause, r.effect])).toEqual(
      [
        ["traffic", "gain"],
        ["traffic", "harm by thinner overlay"],
        ["nothing", "gain"],
      ].sort((a, b) => share(b) - share(a)),
    );
    const reasons = view.regions.map(r => regionReason(r, one));
    expect(reasons.join("\n")).toMatch(
      /Traffic rules, and the interlayer holds the crack back 1 to (9\.\d|10) times as long\./,
    );
    expect(reasons).toContain(
      "Traffic rules, and the overlay lost to the interlayer costs more than it brings (×0.5 to ×0.99).",
    );
  });
  const share = ([cause, effect]: readonly string[]): number =>
    view.regions.find(r => r.cause === cause && r.effect === effect)!.share;

  test("in a report, a table and a file", () => {
    const report = surveyReport(one, context);
    expect(report).toContain("Road &lt;1&gt;");
    expect(report).toContain("as in the study");
    expect(report).not.toContain("NaN");
    expect(report).not.toContain("undefined");
    expect((report.match(/<svg/g) ?? []).length).toBe(3);
    const table = surveyTable(one, "life", {colour: false, width: 100});
    expect(table).toMatch(/^80 mm +5 +\S+/m);
    expect(table).toContain("> 100");
    const lines = surveyCsv(one).trimEnd().split("\r\n");
    expect(lines.length).toBe(26);
    expect(lines[1]).toBe(
      "0.5,40,computed,10,5,reflection by traffic,reflection by traffic,0.5,ratio,traffic,harm by thinner overlay,",
    );
  });

  test("each cause has its words", () => {
    const base: Region = {
      ...view.regions[0],
      cause: "traffic",
      effect: "gain",
      ratio: [1.5, 2.5],
      mechanisms: ["underside fatigue, overlay"],
    };
    const told = (change: Partial<Region>): string => regionReason({...base, ...change}, one);
    expect(told({cause: "temperature"})).toBe(
      "Temperature rules, and the interlayer holds the crack back 1.5 to 2.5 times as long.",
    );
    expect(told({cause: "ordinary"})).toContain("underside fatigue, overlay");
    expect(told({ratio: [1.01, 1.02]})).toContain("makes no practical difference (×1)");
    expect(told({effect: "waste"})).toContain("nothing to gain");
    expect(told({effect: "harm", ratio: [0.4, 0.6]})).toContain("it comes sooner than without (×0.4 to ×0.6)");
    expect(regionReason(base, {...one, interlayer: false})).toContain("“soft” holds the crack back");
  });
});

describe("a search is told", () => {
  const lives = [5, 12, 20, 18, 30];
  const one: SearchCase = {
    study: "Road",
    layer: "overlay thickness",
    isLaid: true,
    steps: [40, 45, 50, 55, 60],
    target: 15,
    accuracy: 0.02,
    treatments: [
      {
        name: "plain",
        found: {known: lives.map((life, step) => ({step, life: life / 3})), least: null, best: 4, falls: []},
      },
      {
        name: "soft",
        found: {known: lives.map((life, step) => ({step, life})), least: 2, best: 4, falls: [{from: 2, to: 3}]},
      },
    ],
    outcomes: new Map(
      lives.map((life, step) => [
        step,
        {
          treatments: [
            {name: "plain", overlay: 0.04, lives: {"reflection by traffic": years(life / 3)}, presentWorth: 20 + life},
            {
              name: "soft",
              overlay: 0.04,
              lives: {"reflection by traffic": years(life), "underside fatigue, overlay": years(99)},
              presentWorth: 22 + life,
            },
          ],
          warnings: [],
        },
      ]),
    ),
    sampling: null,
    prices: {currency: "EUR", period: 40},
    constant: [],
  };

  test("with the least, what misses, and where life falls", () => {
    const rows = searchRows(one).map(r => ({
      ...r,
      remark: r.remark.replaceAll("\u00a0", " "),
      least: r.least.replaceAll("\u00a0", " "),
    }));
    expect(rows[0]).toMatchObject({
      least: "none",
      life: "10",
      remark: "none reaches it: the longest life has 60 mm, where reflective cracking by traffic governs",
    });
    expect(rows[1]).toMatchObject({
      least: "50 mm",
      life: "20",
      below: "12",
      remark: "reflective cracking by traffic governs; life falls from 50 mm to 55 mm",
    });
    expect(searchTable(one, {colour: false, width: 100})).toContain(
      "For 15 years the overlay thickness has to be 50 mm with “soft”.",
    );
    expect(searchReport(one, context)).not.toContain("NaN");
    expect(searchCsv(one).split("\r\n")[1]).toBe("plain,40,1.66666667,reflection by traffic,25");
  });
});

/** US customary units: factors against published ones, and numbers that come back as they were typed. */
import fc from "fast-check";
import {parseHTML} from "linkedom";
import {describe, expect, test} from "vitest";
import {
  binsChart,
  bowlChart,
  type Canvas,
  chartScales,
  coleColeChart,
  envelopeChart,
  equivalenceChart,
  frontierChart,
  frontsChart,
  lawChart,
  masterCurveChart,
  relaxationChart,
  searchChart,
  sectionChart,
  shiftChart,
  spectrumChart,
  surfaceModulusChart,
  temperatureChart,
  timeAxis,
  tipStrainChart,
  weekChart,
} from "../../../src/report/charts/index.ts";
import {
  celsius,
  kilometresPerHour,
  megapascals,
  megapascalsPerMillimetre,
  millimetres,
} from "../../../src/report/format.ts";
import {displayUnit, quantityText, ratioMap, type SurveyCase} from "../../../src/report/live/index.ts";
import type {SurveyView} from "../../../src/report/survey.ts";
import {measure} from "../../../src/report/units.ts";
import {LAWS, VIEW} from "./dataFixture.ts";
import {fixture, section} from "./fixture.ts";

const plain = (text: string): string => text.replaceAll("\u00a0", " ");

describe("factors", () => {
  /**
   * One US unit in the unit of documents. Source: NIST Special Publication 811 (2008), appendix B.8, seven figures, from memory
   * (inch, foot, mil, mile an hour and Btu/(lb·°F) exact); compared to half a unit of their last figure.
   */
  const published: [document: string, us: string, one: number][] = [
    ["mm", "in", 25.4],
    ["m", "ft", 0.3048],
    ["µm", "mil", 25.4],
    ["0.1 mm", "in", 254],
    ["MPa", "ksi", 6.894757],
    ["GPa", "ksi", 6.894757e-3],
    ["kPa", "psi", 6.894757],
    ["kN", "kip", 4.448222],
    ["kN/m", "lbf/in", 0.1751268],
    ["kN/mm", "kip/in", 0.1751268],
    ["MPa/mm", "ksi/in", 6.894757 / 25.4],
    ["MPa/m", "psi/in", 6.894757e-3 / 0.0254],
    ["km/h", "mph", 1.609344],
    ["m/s", "ft/s", 0.3048],
    ["kg/m³", "lb/ft³", 16.01846],
    ["W/(m·K)", "Btu/(h·ft·°F)", 1.730735],
    ["W/(m²·K)", "Btu/(h·ft²·°F)", 5.678263],
    ["J/(kg·K)", "Btu/(lb·°F)", 4186.8],
    ["K", "°F", 5 / 9],
    ["1/K", "1/°F", 1.8],
    ["1/°C", "1/°F", 1.8],
    ["mm/cycle, ε in µε", "in/cycle, ε in µε", 25.4],
  ];
  for (const [document, us, one] of published)
    test(`${document} and ${us}`, () => {
      const shown = displayUnit(document, "us");
      expect(shown.unit).toBe(us);
      expect(Math.abs(shown.fromDisplay(1) / one - 1)).toBeLessThan(5e-7);
    });

  test("temperatures: freezing, boiling, and where both scales meet", () => {
    const {unit, toDisplay, fromDisplay} = displayUnit("°C", "us");
    expect(unit).toBe("°F");
    expect([0, 100, -40, 37].map(toDisplay)).toEqual([32, 212, -40, 98.6]);
    expect([32, 212, -40, 98.6].map(fromDisplay)).toEqual([0, 100, -40, 37]);
  });

  test("what has no customary unit, and everything metric, stays", () => {
    for (const unit of ["%", "–", "years", "µε", "Hz", "h", "currency/m²", "lg MPa"])
      expect(displayUnit(unit, "us")).toMatchObject({unit});
    const {unit, toDisplay, fromDisplay} = displayUnit("mm", "metric");
    expect([unit, toDisplay(80.1), fromDisplay(80.1)]).toEqual(["mm", 80.1, 80.1]);
  });
});

describe("numbers come back", () => {
  const units = ["mm", "m", "MPa", "MPa/mm", "kN", "kN/m", "1/°C", "km/h", "kg/m³", "W/(m·K)", "W/(m²·K)", "J/(kg·K)"];
  /** Of so many digits at most, over the sizes that forms have. */
  const typed = (digits: number) =>
    fc
      .tuple(fc.integer({min: 1, max: 10 ** digits - 1}), fc.integer({min: -6, max: 3}))
      .map(([whole, power]) => Number(`${whole}e${power}`));

  test("a metric number shown and taken back is the same", () => {
    fc.assert(
      fc.property(fc.constantFrom(...units), typed(9), (unit, value) => {
        const {toDisplay, fromDisplay} = displayUnit(unit, "us");
        expect(fromDisplay(toDisplay(value))).toBe(value);
      }),
    );
  });

  test("a US number taken and shown again is the same, with no more digits", () => {
    fc.assert(
      fc.property(fc.constantFrom(...units), typed(9), (unit, value) => {
        const {toDisplay, fromDisplay} = displayUnit(unit, "us");
        expect(toDisplay(fromDisplay(value))).toBe(value);
      }),
    );
  });

  test("temperatures to a tenth, both ways", () => {
    const {toDisplay, fromDisplay} = displayUnit("°C", "us");
    fc.assert(
      fc.property(fc.integer({min: -600, max: 900}), tenths => {
        expect(fromDisplay(toDisplay(tenths / 10))).toBe(tenths / 10);
        expect(toDisplay(fromDisplay(tenths / 10))).toBe(tenths / 10);
      }),
    );
  });

  test("zero and what is no number", () => {
    const {toDisplay, fromDisplay} = displayUnit("mm", "us");
    expect([toDisplay(0), fromDisplay(0), toDisplay(Number.NaN)]).toEqual([0, 0, Number.NaN]);
  });
});

test("quantities as text: metric as reports have it, and customary", () => {
  expect(quantityText(0.08, "length", "metric")).toBe(millimetres(0.08));
  expect(quantityText(3.5e9, "modulus", "metric")).toBe(megapascals(3.5e9));
  expect(quantityText(5e10, "interface stiffness", "metric")).toBe(megapascalsPerMillimetre(5e10));
  expect(quantityText(20, "speed", "metric")).toBe(kilometresPerHour(20));
  expect(quantityText(-8.94, "temperature", "metric")).toBe(celsius(-8.94));
  expect(plain(quantityText(0.0762, "length", "us"))).toBe("3 in");
  expect(plain(quantityText(4.572, "distance", "us"))).toBe("15 ft");
  expect(plain(quantityText(-8.94, "temperature", "us"))).toBe("15.9 °F"); // 32 − 8.94·1.8 = 15.908
  expect(plain(quantityText(6.894757293168e9, "modulus", "us"))).toBe("1,000 ksi");
  expect(plain(quantityText(6.894757293168e5, "stress", "us"))).toBe("100 psi");
  expect(plain(quantityText(6.894757293168e5, "stress", "metric"))).toBe("0.689 MPa");
  expect(plain(quantityText(80_068, "force", "us"))).toBe("18 kip"); // 80.068 kN: the 18-kip axle
  expect(plain(quantityText(26.8224, "speed", "us"))).toBe("60 mph"); // 0.44704 m/s a mile an hour
  expect(plain(quantityText(1e-4, "strain", "us"))).toBe("100 µε");
  expect(measure("length", "us").fromMetric(50.8)).toBeCloseTo(2, 12);
  expect(measure("length").fromMetric(50.8)).toBe(50.8);
});

describe("charts", () => {
  const {document} = parseHTML("<!doctype html><html><body></body></html>");
  const us: Canvas = {document, width: 680, units: "us"};
  const result = fixture();
  const treated = result.treatments[1]!;
  const temperatures = treated.temperatures!;
  const {layers} = treated.treatment.section;
  const words = (picture: {toString(): string}): string => {
    const page = parseHTML(`<html><body>${picture}</body></html>`).document;
    return [...page.querySelectorAll("text")].map(t => plain(t.textContent ?? "")).join(" | ");
  };

  test("depths in inches, whole axes of them", () => {
    const fronts = frontsChart(treated, timeAxis(result.treatments, 20), us);
    const y = chartScales(fronts.toString())!.y!;
    expect(y.label).toBe("Depth below surface, in");
    expect(y.domain[0]).toBeCloseTo(80 / 25.4, 9);
    expect(words(sectionChart(section(true), us))).toContain("Wearing course, 1.57 in"); // 40 mm
    expect(words(sectionChart(section(true), us))).toContain("next at 16.4 ft"); // 5 m
    expect(words(tipStrainChart(treated.tipStrain.slice(0, 3), [10, 1000], us))).toContain("Crack length, in");
  });

  test("temperatures in degrees Fahrenheit", () => {
    const record = temperatureChart({weather: result.study.weather!, temperatures}, us);
    const y = chartScales(record.toString())!.y!;
    expect(y.label).toBe("Temperature, °F");
    const hottest = Math.max(...temperatures.surface) * 1.8 + 32;
    expect(y.domain[1]).toBeGreaterThanOrEqual(hottest);
    expect(Number(y.domain[1])).toBeLessThan(hottest + 5);
    expect(words(weekChart(temperatures.atDepth, {layers, day: 0}, us))).toContain("0.787 in, middle of"); // 20 mm
    expect(words(envelopeChart(temperatures, layers, us))).toContain("Depth, in");
    expect(words(binsChart(treated.bins, us))).toContain("52.7 °F"); // 11.5 °C
  });

  test("nothing metric is left in them", () => {
    const pictures = [
      sectionChart(section(true), us),
      frontsChart(treated, timeAxis(result.treatments, 20), us),
      temperatureChart({weather: result.study.weather!, temperatures}, us),
      weekChart(temperatures.atDepth, {layers, day: 0}, us),
      envelopeChart(temperatures, layers, us),
      binsChart(treated.bins, us),
    ];
    for (const picture of pictures) expect(words(picture)).not.toMatch(/\bmm\b|°C|MPa|\bkN\b|\d m\b/);
  });
});

describe("charts in both systems: the same places, other numbers", () => {
  const {document} = parseHTML("<!doctype html><html><body></body></html>");
  const ends = (draw: (canvas: Canvas) => {toString(): string}, along: "x" | "y", units: "metric" | "us") => {
    const scale = chartScales(draw({document, width: 560, units}).toString())![along]!;
    return {label: scale.label, at: scale.domain.map(Number)};
  };
  const traffic = {
    reference: "axle",
    exponents: [],
    classes: [40_000, 80_000, 120_000].map(load => ({
      loadClass: String(load),
      group: "single",
      load,
      passesPerYear: 1,
      passesToFailure: 1e6,
      factor: (load / 80_000) ** 4,
      fourthPower: (load / 80_000) ** 4,
      share: 1 / 3,
      passesPerCoverage: 1,
    })),
  };
  const sensor = {
    measured: 2e-4,
    repeatError: null,
    deviation: 2e-6,
    fitted: 2e-4,
    surfaceModulus: 2e8,
    fittedSurfaceModulus: 2e8,
  };
  const sensors = [0, 0.3, 1.2].map(offset => ({...sensor, offset}));
  const dots = [40, 80].map(thickness => ({treatment: 0, thickness, life: thickness / 4, cost: 10}));
  const KSI = 6.894757; // [MPa], as above
  const cases: [
    name: string,
    draw: (c: Canvas) => {toString(): string},
    along: "x" | "y",
    unit: string,
    one: number,
  ][] = [
    ["master curve", c => masterCurveChart(VIEW, c), "y", "ksi", KSI],
    ["Cole-Cole", c => coleColeChart(VIEW, c), "x", "ksi", KSI / 1e3],
    ["relaxation", c => relaxationChart(VIEW, 15, [], c), "y", "ksi", KSI],
    ["spectrum", c => spectrumChart(traffic, "passes", c), "x", "kip", 4.448222],
    ["equivalence", c => equivalenceChart(traffic, c)!, "x", "kip", 4.448222],
    ["growth law", c => lawChart(LAWS, c), "y", "in/cycle", 25.4],
    ["bowl", c => bowlChart(sensors, c), "x", "in", 25.4],
    ["bowl, downward", c => bowlChart(sensors, c), "y", "mil", 25.4],
    ["surface modulus", c => surfaceModulusChart(sensors, c), "y", "ksi", KSI],
    ["search", c => searchChart({dots, target: 12, label: "overlay", life: "Life"}, c), "x", "in", 25.4],
  ];
  for (const [name, draw, along, unit, one] of cases)
    test(name, () => {
      const [metric, us] = [ends(draw, along, "metric"), ends(draw, along, "us")];
      expect(us.label.endsWith(`, ${unit}`), us.label).toBe(true);
      // The published factors have seven figures.
      for (const [k, value] of us.at.entries())
        expect(Math.abs(value * one - metric.at[k]!)).toBeLessThanOrEqual(1e-6 * Math.abs(metric.at[k]!));
    });

  test("shift: from −20 to 50 °C", () => {
    expect(ends(c => shiftChart({...VIEW, points: []}, c), "x", "us")).toEqual({
      label: "Temperature, °F",
      at: [-4, 122],
    });
  });

  test("designs by their thickness", () => {
    const picture = {designs: dots, frontier: dots, target: 12, currency: "EUR"};
    const page = String(frontierChart(picture, {document, width: 560, units: "us"}));
    expect(page).toContain(">1.57<"); // 40 mm
    expect(page).toContain(">3.15<");
  });

  test("a map's axis and what lies on it", () => {
    const axis = {values: [40, 80], log: false};
    const one = {
      x: {name: "a", words: "thickness", label: "thickness, mm", unit: "mm", present: 50.8},
      y: {name: "b", words: "traffic", label: "traffic, factor", unit: "–", present: 60},
      survey: {x: axis, y: axis},
      treatments: ["plain", "soft"],
    } as unknown as SurveyCase;
    const view = {
      fine: {cells: [[null]]},
      regions: [],
      points: [{x: 76.2, y: 2, kind: "failed", judgement: null}],
    } as unknown as SurveyView;
    const map = ratioMap(one, view, {height: 300, units: "us"});
    expect(map.x.label).toBe("thickness, in");
    expect(map.x.domain[1]).toBeCloseTo(80 / 25.4, 9);
    expect(map.y).toEqual({label: "traffic, factor", domain: [40, 80], log: false});
    expect(map.nodes).toEqual([{x: 3, y: 2, kind: "failed"}]);
    expect(map.present).toEqual({x: 2, y: 60});
    expect(ratioMap(one, view, {height: 300}).x).toEqual({label: "thickness, mm", domain: [40, 80], log: false});
  });
});

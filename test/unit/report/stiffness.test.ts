import {readFileSync} from "node:fs";
import {parseHTML} from "linkedom";
import {describe, expect, test} from "vitest";
import type {LifeResult} from "../../../src/engine/life/types.ts";
import type {Material, StiffnessSource} from "../../../src/engine/section/types.ts";
import {type MasterCurve, modulusNorm, pronySeries} from "../../../src/engine/viscoelastic/index.ts";
import {
  blackChart,
  type Canvas,
  coleColeChart,
  masterCurveChart,
  relaxationChart,
  shiftChart,
} from "../../../src/report/charts/index.ts";
import type {Html} from "../../../src/report/html.ts";
import {lifeReport, stiffnessReport, stiffnessTable} from "../../../src/report/index.ts";
import {temperatureMarks} from "../../../src/report/palette.ts";
import type {ShownCurve} from "../../../src/report/stiffness.ts";
import {readStiffness} from "../../../src/schema/index.ts";
import {fixture} from "./fixture.ts";

const {document} = parseHTML("<!doctype html><html><body></body></html>");
const canvas: Canvas = {document, width: 330};
const context = {document, software: "0.1.0", inputHash: "3f9c", date: "14 March 2025", sources: {}, warnings: []};
const plain = (text: string): string => text.replaceAll("\u00a0", " ");

function fitted(name: string, model?: "sigmoid"): ShownCurve {
  const text = readFileSync(new URL(`../../../examples/stiffness/${name}.csv`, import.meta.url), "utf8");
  const outcome = readStiffness(text, `${name}.csv`, {model});
  if (outcome.kind === "faults") throw new Error("the example is good");
  return outcome.read;
}

const tested = fitted("dense-asphalt");
const sigmoid = fitted("dense-asphalt", "sigmoid");

function untested(origin: "parameters" | "estimate"): ShownCurve {
  const curve: MasterCurve = {...sigmoid.curve, measured: null};
  return {origin, file: null, curve, fit: null, points: [], prony: pronySeries(curve)};
}

/** Texts of an SVG, and its dots; fails on a coordinate that is not a number. */
function drawn(chart: Html) {
  const markup = chart.toString();
  expect(/NaN|undefined|Infinity/.exec(markup)?.[0]).toBe(undefined);
  const page = parseHTML(`<!doctype html><html><body>${markup}</body></html>`).document;
  const texts = [...page.querySelectorAll("text")].map(t => plain(t.textContent?.trim() ?? ""));
  return {texts, dots: page.querySelectorAll("[data-mark=dot] > *").length};
}

describe("charts of a master curve", () => {
  const marked = [{label: "day", time: 21_600, modulus: 2.4e8}];
  const all = (shown: ShownCurve) => ({
    master: drawn(masterCurveChart(shown, canvas)),
    black: drawn(blackChart(shown, canvas)),
    coleCole: drawn(coleColeChart(shown, canvas)),
    shift: drawn(shiftChart(shown, canvas)),
    relaxation: drawn(relaxationChart(shown, 14.4, marked, canvas)),
  });

  test("every reading in the three planes of the modulus, a mark a temperature along the shift", () => {
    const {master, black, coleCole, shift, relaxation} = all(tested);
    expect([master.dots, black.dots, coleCole.dots, shift.dots, relaxation.dots]).toEqual([36, 36, 36, 6, 1]);
    expect(master.texts).toContain("Reduced frequency at 15 °C, Hz (log scale)");
    expect(master.texts).toContain("10⁴");
    expect(black.texts).toContain("Phase angle, degrees");
    expect(coleCole.texts).toContain("Loss modulus E″, GPa");
    expect(relaxation.texts).toEqual(expect.arrayContaining(["day", "Loading time at 14.4 °C, s (log scale)"]));
  });

  test("without phases, without tests: the curve alone", () => {
    const bare = {...sigmoid, points: sigmoid.points.map(p => ({...p, phase: null}))};
    const {master, black, coleCole} = all(bare);
    expect([master.dots, black.dots, coleCole.dots]).toEqual([36, 0, 0]);
    const none = all(untested("parameters"));
    expect(Object.values(none).map(c => c.dots)).toEqual([0, 0, 0, 0, 1]);
  });

  test("temperatures differ in colour, and neighbours in mark too", () => {
    const marks = temperatureMarks(7);
    expect(new Set(marks.map(m => m.colour)).size).toBe(7);
    for (let k = 1; k < marks.length; k++) expect(marks[k].symbol).not.toBe(marks[k - 1].symbol);
    expect(temperatureMarks(0)).toEqual([]);
    expect(temperatureMarks(1)).toHaveLength(1);
  });
});

describe("report of tests", () => {
  test("whole, for a table and for the terminal", () => {
    for (const shown of [tested, sigmoid]) {
      const page = stiffnessReport({name: "<mix>", shown}, context);
      const stray = /NaN|undefined|\[object|Infinity|<mix>/.exec(page);
      expect(stray && page.slice(stray.index - 80, stray.index + 40)).toBe(null);
      expect(page).toContain("<title>&lt;mix&gt;: master curve</title>");
      const table = plain(stiffnessTable({name: "<mix>", shown}, {width: 100, colour: false}));
      expect(table.split("\n").every(line => line.length <= 100)).toBe(true);
      expect(table).toMatch(/^<mix>\n<mix>: \|E\*\| of [\d,]+ MPa at 15 °C and 10 Hz\.\n/);
      // 10 °C and 10 Hz was measured between; after six hours it was not.
      const modulus = Math.round(modulusNorm(shown.curve, 10, 10) / 1e6).toLocaleString("en");
      expect(table).toMatch(new RegExp(`\\n10 °C +${modulus} +[\\d.]+° +[\\d.]+\\*`));
      expect(table.match(/°C +[\d.]+ Hz/g)).toHaveLength(36); // a line a reading
    }
  });
});

/** The invented life with a master curve in both courses of the overlay. */
function withCurve(shown: ShownCurve, change: Partial<StiffnessSource> = {}): LifeResult {
  const result = fixture();
  const point = (time: number, modulus: number) => ({time, temperature: 14.4, modulus});
  const curved = (material: Material, loadingFrequency: number): Material => ({
    ...material,
    modulus: Array.from({length: 121}, (_, k) => ({
      temperature: k - 40,
      modulus: modulusNorm(shown.curve, k - 40, loadingFrequency),
    })),
    relaxationModulus: 2.5e8,
    seasonalRelaxationModulus: 2.4e8,
    masterCurve: {
      ...shown,
      loadingFrequency,
      speed: 60 / 3.6,
      factor: 1,
      relaxation: {daily: point(21_600, 2.5e8), seasonal: point(7.2e6, 2.4e8)},
      ...change,
    },
  });
  const treatments = result.treatments.map(t => ({
    ...t,
    treatment: {
      ...t.treatment,
      section: {
        ...t.treatment.section,
        layers: t.treatment.section.layers.map((l, k) =>
          l.role === "overlay" ? {...l, material: curved(l.material, k === 0 ? 12.4 : 11.3)} : l,
        ),
      },
    },
  }));
  return {...result, treatments};
}

describe("report of a life with master curves", () => {
  const textOf = (result: LifeResult) => plain(lifeReport(result, context));

  test("figures, parameters, moduli by layer and relaxation moduli", () => {
    const text = textOf(withCurve(tested));
    for (const part of [
      "<h2>Stiffness of the asphalt</h2>",
      "Fitted to 36 readings of dense-asphalt.csv.",
      "Black diagram",
      "Cole-Cole diagram",
      "WLF, C₁ = ",
      "from a speed of 60 km/h and its mid-depth",
      "12.4 Hz",
      "11.3 Hz",
      "2,000 h (83 days)",
      "decades of reduced frequency below them",
      "master curve, fitted to dense-asphalt.csv",
      ">Seasons<",
    ])
      expect(text.includes(part), part).toBe(true);
    expect(text.match(/<h3>AC 16, 50\/70<\/h3>/g)).toHaveLength(1); // one curve, however many layers
    const numbers = [...text.matchAll(/<b>Figure (\d+)\.<\/b>/g)].map(m => Number(m[1]));
    expect(numbers).toEqual(numbers.map((_, i) => i + 1));
    const stray = /NaN|undefined|\[object|Infinity|∞(?!<)/.exec(text);
    expect(stray && text.slice(stray.index - 80, stray.index + 40)).toBe(null);
    expect(text).not.toContain("estimated from the mix");
  });

  test("a treated layer is told with its factor, a frequency that was given without a speed", () => {
    const text = textOf(withCurve(tested, {factor: 0.5, speed: null}));
    expect(text).toContain("Binder course, × 0.5");
    expect(text).toContain("at the loading frequency of each layer, which was given.");
  });

  test("a relaxation modulus that was given is not said to come from the curve", () => {
    expect(textOf(withCurve(tested, {relaxation: null}))).toContain(
      "was given as a number, 250 MPa, and not taken from",
    );
  });

  test("what is estimated is said where lives are shown, and in the inputs", () => {
    const text = textOf(withCurve(untested("estimate")));
    const caution = /<div class="caution"[\s\S]*?<\/div>/.exec(text)![0];
    expect(caution).toContain("The stiffness of AC 16, 50/70 was estimated from the mix and not measured");
    expect(text).toContain("master curve, estimated");
    expect(textOf(withCurve(untested("parameters")))).not.toContain("was estimated");
  });

  test("without a curve there is no such part", () => {
    expect(textOf(fixture())).not.toContain("Stiffness of the asphalt");
    expect(textOf(fixture())).not.toContain(">Seasons<");
  });
});

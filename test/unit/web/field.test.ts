import {parseHTML} from "linkedom";
import {expect, test} from "vitest";
import type {JointField} from "../../../src/engine/life/index.ts";
import {fieldCsv, fieldSvg} from "../../../src/web/views/wheel/fieldFiles.ts";
import {cornerValues, momentAt} from "../../../src/web/views/wheel/paint.ts";

/** Two cells side by side in one layer and one below them in another, three positions. */
function field(values: readonly number[]): JointField {
  const nine = Float32Array.from(values);
  const none = new Float32Array(9);
  return {
    x: Float64Array.of(0, 0.1, 0.2),
    z: Float64Array.of(0, 0.1, 0.2),
    layer: Int8Array.of(0, 0, 1, -1),
    positions: Float64Array.of(-1, 0, 1),
    cornerX: Float64Array.of(0, 0.1, 0.2, 0, 0.1, 0.2, 0, 0.1),
    cornerZ: Float64Array.of(0, 0, 0, 0.1, 0.1, 0.1, 0.2, 0.2),
    corners: Int32Array.of(0, 1, 4, 3, 1, 2, 5, 4, 3, 4, 7, 6, -1, -1, -1, -1),
    strainXx: nine,
    strainZz: none,
    shearXz: none,
    stressXx: none,
    stressZz: none,
    stressXz: none,
    largestStrain: none,
    u: new Float32Array(24),
    w: new Float32Array(24),
    tips: {interlayer: null, underside: null, surface: null},
    closedCracks: [[], [], []],
    warnings: [],
  };
}

// Four cells at three positions, in units of 1e-6; the fourth is the joint's gap.
const values = [1, 3, 5, 0, 2, 6, 10, 0, 4, 12, 20, 0].map(v => v * 1e-6);
const one = {...field(values), strainXx: Float32Array.from(values)};

test("between two positions of the axle everything is halfway", () => {
  const {values: half} = momentAt(one, "strainXx", -0.5);
  [1.5e-6, 4.5e-6, 7.5e-6].forEach((v, cell) => void expect(half[cell]).toBeCloseTo(v, 11));
});

test("beyond the positions the last one stays", () => {
  expect(momentAt(one, "strainXx", 7).values[0]).toBeCloseTo(4e-6, 11);
  expect(momentAt(one, "strainXx", -7).values[0]).toBeCloseTo(1e-6, 11);
});

test("colours are smooth within a layer and step between two", () => {
  const corners = cornerValues(one, momentAt(one, "strainXx", -1).values);
  // By hand: the corner that both cells of the upper layer share is their mean, 2; the cell below has its own value, 5.
  expect(corners[1]).toBeCloseTo(2e-6, 11);
  expect(corners[4]).toBeCloseTo(2e-6, 11);
  expect(corners[8]).toBeCloseTo(5e-6, 11);
});

test("numbers of cells with their units, the gap left out", () => {
  const lines = fieldCsv(one, 0).trimEnd().split("\r\n");
  expect(lines).toHaveLength(4);
  expect(lines[0]).toMatch(/^x_mm,depth_mm,strainXx_microstrain,/);
  expect(lines[1].split(",").slice(0, 3)).toEqual(["50", "50", "2"]);
});

const LAYERS = [
  {name: "surface", top: 0, bottom: 0.2},
  {name: "thin", top: 0.2, bottom: 0.21},
  {name: "another thin one", top: 0.21, bottom: 0.22}, // its name would lie on that of the one above
  {name: "base", top: 0.22, bottom: 0.6},
];

test("a picture that stands alone: all its numbers finite, its title and key escaped", () => {
  const svg = fieldSvg(
    {title: "A & B: strain", conditions: "Standard axle, 50 kN a wheel; no crack yet.", end: "10 µε"},
    {width: 200, height: 100, layers: LAYERS, bar: {length: 0.5, text: "0.5 m"}, patches: [{x: 0.05, length: 0.1}]},
    one,
    momentAt(one, "strainXx", 0),
    {scale: 100, sky: 10, magnified: 1, limit: 1e-5},
  );
  expect(svg).not.toContain("NaN");
  const {document} = parseHTML(svg);
  expect([...document.querySelectorAll("text")].map(t => t.textContent)).toEqual([
    "A & B: strain",
    "Standard axle, 50 kN a wheel; no crack yet.",
    "0.5 m",
    "surface",
    "thin",
    "base",
    "−10 µε",
    "10 µε",
  ]);
  expect(svg).toContain("A &amp; B");
  // Of a field that is drawn narrow the title and the key still are within the picture.
  const [left, , width] = document.querySelector("svg")!.getAttribute("viewBox")!.split(" ").map(Number);
  for (const text of document.querySelectorAll("text")) {
    const x = Number(text.getAttribute("x"));
    const size = 6 * text.textContent.length; // at 12 px a letter is narrower, in the mean
    const from = text.getAttribute("text-anchor") === "end" ? x - size : x;
    expect(from).toBeGreaterThanOrEqual(left);
    expect(from + size).toBeLessThanOrEqual(left + width);
  }
  expect(document.querySelectorAll("path").length).toBeGreaterThanOrEqual(3);
  expect([...document.querySelectorAll("line")].map(l => l.getAttribute("y1"))).toEqual([
    "30.0",
    "31.0",
    "32.0",
    "70.0",
  ]);
});

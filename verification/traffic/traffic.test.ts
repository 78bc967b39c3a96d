import {describe, test} from "vitest";
import {lifeOf, type Study} from "../../src/engine/life/index.ts";
import type {Section} from "../../src/engine/section/index.ts";
import {
  type LoadClass,
  passesPerCoverage,
  standardAxleEquivalence,
  type Wander,
  type Wheel,
} from "../../src/engine/traffic/index.ts";
import {road, study} from "../practice/sections.ts";
import {verificationTable} from "../table.ts";

const table = verificationTable(
  "traffic",
  "Traffic",
  `How channelised traffic is, what a pass of each load is worth, and spectra against loads computed one by one. Computed
equivalence is of one section and of reflection by traffic; the factors of the AASHO road test are of the loss of
serviceability of roads without a joint below: beside each other they show a like trend, and no agreement is due.`,
);

interface Track {
  readonly y: number; // [m]
  readonly width: number; // [m]
}

const passing = (tracks: readonly Track[], deviation: number): Pick<LoadClass, "wheels" | "wander"> => ({
  wheels: tracks.map(({y, width}): Wheel => ({x: 0, y, load: 1e5, length: 0.4, width})),
  wander: {kind: "normal", deviation},
});

describe("passes per coverage", () => {
  // Part of normal passes within a tyre's width about the most covered place; Φ by numerical integration elsewhere.
  const cases: [what: string, tracks: Track[], deviation: number, expected: number][] = [
    ["one tyre of 0.33 m", [{y: 0, width: 0.33}], 0.773, 5.916208],
    ["one tyre of 0.40 m", [{y: 0, width: 0.4}], 0.773, 4.898164],
    ["one tyre of 0.25 m", [{y: 0, width: 0.25}], 0.29, 2.997991],
    ["one tyre of 0.30 m", [{y: 0, width: 0.3}], 0.25, 2.21487],
    ["two tyres of 0.36 m, 0.86 m apart", [-0.43, 0.43].map(y => ({y, width: 0.36})), 0.773, 3.161089],
    ["two tyres of 0.22 m, 0.34 m apart", [-0.17, 0.17].map(y => ({y, width: 0.22})), 0.29, 1.992807],
  ];
  for (const [what, tracks, deviation, expected] of cases)
    test(what, () => {
      table.compare({
        name: `${what}, deviation ${deviation} m`,
        source: "normal distribution over the tyre's width (Brown & Thompson 1973, WES MP S-73-56)",
        standing: "derived",
        unit: "–",
        expected,
        computed: passesPerCoverage(passing(tracks, deviation)),
        tolerance: 2e-5, // the places looked at are 2 % of a tyre apart
      });
    });
  test("even spread", () => {
    const wander: Wander = {kind: "uniform", width: 2};
    table.compare({
      name: "one tyre of 0.4 m, passes spread evenly over 2 m",
      source: "2 ÷ 0.4",
      standing: "derived",
      unit: "–",
      expected: 5,
      computed: passesPerCoverage({...passing([{y: 0, width: 0.4}], 0), wander}),
      tolerance: 1e-12,
    });
  });
});

const KIP = 4448.2216; // [N]

/** Single, tandem … axles with dual tyres on patches that stay, 20 kN a tyre at 0.7 MPa being the usual. */
function axles(load: number, lines: number, more: Partial<LoadClass> = {}): LoadClass {
  const xs = Array.from({length: lines}, (_, k) => (k - (lines - 1) / 2) * 1.35);
  const wheels = xs.flatMap(x =>
    [-1.07, -0.73, 0.73, 1.07].map((y): Wheel => ({x, y, load: load / (4 * lines), length: 0.19, width: 0.15})),
  );
  const name = `${lines} × ${(load / 1e3).toFixed(0)} kN`;
  const wander: Wander = {kind: "normal", deviation: 0.25};
  return {name, group: `${lines} lines`, wheels, passesPerYear: 1e5, growth: 0, wander, ...more};
}

function withClasses(sections: readonly Section[], classes: readonly LoadClass[]): Study {
  const one = study(sections, classes[0], null);
  return {...one, traffic: {...one.traffic, classes, standardAxle: axles(80e3, 1)}, accuracy: 0.05};
}

const plain = [road(0.06, false, null)];
const tough = [road(0.06, false, {thickness: 0.01, added: false, toughness: 300})];
const passesOf = (s: Study): number =>
  lifeOf(s).treatments[0].histories.find(h => h.scenario === "traffic")!.life.passes;

describe("spectra", () => {
  test("load and life", () => {
    table.heading("Loads on the same wheels, computed once and one by one");
    const [light, heavy] = [axles(80e3, 1), axles(120e3, 1)];
    const lives = [light, heavy].map(one => passesOf(withClasses(plain, [one])));
    table.compare({
      name: "passes to failure, 80 kN ÷ 120 kN, each a study of its own, n = 4",
      source: "1.5⁴: strain goes with load, contact and closure with signs alone",
      standing: "derived",
      unit: "–",
      expected: 1.5 ** 4,
      computed: lives[0] / lives[1],
      tolerance: 1e-3, // step control of the integration
    });
    const mixed = lifeOf(withClasses(plain, [light, heavy])).treatments[0].equivalence!;
    table.compare({
      name: "factor of 120 kN in a spectrum of both, in passes of 80 kN",
      source: "the two studies above",
      standing: "derived",
      unit: "–",
      expected: lives[0] / lives[1],
      computed: mixed.classes[1].factor / mixed.classes[0].factor,
      tolerance: 1e-3,
    });
  });

  test("laws of different exponents along the path", () => {
    const [section] = tough;
    const layers = section.layers.map(l => {
      const {growth} = l.material;
      // The same rate at 2000 µε, another exponent.
      const coefficient = growth && growth.coefficient * 2e-3 ** (4 - 5);
      const law = l.role === "interlayer" && growth ? {...growth, exponent: 5, coefficient: coefficient!} : growth;
      return {...l, material: {...l.material, growth: law}};
    });
    const mixed = [{...section, layers}];
    const classes = [axles(80e3, 1), axles(110e3, 1)];
    const alone = classes.map(one => passesOf(withClasses(mixed, [one])));
    const both = lifeOf(withClasses(mixed, classes)).treatments[0].equivalence!;
    table.compare({
      name: "factor of 110 kN through an interlayer of n = 5 under an overlay of n = 4",
      source: "each load in a study of its own",
      standing: "derived",
      unit: "–",
      expected: alone[0] / alone[1],
      computed: both.classes[1].factor / both.classes[0].factor,
      tolerance: 2e-3,
    });
  });

  test("Miner's sum of a spectrum", () => {
    const loads = [60e3, 80e3, 100e3, 115e3, 130e3];
    const counts = [40e3, 30e3, 20e3, 8e3, 2e3];
    const classes = loads.map((load, k) => axles(load, 1, {passesPerYear: counts[k]}));
    const result = lifeOf(withClasses(plain, classes)).treatments[0];
    const miner = 1 / result.equivalence!.classes.reduce((sum, c) => sum + c.passesPerYear / c.passesToFailure, 0);
    table.compare({
      name: "life under five loads at once",
      source: "Miner's sum of the five alone, which is exact for one exponent and the same wheels",
      standing: "derived",
      unit: "years",
      expected: miner,
      computed: result.histories.find(h => h.scenario === "traffic")!.life.years,
      tolerance: 1e-3,
    });
  });
});

/** AASHTO 1986/93 factor of flexible pavement at terminal serviceability 2.5; the equations from memory, values derived. */
describe("equivalence", () => {
  test("beside the AASHO road test", () => {
    table.heading("Equivalence to an 18 kip (80 kN) single axle: 60 mm on a cracked cemented base, n = 4");
    const flexible: [kips: number, lines: number, factor: number][] = [
      [10, 1, 0.0876852883],
      [22, 1, 2.1819037851],
      [30, 1, 6.9707314032],
      [34, 2, 1.0947332088],
      [44, 2, 3.0012998995],
    ];
    const classes = [axles(18 * KIP, 1), ...flexible.map(([kips, lines]) => axles(kips * KIP, lines))];
    const computed = lifeOf(withClasses(plain, classes)).treatments[0].equivalence!.classes;
    flexible.forEach(([kips, lines, factor], k) => {
      table.between({
        name: `${kips} kip ${lines === 1 ? "single" : "tandem"} axle; AASHTO 1993, SN 5: ${factor.toFixed(3)}`,
        source: "within a factor of two of AASHTO's",
        standing: "practice",
        unit: "–",
        computed: computed[k + 1].factor / computed[0].factor,
        low: factor / 2,
        high: factor * 2,
      });
    });
  });

  test("wear factors of whole vehicles by the fourth power", () => {
    // UK Parliament, Hansard, 3 February 1993 (read): 17 t two-axle rigid 3.14 standard 80 kN axles. Axle loads assumed.
    const standard = axles(80e3, 1);
    const tonne = 9806.65;
    const vehicle = [6.5, 10.5].reduce((sum, t) => sum + standardAxleEquivalence(axles(t * tonne, 1), standard), 0);
    table.between({
      name: "17 t on two axles, 6.5 and 10.5 t (split assumed); published 3.14",
      source: "Hansard 1993-02-03, written answers; ±10 % for the split",
      standing: "read",
      unit: "80 kN axles",
      computed: vehicle,
      low: 2.83,
      high: 3.45,
    });
  });
});

table.page();

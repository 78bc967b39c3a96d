import {describe, expect, test} from "vitest";
import {equivalentIntensity, growthCoefficient, rainflowDamage, tipStrain} from "../../src/engine/crack/index.ts";
import {integrateFronts} from "../../src/engine/life/index.ts";
import {growthFactor, type LoadClass, standardAxleEquivalence} from "../../src/engine/traffic/index.ts";
import {verificationTable} from "../table.ts";

const table = verificationTable(
  "growth",
  "Crack growth, traffic sums",
  "The growth law integrated in time against its closed form, conversions, and the sums by which traffic is told.",
);

/** Years until a crack that starts at `from` has reached `to`, dc/dt = rate(c). */
function timeToGrow(from: number, to: number, rate: (c: number) => number): number {
  const path = integrateFronts({
    overlayThickness: (to - from) / 0.995, // fronts within a two-hundredth of the overlay have met
    interlayerThickness: 0,
    horizon: 1e12,
    rates: (_years, [, underside], out) => {
      out.fill(0);
      out[1] = rate(from + underside);
    },
  });
  expect(path.failed).toBe(true);
  return path.years[path.years.length - 1];
}

describe("growth law", () => {
  test("Paris' law from 5 to 50 mm against its closed form", () => {
    // N = [c₁^(1−n/2) − c₂^(1−n/2)] / [A·(F·Δσ·√π)^n·(n/2 − 1)]; F 1.1215, Δσ 0.5 MPa, A 1e-7 mm per (MPa√mm)^n.
    const closed: [number, number][] = [
      [2, 23309193.7329],
      [3, 6229078.4296],
      [4, 1844572.0798],
      [5, 595356.6481],
    ];
    for (const [n, expected] of closed) {
      // In mm and cycles; the integrator does not mind what a "year" is.
      const scale = 1e-3; // keeps lengths in its usual range: metres
      const rate = (c: number): number => scale * 1e-7 * (1.1215 * 0.5 * Math.sqrt((Math.PI * c) / scale)) ** n;
      table.compare({
        name: `cycles from 5 to 50 mm, n = ${n}`,
        source: "Paris & Erdogan 1963, integrated in closed form",
        standing: "derived",
        unit: "cycles",
        expected,
        computed: timeToGrow(5e-3, 50e-3, rate),
        tolerance: 1e-3,
      });
    }
  });

  test("constant driving: c = A·ε^n·N", () => {
    const law = {
      coefficient: 7e-16 * 1e-3 * 1e24,
      exponent: 4,
      zoneLength: 0.01,
      referenceModulus: null,
      stiffnessExponent: 0,
    };
    const strain = 300e-6;
    const perCycle = growthCoefficient(law, 4e9) * strain ** law.exponent;
    table.compare({
      name: "cycles through 80 mm at 300 µε, A = 7e-16, n = 4",
      source: "80/(7e-16·300⁴)",
      standing: "derived",
      unit: "cycles",
      expected: 80 / (7e-16 * 300 ** 4),
      computed: timeToGrow(0, 0.08, () => perCycle),
      tolerance: 1e-9,
    });
  });

  test("a law in tip strain is Paris' law in K: A_ε = A_K·(E'·√(πd/2))^n", () => {
    // 3500 MPa, ν 0.35, d = 10 mm: one microstrain stands for 3989 MPa·√(π·10/2 mm)·1e-6 = 0.01581 MPa√mm.
    const K = equivalentIntensity(1e-6, 3.5e9 / (1 - 0.35 ** 2), 0.01);
    table.compare({
      name: "K of 1 µε at 3,500 MPa, d = 10 mm",
      source: "Taylor 2007, line method: K = ε·E'·√(πd/2)",
      standing: "derived",
      unit: "MPa√mm",
      expected: (3500 / (1 - 0.35 ** 2)) * Math.sqrt((Math.PI * 10) / 2) * 1e-6,
      computed: K / (1e6 * Math.sqrt(1e-3)),
      tolerance: 1e-12,
    });
  });

  test("modes add as energy release rates", () => {
    // G = (K_I² + K_II²)/E' + K_III²/(2μ); K_III²/(2μ) = K_III²·(1+ν)/E = (K_III²/(1−ν))/E'.
    const [I, II, III, E, nu] = [1.2e6, 0.8e6, 0.5e6, 3e9, 0.35];
    const G = ((I * I + II * II) * (1 - nu * nu)) / E + (III * III * (1 + nu)) / E;
    table.compare({
      name: "tip strain of mixed modes, as √(G/E')",
      source: "Irwin 1957: energy release rates of the three modes add",
      standing: "derived",
      unit: "–",
      expected: Math.sqrt((G * (1 - nu * nu)) / E),
      computed: tipStrain(
        {opening: I, shearXZ: II, shearXY: III},
        {planeStrainModulus: E / (1 - nu * nu), poisson: nu},
        1,
      ),
      tolerance: 1e-12,
    });
  });
});

describe("traffic", () => {
  const axle = (load: number): LoadClass => ({
    name: "axle",
    wheels: [-1, 1].map(y => ({x: 0, y, load: load / 2, length: 0.3, width: 0.2})),
    passesPerYear: 1,
    growth: 0,
    group: null,
    wander: {kind: "normal", deviation: 0},
  });
  test("fourth power", () => {
    for (const [load, expected] of [
      [100e3, 2.44140625],
      [120e3, 5.0625],
      [130e3, 6.9729003906],
    ]) {
      table.compare({
        name: `axle of ${load / 1e3} kN in axles of 80 kN`,
        source: "(P/80)⁴",
        standing: "derived",
        unit: "–",
        expected,
        computed: standardAxleEquivalence(axle(load), axle(80e3)),
        tolerance: 1e-9,
      });
    }
    // With n = 4 the growth of a pass follows the fourth power of the load, whatever the shape of the pass.
    const pass = Float64Array.of(0, 1, 0.2, 0.9, 0);
    const stack = new Float64Array(5);
    table.compare({
      name: "growth of a pass at 1.5 times the load, n = 4",
      source: "1.5⁴",
      standing: "derived",
      unit: "–",
      expected: 5.0625,
      computed:
        rainflowDamage(
          pass.map(v => 1.5 * v),
          5,
          4,
          stack,
        ) / rainflowDamage(pass, 5, 4, stack),
      tolerance: 1e-12,
    });
  });

  test("growth factors", () => {
    // Published for yearly steps, ((1+g)^n − 1)/g; growing continuously it is larger by g/ln(1+g).
    for (const [g, years, yearly] of [
      [0.02, 20, 24.2973698],
      [0.04, 10, 12.00610712],
      [0.03, 40, 75.40125973],
    ]) {
      table.compare({
        name: `growth ${100 * g} % over ${years} years`,
        source: "((1+g)ⁿ − 1)/g, times g/ln(1+g)",
        standing: "derived",
        unit: "years",
        expected: (yearly * g) / Math.log(1 + g),
        computed: growthFactor(years, g, years),
        tolerance: 1e-8,
      });
    }
  });
});

table.page();

import {beforeAll, describe, expect, test} from "vitest";
import {closureMaps} from "../../../src/engine/life/closure.ts";
import {laneOf, wanderOver} from "../../../src/engine/life/lane.ts";
import {type CrackRules, passAdvance, tipLaws} from "../../../src/engine/life/passes.ts";
import {passPlan, patchesOf} from "../../../src/engine/life/passPlan.ts";
import {
  type Condition,
  type Geometry,
  type ResponseTables,
  respond,
  responseGeometry,
  type StateSpace,
  tipLayers,
} from "../../../src/engine/response/index.ts";
import type {Layer, LayerRole, Section} from "../../../src/engine/section/index.ts";
import type {LoadClass, Traffic, Wander, Wheel} from "../../../src/engine/traffic/index.ts";

const layer = (role: LayerRole, modulus: number, thickness: number): Layer => ({
  name: role,
  role,
  thickness,
  material: {
    name: role,
    modulus: [{temperature: 15, modulus}],
    relaxationModulus: modulus,
    seasonalRelaxationModulus: modulus,
    masterCurve: null,
    poisson: 0.3,
    expansion: 1e-5,
    conductivity: 1,
    density: 2000,
    heatCapacity: 900,
    growth: {coefficient: 1, exponent: 3, zoneLength: 0.01, referenceModulus: null, stiffnessExponent: 0},
    fatigue: null,
    source: "",
  },
});

const section: Section = {
  layers: [layer("overlay", 3e9, 0.05), layer("jointed", 8e9, 0.2), layer("foundation", 1e8, 1)],
  joint: {
    spacing: 3,
    width: 0,
    unbondedStrip: 0,
    transfer: {kind: "spring", stiffness: 0},
    facesTouch: true,
    cutDepth: 0.2,
  },
  slabFriction: Number.POSITIVE_INFINITY,
  base: {kind: "rigid"},
  crackInterlock: 0,
  shearWeight: 1,
};

const NORMAL: Wander = {kind: "normal", deviation: 0.25};

const wheel = (x: number, y: number, load = 40e3): Wheel => ({x, y, load, length: 0.24, width: 0.24});
const group = (...wheels: Wheel[]): LoadClass => ({
  name: "group",
  wheels,
  passesPerYear: 1,
  growth: 0,
  group: null,
  wander: {kind: "normal", deviation: 0.25},
});
const traffic = (c: LoadClass): Traffic => ({
  classes: [c],
  standardAxle: c,
  calendar: {hours: null, months: null},
});

describe("a pass of wheels over the joint", () => {
  const single = group(wheel(0, 0));
  let tables: ResponseTables;
  let space: StateSpace;
  let geometry: Geometry;
  let condition: Condition;
  let rules: CrackRules;
  let pass: (c: LoadClass, lane?: ReturnType<typeof laneOf>) => ReturnType<typeof passAdvance>;

  beforeAll(() => {
    geometry = responseGeometry(section, {accuracy: 0.04, reach: 4});
    const moduli = section.layers.map(l => l.material.modulus[0].modulus);
    condition = {moduli, transfer: 0};
    tables = respond(geometry, condition, patchesOf(traffic(single), 4));
    const {model} = geometry.meshes[1];
    space = geometry.meshes[1].space;
    const laws = tipLaws(section, moduli, tipLayers(model, space));
    rules = {maps: closureMaps(space), laws, shearWeight: section.shearWeight, further: []};
    pass = (c, lane = laneOf(traffic(c))) => passAdvance(passPlan(c, tables, lane), tables, rules);
  });

  test("doubling the load multiplies the advance by 2ⁿ: contact and closure do not depend on the load", () => {
    const lane = laneOf(traffic(single));
    const one = pass(single, lane).advance;
    const two = pass(group(wheel(0, 0, 80e3)), lane).advance;
    one.forEach((a, k) => {
      expect(two[k]).toBeCloseTo(8 * a, 9 + Math.max(0, -Math.floor(Math.log10(a + 1e-300))));
    });
  });

  test("twice as many wheel positions hardly change the advance: extremes between points of the pass are found", () => {
    const two = group(wheel(-0.45, 0), wheel(0.45, 0)); // points of one axle miss what the other does half-way
    const lane = laneOf(traffic(two));
    const sum = (values: Float64Array): number => values.reduce((s, v) => s + v, 0);
    const patches = patchesOf(traffic(two), 4).map(({length, centres}) => ({
      length,
      centres: Float64Array.from({length: 2 * centres.length - 1}, (_, k) =>
        k % 2 ? (centres[(k - 1) / 2] + centres[(k + 1) / 2]) / 2 : centres[k / 2],
      ),
    }));
    const finer = respond(geometry, condition, patches);
    const dense = passAdvance(passPlan(two, finer, lane), finer, rules);
    const ratio = sum(pass(two, lane).advance) / sum(dense.advance);
    expect(Math.abs(ratio - 1)).toBeLessThan(0.02); // 1.012; 0.921 with extremes taken where the points are
  });

  test("axles far apart are two passes", () => {
    const lane = laneOf(traffic(single));
    const one = pass(single, lane);
    const two = pass(group(wheel(0, 0), wheel(-7, 0)), lane);
    const sum = (values: Float64Array): number => values.reduce((s, v) => s + v, 0);
    expect(sum(two.advance) / sum(one.advance)).toBeCloseTo(2, 2);
  });

  test("a lane described in full gives what its mirrored half gives", () => {
    const half = laneOf(traffic(single));
    expect(half.mirrored).toBe(true);
    const y = Float64Array.from(
      {length: 2 * half.y.length - 1},
      (_, k) => Math.sign(k - half.y.length + 1) * half.y[Math.abs(k - half.y.length + 1)],
    );
    const full = {y, mirrored: false};
    const rows = tables.states * 3;
    const a = wanderOver(half, NORMAL, rows, pass(single, half).advance);
    const b = wanderOver(full, NORMAL, rows, pass(single, full).advance);
    const [na, nb] = [half.y.length, y.length];
    for (let r = 0; r < rows; r++) {
      for (let i = 0; i < na; i++) expect(b[r * nb + na - 1 + i]).toBeCloseTo(a[r * na + i], 12);
    }
  });

  test("fronts near each other are strained more than far apart", () => {
    const {peak} = pass(single);
    const last = space.underside.length - 1;
    const near = space.index(0, last - 1, 0);
    const far = space.index(0, 1, 0);
    expect(peak[near * 3 + 1]).toBeGreaterThan(peak[far * 3 + 1]);
    expect(peak[near * 3 + 2]).toBeGreaterThan(peak[far * 3 + 2]);
  });
});

describe("wander", () => {
  const lane = {y: Float64Array.from({length: 81}, (_, k) => (k - 40) * 0.05), mirrored: false};
  test("spreads a pass without losing any of it", () => {
    const values = new Float64Array(81);
    values[40] = 1;
    const out = wanderOver(lane, NORMAL, 1, values);
    expect(out.reduce((s, v) => s + v, 0)).toBeCloseTo(1, 6);
    // Part of a normal distribution within a tenth of its deviation, 2·Φ(0.1) − 1; Abramowitz & Stegun, Table 26.1.
    expect(out[40]).toBeCloseTo(0.079655674554, 10);
  });
  test("none leaves it as it is", () => {
    const values = Float64Array.from({length: 81}, (_, k) => k);
    expect(wanderOver(lane, {kind: "normal", deviation: 0}, 1, values)).toBe(values);
  });
});

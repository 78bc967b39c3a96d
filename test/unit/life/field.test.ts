import {describe, expect, test} from "vitest";
import {Cancelled, InputError} from "../../../src/engine/errors.ts";
import {type FieldRequest, fieldAround, type JointField, usualPositions} from "../../../src/engine/life/field.ts";
import {axlePlan} from "../../../src/engine/life/fieldLoads.ts";
import {wavenumbers} from "../../../src/engine/response/index.ts";
import type {Wheel} from "../../../src/engine/traffic/index.ts";
import {section} from "../section/fixture.ts";

const wheel = (x: number, y = 0, load = 40e3): Wheel => ({x, y, load, length: 0.2, width: 0.2});
const WAVES = wavenumbers(6, 1.5, 100);

function request(change: Partial<FieldRequest> = {}): FieldRequest {
  const own = section({slabFriction: 1e9}, {cutDepth: 0});
  return {
    section: own,
    moduli: own.layers.map(l => l.material.modulus[0].modulus),
    transfer: 1e8,
    cracks: {interlayer: 0, underside: 0, surface: 0},
    wheels: [wheel(0)],
    y: 0,
    positions: Float64Array.of(-0.2, 0, 0.2),
    view: {halfWidth: 0.2, depth: 0.3},
    size: "usual",
    ...change,
  };
}

const FIELDS = ["strainXx", "strainZz", "shearXz", "stressXx", "stressZz", "stressXz", "u", "w"] as const;

function at(field: JointField, name: (typeof FIELDS)[number], position: number): Float32Array {
  const size = field[name].length / field.positions.length;
  return field[name].subarray(position * size, (position + 1) * size);
}

describe("the axle's places", () => {
  test("positions that mirror each other are solved once", () => {
    const plan = axlePlan([wheel(0)], 0, Float64Array.of(-0.5, -0.1, 0, 0.1, 0.5), WAVES);
    expect(plan.places.length).toBe(3);
    expect(plan.positions.map(p => p.side)).toEqual([1, 1, 1, -1, -1]);
    expect(plan.patches[0].centres).toEqual(Float64Array.of(0, 0.1, 0.5));
  });

  test("an axle group whose axles differ is no mirror image of itself", () => {
    const alike = axlePlan([wheel(-0.6), wheel(0.6)], 0, Float64Array.of(-0.3, 0.3), WAVES);
    const uneven = axlePlan([wheel(-0.6), wheel(0.6, 0, 20e3)], 0, Float64Array.of(-0.3, 0.3), WAVES);
    expect(alike.places.length).toBe(1);
    expect(uneven.places.length).toBe(2);
  });

  test("wheels one beside the other are one row", () => {
    const plan = axlePlan([wheel(0, -0.2), wheel(0, 0.2), wheel(1.2)], 0.2, Float64Array.of(0), WAVES);
    expect(plan.rows.map(r => r.x)).toEqual([0, 1.2]);
  });
});

test("two axles are the sum of one at their places, nothing touching", () => {
  // The joint is open and nothing is cut below it: what is left is linear.
  const both = fieldAround(request({wheels: [wheel(-0.6), wheel(0.6, 0.1)], positions: Float64Array.of(0.5)}));
  const first = fieldAround(request({wheels: [wheel(0)], positions: Float64Array.of(-0.1)}));
  const second = fieldAround(request({wheels: [wheel(0, 0.1)], positions: Float64Array.of(1.1)}));
  for (const name of FIELDS) {
    const [sum, a, b] = [both, first, second].map(f => at(f, name, 0));
    const largest = sum.reduce((most, v) => Math.max(most, Math.abs(v)), 0);
    expect(a.length).toBe(sum.length);
    // Each of the sum's parts is told in single precision, strains of thin cells from the difference of larger movements.
    sum.forEach((v, k) => {
      expect(Math.abs(v - a[k] - b[k]) / largest).toBeLessThan(1e-6);
    });
  }
});

test("a wheel before the joint is the mirror image of one behind it", () => {
  const field = fieldAround(request());
  const columns = field.x.length - 1;
  const [before, behind] = [0, 2].map(p => at(field, "shearXz", p));
  before.forEach((v, cell) => {
    const image = cell - (cell % columns) + columns - 1 - (cell % columns);
    expect(v + behind[image]).toBe(0);
  });
  const half = field.cornerX.length / 2;
  const [u0, u1] = [0, 2].map(p => at(field, "u", p));
  for (let k = 0; k < half; k++) expect(u0[k] + u1[half + k]).toBe(0);
  const under = field.cornerX.findIndex((x, k) => k < half && Math.abs(x - 0.2) < 1e-9 && field.cornerZ[k] === 0);
  const w = at(field, "w", 0);
  expect(w[half + under]).toBeGreaterThan(1.05 * w[under]); // the wheel's own side goes down further
  expect(field.tips.interlayer!.shear[0]).toBe(-field.tips.interlayer!.shear[2]);
});

test("strains follow the corners' movements", () => {
  const field = fieldAround(request());
  const w = at(field, "w", 2);
  const u = at(field, "u", 2);
  const strain = at(field, "strainZz", 2);
  const along = at(field, "strainXx", 2);
  const largest = (values: Float32Array): number => values.reduce((most, v) => Math.max(most, Math.abs(v)), 0);
  const columns = field.x.length - 1;
  field.layer.forEach((layer, cell) => {
    if (layer < 0) return;
    const [a, b, c, d] = field.corners.subarray(4 * cell, 4 * cell + 4);
    const dx = field.x[(cell % columns) + 1] - field.x[cell % columns];
    const row = Math.floor(cell / columns);
    const dz = field.z[row + 1] - field.z[row];
    if (dx < 0.015 || dz < 0.005) return; // at the joint's corner strains change within a cell
    const mean = (w[c] + w[d] - w[a] - w[b]) / 2 / dz;
    // By the trapezoidal rule along the cell's sides, and from movements in single precision.
    expect(Math.abs(mean - strain[cell]) / largest(strain)).toBeLessThan(0.1);
    expect(Math.abs((u[b] + u[c] - u[a] - u[d]) / 2 / dx - along[cell]) / largest(along)).toBeLessThan(0.1);
  });
});

test("a crack parts the two sides, a whole overlay does not", () => {
  const gap = (cracks: FieldRequest["cracks"]): number => {
    const field = fieldAround(request({cracks}));
    const half = field.cornerX.length / 2;
    const top = field.cornerX.findIndex((x, k) => k < half && x === 0 && Math.abs(field.cornerZ[k] - 0.079) < 3e-3);
    const w = at(field, "w", 2);
    return Math.abs(w[top] - w[half + top]);
  };
  expect(gap({interlayer: 0, underside: 0, surface: 0})).toBe(0);
  expect(gap({interlayer: 0.01, underside: 0.04, surface: 0})).toBeGreaterThan(1e-6);
});

test("usual positions are alike on both sides and closer together at the joint", () => {
  const x = usualPositions();
  expect(x.length).toBe(33);
  expect([x[0], x[16], x[32]]).toEqual([-1.5, 0, 1.5]);
  for (let k = 0; k < 33; k++) expect(x[k] + x[32 - k]).toBe(0);
  expect(x[17] - x[16]).toBeLessThan((x[32] - x[31]) / 4);
});

test("what cannot be is told, and it can be stopped", () => {
  expect(() => fieldAround(request({wheels: []}))).toThrow(InputError);
  expect(() => fieldAround(request({positions: new Float64Array(0)}))).toThrow(InputError);
  expect(() => fieldAround(request({moduli: [1e9]}))).toThrow(InputError);
  expect(() => fieldAround(request({cracks: {interlayer: 0.02, underside: 0, surface: 0}}))).toThrow(InputError);
  expect(() => fieldAround(request({view: {halfWidth: 0, depth: 0.3}}))).toThrow(InputError);
  expect(() => fieldAround(request(), part => part < 0.3)).toThrow(Cancelled);
});

import {expect, test} from "vitest";
import {elementStiffness, initialStrainLoad, lame, sideSpring} from "../../../src/engine/response/element.ts";
import {buildGrid, type Contact, type Grid} from "../../../src/engine/section/index.ts";

const X = Float64Array.of(0, 0.3, 1.0, 1.2);
const Z = Float64Array.of(0, 0.5, 0.6, 1.1);
const STEEL = lame(200, 0.3);

function body(acrossRow: Contact = "whole", acrossColumn: Contact = "whole"): Grid {
  return buildGrid({
    x: X,
    z: Z,
    present: () => true,
    acrossColumn: column => (column === 1 ? acrossColumn : "whole"),
    acrossRow: (_, row) => (row === 1 ? acrossRow : "whole"),
    held: () => false,
  });
}

type Field = (x: number, z: number, side: {right: boolean; lower: boolean}) => readonly [number, number, number];
const NODE_X = [0, 1, 1, 0, 0.5, 1, 0.5, 0];
const NODE_Z = [0, 0, 1, 1, 0, 0.5, 1, 0.5];

/** K·u for a displacement field sampled at the nodes, and each unknown's place: on the outside of the body or not. */
function forces(grid: Grid, beta: number, field: Field): {force: Float64Array; u: Float64Array; outside: boolean[]} {
  const u = new Float64Array(grid.unknownCount);
  const force = new Float64Array(grid.unknownCount);
  const outside = new Array<boolean>(grid.unknownCount).fill(false);
  const K = new Float64Array(24 * 24);
  const visit = (f: (unknowns: Int32Array, column: number, row: number) => void) => {
    for (const e of grid.elements) f(e.unknowns, e.column, e.row);
  };
  visit((unknowns, column, row) => {
    for (let n = 0; n < 8; n++) {
      const x = X[column] + NODE_X[n] * (X[column + 1] - X[column]);
      const z = Z[row] + NODE_Z[n] * (Z[row + 1] - Z[row]);
      field(x, z, {right: column >= 1, lower: row >= 1}).forEach((value, c) => {
        u[unknowns[3 * n + c]] = value;
        outside[unknowns[3 * n + c]] = x === 0 || z === 0 || x === X[3] || z === Z[3];
      });
    }
  });
  visit((unknowns, column, row) => {
    elementStiffness(X[column + 1] - X[column], Z[row + 1] - Z[row], STEEL, beta, K);
    for (let i = 0; i < 24; i++)
      for (let j = 0; j < 24; j++) force[unknowns[i]] += K[24 * Math.max(i, j) + Math.min(i, j)] * u[unknowns[j]];
  });
  return {force, u, outside};
}

const AREA = X[3] * Z[3];
const work = ({force, u}: {force: Float64Array; u: Float64Array}): number =>
  force.reduce((sum, f, k) => sum + f * u[k], 0);

test("patch test: constant strain needs no force inside, and has its exact energy", () => {
  // εx = 2, εz = −1, γxz = 0.5 + 0.3: ∫σ·ε = (λ·1² + 2μ·(4 + 1) + μ·0.8²)·area
  const result = forces(body(), 0, (x, z) => [1 + 2 * x + 0.5 * z, 0, 3 + 0.3 * x - z]);
  result.force.forEach((f, k) => {
    if (!result.outside[k]) expect(Math.abs(f)).toBeLessThan(1e-11);
  });
  expect(work(result)).toBeCloseTo((STEEL.lambda + 10 * STEEL.mu + 0.64 * STEEL.mu) * AREA, 9);
});

test("patch test out of plane: γxy and γyz constant", () => {
  const result = forces(body(), 0, (x, z) => [0, 0.4 * x - 0.7 * z, 0]);
  result.force.forEach((f, k) => {
    if (!result.outside[k]) expect(Math.abs(f)).toBeLessThan(1e-11);
  });
  expect(work(result)).toBeCloseTo(STEEL.mu * (0.16 + 0.49) * AREA, 10);
});

test("rigid bodies have no energy: translations, rotation", () => {
  for (const field of [
    () => [1, 0, 0] as const,
    () => [0, 1, 0] as const,
    () => [0, 0, 1] as const,
    (x: number, z: number) => [z, 0, -x] as const,
  ]) {
    for (const f of forces(body(), 0, field).force) expect(Math.abs(f)).toBeLessThan(1e-11);
  }
});

test("pure bending is exact: quadratic fields are in the element", () => {
  // Plane strain, σx = E'κz alone: εx = κz, εz = −ν/(1−ν)·κz, u = κxz, w = −κ(x² + ν/(1−ν)·z²)/2; energy E'κ²∫z².
  const ratio = 0.3 / 0.7;
  const result = forces(body(), 0, (x, z) => [x * z, 0, -(x * x + ratio * z * z) / 2]);
  result.force.forEach((f, k) => {
    if (!result.outside[k]) expect(Math.abs(f)).toBeLessThan(1e-10);
  });
  expect(work(result)).toBeCloseTo(((200 / 0.91) * X[3] * Z[3] ** 3) / 3, 8);
});

test("bodies slide along a row and part along a row or a column without force", () => {
  const slide: Field = (_x, _z, {lower}) => (lower ? [5, -3, 1] : [0, 0, 1]);
  for (const f of forces(body("sliding"), 0, slide).force) expect(Math.abs(f)).toBeLessThan(1e-10);
  const part: Field = (_x, _z, {lower}) => (lower ? [5, -3, 2] : [0, 0, 1]);
  for (const f of forces(body("parted"), 0, part).force) expect(Math.abs(f)).toBeLessThan(1e-10);
  const open: Field = (_x, _z, {right}) => (right ? [1, 2, 3] : [0, 0, 0]);
  for (const f of forces(body("whole", "parted"), 0, open).force) expect(Math.abs(f)).toBeLessThan(1e-10);
  expect(Math.max(...forces(body(), 0, open).force.map(Math.abs))).toBeGreaterThan(1);
});

test("along y: energies of uniform amplitudes and of the coupling with x and z", () => {
  const beta = 1.7;
  const m = STEEL.lambda + 2 * STEEL.mu;
  // u = cos βy alone: γxy = −β sin βy. v = sin βy: εy = β cos βy. w = cos βy: γyz = −β sin βy.
  expect(work(forces(body(), beta, () => [1, 0, 0]))).toBeCloseTo(STEEL.mu * beta ** 2 * AREA, 9);
  expect(work(forces(body(), beta, () => [0, 1, 0]))).toBeCloseTo(m * beta ** 2 * AREA, 9);
  expect(work(forces(body(), beta, () => [0, 0, 1]))).toBeCloseTo(STEEL.mu * beta ** 2 * AREA, 9);
  // U = x, V = 1, W = −z: εx = 1, εy = β, εz = −1 (times cos), γxy = −βx, γyz = βz (times sin): all terms and their signs.
  const shear = STEEL.mu * beta ** 2 * ((Z[3] * X[3] ** 3) / 3 + (X[3] * Z[3] ** 3) / 3);
  const normal = (STEEL.lambda * beta ** 2 + 2 * STEEL.mu * (2 + beta ** 2)) * AREA;
  expect(work(forces(body(), beta, (x, z) => [x, 1, -z]))).toBeCloseTo(normal + shear, 9);
  // V = x·z: γxy = z, γyz = x with U = W = 0; εy = βxz.
  const linear =
    STEEL.mu * ((X[3] * Z[3] ** 3) / 3 + (Z[3] * X[3] ** 3) / 3) + (m * beta ** 2 * (X[3] * Z[3]) ** 3) / 9;
  expect(work(forces(body(), beta, (x, z) => [0, x * z, 0]))).toBeCloseTo(linear, 9);
  // U = z, V = x: γxz = 1, εy = βx, γxy = 1 − βz. W = x, V = z: γxz = 1, εy = βz, γyz = 1 − βx.
  const sheared = (along: number, across: number): number =>
    (m * beta ** 2 * across * along ** 3) / 3 +
    STEEL.mu * AREA +
    STEEL.mu * along * (across - beta * across ** 2 + (beta ** 2 * across ** 3) / 3);
  expect(work(forces(body(), beta, (x, z) => [z, x, 0]))).toBeCloseTo(sheared(X[3], Z[3]), 9);
  expect(work(forces(body(), beta, (x, z) => [0, z, x]))).toBeCloseTo(sheared(Z[3], X[3]), 9);
});

test("an initial strain taken freely leaves no stress: its load is K times the free displacement", () => {
  const [dx, dz, change] = [0.7, 0.4, 0.02];
  const K = new Float64Array(24 * 24);
  const load = new Float64Array(24);
  elementStiffness(dx, dz, STEEL, 0, K);
  // εx = e + change·(z − dz/2)/dz, εz likewise and εy = 0, with the rotation that a gradient over the height brings.
  const e = 0.01;
  initialStrainLoad(dx, dz, STEEL, {middle: [e, 0, e], change: [change, 0, 0]}, load);
  const k = change / dz;
  const u = Array.from({length: 8}, (_, n) => [NODE_X[n] * dx, NODE_Z[n] * dz]).flatMap(([x, z]) => [
    e * x + k * x * (z - dz / 2),
    0,
    e * z - (k * x * x) / 2,
  ]);
  for (let i = 0; i < 24; i++) {
    let sum = 0;
    for (let j = 0; j < 24; j++) sum += K[24 * Math.max(i, j) + Math.min(i, j)] * u[j];
    expect(Math.abs(sum - load[i])).toBeLessThan(1e-13 * 200);
  }
});

test("a side's spring: energy of a uniform and a linear gap", () => {
  const [stiffness, length] = [3, 0.5];
  const out = new Float64Array(12 * 12);
  sideSpring(stiffness, length, 2, 12, out);
  const energy = (u: readonly number[]): number =>
    u.reduce((sum, a, i) => sum + u.reduce((s, b, j) => s + a * out[12 * i + j] * b, 0), 0);
  // Sides of three nodes with two components: first side still, the second moved by one component.
  expect(energy([0, 0, 0, 0, 0, 0, 1, 0, 1, 0, 1, 0])).toBeCloseTo(stiffness * length, 14);
  expect(energy([0, 0, 0, 0, 0, 0, 0, -1, 0, 0, 0, 1])).toBeCloseTo((stiffness * length) / 3, 14);
  expect(energy([1, 2, 1, 2, 1, 2, 1, 2, 1, 2, 1, 2])).toBeCloseTo(0, 14);
  expect(energy([1, 0, 1, 0, 1, 0, 1, 1, 1, 1, 1, 1])).toBeCloseTo(stiffness * length, 14);
});

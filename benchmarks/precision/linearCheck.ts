/**
 * Is the linear element right? Its energy against the strains' own, integrated by many Gauss points in each rectangle; a
 * patch of unequal elements under constant strain; and many small ones against one quadratic element's field.
 *
 *   node benchmarks/precision/linearCheck.ts
 */
import {elementStiffness, type Lame, lame} from "../../src/engine/response/index.ts";
import {buildGrid} from "../../src/engine/section/index.ts";
import {linearStiffness} from "./linear.ts";

type Element = typeof elementStiffness;

const CONSTANTS = lame(5e9, 0.35);
const GAUSS_3 = [
  [-Math.sqrt(0.6), 5 / 9],
  [0, 8 / 9],
  [Math.sqrt(0.6), 5 / 9],
];

/** Coordinates of the eight nodes in an element of unit sides. */
const X = [0, 1, 1, 0, 0.5, 1, 0.5, 0];
const Z = [0, 0, 1, 1, 0, 0.5, 1, 0.5];

type Field = (x: number, z: number) => readonly [number, number, number];

/** uᵀ·K·u of an element whose lower triangle alone is given. */
function energy(element: Element, dx: number, dz: number, beta: number, u: ArrayLike<number>): number {
  const K = new Float64Array(24 * 24);
  element(dx, dz, CONSTANTS, beta, K);
  let sum = 0;
  for (let i = 0; i < 24; i++) for (let j = 0; j <= i; j++) sum += (i === j ? 1 : 2) * K[24 * i + j] * u[i] * u[j];
  return sum;
}

/** ∫ε·D·ε by Eq. 1 and 2 of docs/theory/response.md for U, V, W bilinear in each quarter. */
function strainEnergy(dx: number, dz: number, beta: number, u: ArrayLike<number>, middle: ArrayLike<number>): number {
  const {lambda, mu}: Lame = CONSTANTS;
  const lattice = [0, 4, 1, 7, 8, 5, 3, 6, 2]; // nodes by row and column, 8 the middle one
  const at = (column: number, row: number, c: number): number => {
    const node = lattice[3 * row + column];
    return node === 8 ? middle[c] : u[3 * node + c];
  };
  let sum = 0;
  for (const [column, row] of [0, 1, 2, 3].map(q => [q % 2, q >> 1]))
    for (const [s, ws] of GAUSS_3)
      for (const [t, wt] of GAUSS_3) {
        const [p, q] = [(1 + s) / 2, (1 + t) / 2];
        const value: number[] = [];
        const byX: number[] = [];
        const byZ: number[] = [];
        for (const c of [0, 1, 2]) {
          const [a, b, d, e] = [
            at(column, row, c),
            at(column + 1, row, c),
            at(column, row + 1, c),
            at(column + 1, row + 1, c),
          ];
          value.push((1 - q) * ((1 - p) * a + p * b) + q * ((1 - p) * d + p * e));
          byX.push(((1 - q) * (b - a) + q * (e - d)) / (dx / 2));
          byZ.push(((1 - p) * (d - a) + p * (e - b)) / (dz / 2));
        }
        const [ex, ey, ez] = [byX[0], beta * value[1], byZ[2]];
        const [gxz, gxy, gyz] = [byZ[0] + byX[2], byX[1] - beta * value[0], byZ[1] - beta * value[2]];
        const density =
          lambda * (ex + ey + ez) ** 2 + 2 * mu * (ex ** 2 + ey ** 2 + ez ** 2) + mu * (gxz ** 2 + gxy ** 2 + gyz ** 2);
        sum += ((ws * wt * dx * dz) / 16) * density;
      }
  return sum;
}

/** Largest relative difference over some displacements; the middle node where the energy is least, by a few sweeps over it. */
function energyFault(): number {
  let worst = 0;
  for (const [dx, dz, beta] of [
    [0.01, 0.004, 0],
    [0.01, 0.004, 30],
    [0.3, 0.002, 250],
  ]) {
    for (let k = 1; k <= 5; k++) {
      const u = Float64Array.from({length: 24}, (_, i) => Math.sin(k * (1 + 1.7 * i + 0.3 * i * i)));
      const middle = [0, 0, 0];
      const of = (): number => strainEnergy(dx, dz, beta, u, middle);
      for (let sweep = 0; sweep < 60; sweep++)
        for (const c of [0, 1, 2]) {
          // The energy is a parabola in each of its three displacements.
          const [low, mid, high] = [-1, 0, 1].map(step => {
            middle[c] += step;
            const value = of();
            middle[c] -= step;
            return value;
          });
          middle[c] -= (high - low) / 2 / (high - 2 * mid + low);
        }
      worst = Math.max(worst, Math.abs(energy(linearStiffness, dx, dz, beta, u) / of() - 1));
    }
  }
  return worst;
}

/** Largest force on an inner node of a patch under constant strain, β = 0, relative to the largest on its edge. */
function patchFault(): number {
  const x = Float64Array.of(0, 0.01, 0.013, 0.05);
  const z = Float64Array.of(0, 0.002, 0.02, 0.021);
  const grid = buildGrid({
    x,
    z,
    present: () => true,
    acrossColumn: () => "whole",
    acrossRow: () => "whole",
    held: () => false,
  });
  const field: Field = (p, q) => [2 * p - 3 * q, 5 * p + 4 * q, -p + 7 * q];
  const force = new Float64Array(grid.unknownCount);
  const inner = new Uint8Array(grid.unknownCount).fill(1);
  for (const {column, row, unknowns} of grid.elements) {
    const [dx, dz] = [x[column + 1] - x[column], z[row + 1] - z[row]];
    const K = new Float64Array(24 * 24);
    linearStiffness(dx, dz, CONSTANTS, 0, K);
    const places = X.map((p, node) => [x[column] + p * dx, z[row] + Z[node] * dz]);
    const u = places.flatMap(([p, q]) => [...field(p, q)]);
    for (let i = 0; i < 24; i++)
      for (let j = 0; j < 24; j++) force[unknowns[i]] += K[24 * Math.max(i, j) + Math.min(i, j)] * u[j];
    places.forEach(([p, q], node) => {
      if (p === x[0] || p === x[x.length - 1] || q === z[0] || q === z[z.length - 1])
        for (let c = 0; c < 3; c++) inner[unknowns[3 * node + c]] = 0;
    });
  }
  const most = (which: 0 | 1): number =>
    force.reduce((m, f, k) => (inner[k] === which ? Math.max(m, Math.abs(f)) : m), 0);
  return most(1) / most(0);
}

/** Relative error of the energy of a smooth field in a square cut into n × n elements, against many quadratic ones. */
function convergence(counts: readonly number[]): number[] {
  const [side, beta] = [0.1, 20];
  const field: Field = (p, q) => [Math.sin(30 * p) * q, Math.cos(20 * q + 10 * p), Math.exp(10 * p) * q * q];
  const total = (element: Element, n: number): number => {
    const h = side / n;
    let sum = 0;
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++)
        sum += energy(
          element,
          h,
          h,
          beta,
          X.flatMap((p, k) => [...field((i + p) * h, (j + Z[k]) * h)]),
        );
    return sum;
  };
  const exact = total(elementStiffness, 64);
  return counts.map(n => Math.abs(total(linearStiffness, n) / exact - 1));
}

export interface LinearFaults {
  readonly energy: number; // relative [–]
  readonly patch: number; // relative [–]
  readonly order: number; // of convergence of the energy to the quadratic elements' [–]
}

const ROUNDING = 1e-9; // relative

/** @throws Error when the element is wrong */
export function checkLinear(): LinearFaults {
  const [coarse, fine] = convergence([8, 16]);
  const faults = {energy: energyFault(), patch: patchFault(), order: Math.log2(coarse / fine)};
  if (!(faults.energy < ROUNDING && faults.patch < ROUNDING && Math.abs(faults.order - 2) < 0.1))
    throw new Error(`the linear element is wrong: ${JSON.stringify(faults)}`);
  return faults;
}

if (import.meta.main) console.log(JSON.stringify(checkLinear()));

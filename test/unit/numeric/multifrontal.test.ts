import {expect, test} from "vitest";
import {plainKernel, simdKernel} from "../../../src/engine/numeric/kernel.ts";
import {type PlanElement, planElimination, runElimination} from "../../../src/engine/numeric/multifrontal.ts";
import {numbers} from "./numbers.ts";

const KERNELS = [plainKernel(), simdKernel()!];

/** A grid of 4-node elements with two unknowns a node; the first column of nodes is held, and an interface lies on each element. */
function grid(columns: number, rows: number): {elements: PlanElement[]; unknownCount: number} {
  const unknown = (c: number, r: number, k: number): number => (c === 0 ? -1 : ((c - 1) * (rows + 1) + r) * 2 + k);
  const elements: PlanElement[] = [];
  for (let column = 0; column < columns; column++) {
    for (let row = 0; row < rows; row++) {
      const corners = [
        [column, row],
        [column + 1, row],
        [column + 1, row + 1],
        [column, row + 1],
      ];
      const unknowns = Int32Array.from(corners.flatMap(([c, r]) => [unknown(c, r, 0), unknown(c, r, 1)]));
      elements.push({column, row, unknowns}, {column, row, unknowns: unknowns.slice(2, 6)});
    }
  }
  return {elements, unknownCount: columns * (rows + 1) * 2};
}

/** Element matrices BᵀB + I: symmetric, positive definite, different for each. */
function matrices(elements: readonly PlanElement[]): Float64Array[] {
  const next = numbers(42);
  return elements.map(({unknowns: {length: m}}) => {
    const B = Float64Array.from({length: m * m}, next);
    const A = new Float64Array(m * m);
    for (let i = 0; i < m; i++) {
      for (let j = 0; j < m; j++) for (let k = 0; k < m; k++) A[i * m + j] += B[k * m + i] * B[k * m + j];
      A[i * m + i] += 1;
    }
    return A;
  });
}

/** Assembles everything and eliminates the unknowns that are not kept, one after the other. */
function reference(
  elements: readonly PlanElement[],
  element: readonly Float64Array[],
  n: number,
  kept: readonly number[],
): number[] {
  const A = Array.from({length: n}, () => new Float64Array(n));
  elements.forEach(({unknowns}, e) => {
    unknowns.forEach((I, i) => {
      unknowns.forEach((J, j) => {
        if (I >= 0 && J >= 0) A[I][J] += element[e][i * unknowns.length + j];
      });
    });
  });
  const gone = [...Array(n).keys()].filter(k => !kept.includes(k));
  for (const k of gone) {
    for (let i = 0; i < n; i++) {
      if (i === k) continue;
      const factor = A[i][k] / A[k][k];
      for (let j = 0; j < n; j++) A[i][j] -= factor * A[k][j];
    }
  }
  return kept.flatMap(i => kept.map(j => A[i][j]));
}

const CASES: [string, number, number, (n: number) => number[]][] = [
  ["one element", 1, 1, () => [1, 0]],
  ["a row of elements, its end kept", 7, 1, n => [n - 1, n - 3]],
  ["a square, unknowns kept out of order and inside", 6, 6, n => [n - 1, 3, 40, 0, 17]],
  ["taller than wide, the last column of nodes kept", 3, 11, n => Array.from({length: 24}, (_, k) => n - 24 + k)],
  ["all kept", 2, 2, n => Array.from({length: n}, (_, k) => k)],
  ["none kept", 4, 3, () => []],
];

test.each(CASES)("%s", (_, columns, rows, keep) => {
  const {elements, unknownCount} = grid(columns, rows);
  const kept = keep(unknownCount);
  const element = matrices(elements);
  const plan = planElimination(elements, unknownCount, Int32Array.from(kept));
  const [S, other] = KERNELS.map(kernel => runElimination(plan, kernel, (e, out) => out.set(element[e])));
  const expected = reference(elements, element, unknownCount, kept);
  expect(S.length).toBe(kept.length ** 2);
  expected.forEach((value, k) => {
    expect(Math.abs(S[k] - value)).toBeLessThan(1e-11);
  });
  expect(other).toEqual(S); // bit by bit
  expect(runElimination(plan, KERNELS[0], (e, out) => out.set(element[e]))).toEqual(S); // the memory carries nothing over
});

test("only the lower triangle of an element is read", () => {
  const {elements, unknownCount} = grid(3, 3);
  const element = matrices(elements);
  const plan = planElimination(elements, unknownCount, Int32Array.of(0, 5));
  const full = runElimination(plan, KERNELS[0], (e, out) => out.set(element[e]));
  const lower = runElimination(plan, KERNELS[0], (e, out) => {
    const m = elements[e].unknowns.length;
    out.set(element[e]);
    for (let i = 0; i < m; i++) for (let j = i + 1; j < m; j++) out[i * m + j] = Number.NaN;
  });
  expect(lower).toEqual(full);
});

test("an unknown that no element touches cannot be kept", () => {
  const {elements, unknownCount} = grid(2, 2);
  expect(() => planElimination(elements, unknownCount + 1, Int32Array.of(unknownCount))).toThrow("plan keeps 0");
});

test("a body that is free to move is refused", () => {
  const elements = [{column: 0, row: 0, unknowns: Int32Array.of(0, 1)}];
  const plan = planElimination(elements, 2, new Int32Array(0));
  const spring = Float64Array.of(1, -1, -1, 1);
  expect(() => runElimination(plan, KERNELS[0], (_, out) => out.set(spring))).toThrow("positive definite");
});

import {expect, test} from "vitest";
import {backSubstitute, factorOf, insideAt} from "../../../src/engine/numeric/backSubstitution.ts";
import {plainKernel, simdKernel} from "../../../src/engine/numeric/kernel.ts";
import {type PlanElement, planElimination, runElimination} from "../../../src/engine/numeric/multifrontal.ts";
import {numbers} from "./numbers.ts";

const COLUMNS = 7;
const ROWS = 5;

/** A grid of 4-node elements with one unknown a node; the nodes of the last column are held. */
const elements: PlanElement[] = Array.from({length: COLUMNS * ROWS}, (_, e) => {
  const [column, row] = [Math.floor(e / ROWS), e % ROWS];
  const unknown = (c: number, r: number): number => (c === COLUMNS ? -1 : c * (ROWS + 1) + r);
  const corners = [
    unknown(column, row),
    unknown(column + 1, row),
    unknown(column + 1, row + 1),
    unknown(column, row + 1),
  ];
  return {column, row, unknowns: Int32Array.from(corners)};
});
const count = COLUMNS * (ROWS + 1);

/** Element matrices BᵀB + I: symmetric, positive definite, different for each. */
const next = numbers(7);
const matrices = elements.map(() => {
  const B = Array.from({length: 16}, next);
  return Array.from({length: 16}, (_, ij) => {
    const [i, j] = [Math.floor(ij / 4), ij % 4];
    return [0, 1, 2, 3].reduce((sum, k) => sum + B[4 * k + i] * B[4 * k + j], i === j ? 1 : 0);
  });
});

/** What the equations of the unknowns inside leave over: zero when nothing loads them. */
function residuals(x: Float64Array): Float64Array {
  const r = new Float64Array(count);
  elements.forEach(({unknowns}, e) => {
    unknowns.forEach((I, i) => {
      unknowns.forEach((J, j) => {
        if (I >= 0 && J >= 0) r[I] += matrices[e][4 * i + j] * x[J];
      });
    });
  });
  return r;
}

const KEPT = Int32Array.of(3, 0, 1, 20, 2);

for (const kernel of [plainKernel(), simdKernel()!]) {
  test(`unknowns inside follow from those kept, ${kernel.kind}`, () => {
    const plan = planElimination(elements, count, KEPT);
    const {factor, onFront} = factorOf(plan, kernel, () => true);
    runElimination(plan, kernel, (e, out) => out.set(matrices[e]), undefined, onFront);
    const sides = 5; // more than are worked off together, and not a multiple
    const kept = Float64Array.from({length: sides * KEPT.length}, next);
    const x = Array.from({length: sides}, () => new Float64Array(count).fill(Number.NaN));
    backSubstitute(factor, kept, sides, (e, inside) => {
      elements[e].unknowns.forEach((u, i) => {
        for (let r = 0; r < sides; r++) {
          const at = insideAt(inside, i, r);
          expect(at < 0).toBe(u < 0);
          if (u >= 0) x[r][u] = inside.X[at];
        }
      });
    });
    x.forEach((own, r) => {
      KEPT.forEach((u, k) => {
        expect(own[u]).toBe(kept[r * KEPT.length + k]);
      });
      residuals(own).forEach((left, u) => {
        if (!KEPT.includes(u)) expect(Math.abs(left)).toBeLessThan(1e-12); // matrices of order 1
      });
    });
  });
}

test("only the way to what is asked for is kept, and gives the same", () => {
  const kernel = plainKernel();
  const plan = planElimination(elements, count, KEPT);
  const solved = (isWanted: (e: number) => boolean): {length: number; values: Map<string, number>} => {
    const {factor, onFront} = factorOf(plan, kernel, isWanted);
    runElimination(plan, kernel, (e, out) => out.set(matrices[e]), undefined, onFront);
    const values = new Map<string, number>();
    backSubstitute(factor, Float64Array.of(1, -2, 3, 0.5, 4), 1, (e, inside) => {
      for (let i = 0; i < 4; i++) values.set(`${e} ${i}`, inside.X[insideAt(inside, i, 0)]);
    });
    return {length: factor.values.length, values};
  };
  const all = solved(() => true);
  const some = solved(e => elements[e].column < 2);
  expect(some.length).toBeLessThan(0.7 * all.length);
  for (const e of elements.keys()) if (elements[e].column < 2) expect(some.values.has(`${e} 0`)).toBe(true);
  for (const [key, value] of some.values) expect(value).toBe(all.values.get(key));
});

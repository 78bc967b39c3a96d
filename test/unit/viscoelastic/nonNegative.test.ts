import {expect, test} from "vitest";
import {randomStream} from "../../../src/engine/statistics/index.ts";
import {leastSquares, nonNegativeLeastSquares} from "../../../src/engine/viscoelastic/nonNegative.ts";

const columnsOf = (rows: readonly (readonly number[])[]): Float64Array[] =>
  rows[0].map((_, j) => Float64Array.from(rows, row => row[j]));

/** The smallest sum of squares over all choices of unknowns held at zero: slow and sure. */
function bySearch(columns: readonly Float64Array[], right: Float64Array): number {
  let least = right.reduce((sum, b) => sum + b * b, 0);
  for (let choice = 1; choice < 2 ** columns.length; choice++) {
    const free = columns.filter((_, j) => choice & (1 << j));
    const x = leastSquares(free, right);
    if (x.some(value => value < 0)) continue;
    const squares = right.reduce((sum, b, i) => sum + (free.reduce((s, c, j) => s + c[i] * x[j], 0) - b) ** 2, 0);
    least = Math.min(least, squares);
  }
  return least;
}

test("least squares of a straight line, by hand", () => {
  // y = 1, 3, 4 at x = 0, 1, 2: slope 1.5, intercept 7/6.
  const x = leastSquares(
    columnsOf([
      [1, 0],
      [1, 1],
      [1, 2],
    ]),
    Float64Array.of(1, 3, 4),
  );
  expect(x[0]).toBeCloseTo(7 / 6, 14);
  expect(x[1]).toBeCloseTo(1.5, 14);
});

test("an unknown that would be negative is zero, and the others are fitted without it", () => {
  const x = nonNegativeLeastSquares({
    columns: columnsOf([
      [1, 0],
      [1, 1],
      [1, 2],
    ]),
    right: Float64Array.of(4, 3, 1),
  });
  expect(x[1]).toBe(0);
  expect(x[0]).toBeCloseTo(8 / 3, 14);
});

test("as good as trying every choice of zeros", () => {
  const {normal} = randomStream(5);
  for (let k = 0; k < 60; k++) {
    const columns = Array.from({length: 6}, () => Float64Array.from({length: 9}, normal));
    const right = Float64Array.from({length: 9}, normal);
    const x = nonNegativeLeastSquares({columns, right});
    expect(Math.min(...x)).toBeGreaterThanOrEqual(0);
    const squares = right.reduce((sum, b, i) => sum + (columns.reduce((s, c, j) => s + c[i] * x[j], 0) - b) ** 2, 0);
    expect(squares).toBeCloseTo(bySearch(columns, right), 10);
  }
});

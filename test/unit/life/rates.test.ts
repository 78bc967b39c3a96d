import {describe, expect, test} from "vitest";
import {type CrackGrid, ratesAt, rateTable} from "../../../src/engine/life/rates.ts";

const levels = Float64Array.of(0, 1, 2, 4, 7, 9);

/** States of two cracks in an overlay of 10, without interlayer. */
function grid(): CrackGrid {
  let next = 0;
  const number = new Int32Array(levels.length ** 2);
  levels.forEach((b, i) => {
    levels.forEach((c, j) => {
      number[i * levels.length + j] = b + c < 10 ? next++ : -1;
    });
  });
  return {interlayerLength: Float64Array.of(0), undersideLength: levels, surfaceLength: levels, number};
}

describe("growth rates between the solved states", () => {
  const g = grid();
  const fill = (f: (b: number, c: number) => number): Float64Array => {
    const rates = new Float64Array(3 * (Math.max(...g.number) + 1));
    levels.forEach((b, i) => {
      levels.forEach((c, j) => {
        const s = g.number[i * levels.length + j];
        if (s >= 0) rates.fill(f(b, c), 3 * s, 3 * s + 3);
      });
    });
    return rates;
  };
  const out = new Float64Array(3);

  test("are met exactly at the states", () => {
    const f = (b: number, c: number): number => (1 + 0.3 * b + 0.1 * c * c) ** 4;
    const table = rateTable(g, fill(f), () => 1);
    ratesAt(table, [0, 2, 4], out);
    expect(out[1]).toBeCloseTo(f(2, 4), 9);
  });

  test("follow a root that is linear in the lengths", () => {
    const table = rateTable(
      g,
      fill((b, c) => (1 + 0.3 * b + 0.2 * c) ** 4),
      () => 1,
    );
    ratesAt(table, [0, 1.5, 0.5], out); // clear of where the fronts have met
    expect(out[1]).toBeCloseTo((1 + 0.45 + 0.1) ** 4, 9);
  });

  test("stay between their neighbours and at zero where there is no growth", () => {
    const table = rateTable(
      g,
      fill(b => (b < 2 ? 0 : 1)),
      () => 1,
    );
    for (let b = 0; b <= 1; b += 0.1) {
      ratesAt(table, [0, b, 0], out);
      expect(out[1]).toBe(0);
    }
    for (let b = 1; b <= 9; b += 0.13) {
      ratesAt(table, [0, b, 0], out);
      expect(out[1]).toBeGreaterThanOrEqual(-1e-12);
      expect(out[1]).toBeLessThanOrEqual(1 + 1e-12);
    }
  });

  test("a change of law on the way is a jump where it is", () => {
    const speed = (_tip: number, b: number): number => (b < 4 ? 1 : 16);
    const table = rateTable(
      g,
      fill((b, c) => speed(1, b) * (1 + b + c) ** 4),
      speed,
    );
    ratesAt(table, [0, 3.99, 0], out);
    expect(out[1]).toBeCloseTo(4.99 ** 4, 6);
    ratesAt(table, [0, 4.01, 0], out);
    expect(out[1]).toBeCloseTo(16 * 5.01 ** 4, 6);
  });

  test("beyond the last state keep its rate", () => {
    const table = rateTable(
      g,
      fill((b, c) => (1 + b + c) ** 4),
      () => 1,
    );
    ratesAt(table, [0, 9, 4], out); // no such state: the upper front keeps the rate it had at (9, 0)
    expect(out[2] ** 0.25).toBeCloseTo(10, 9);
  });
});

import {expect, test} from "vitest";
import {moveTurns} from "../../../src/engine/life/turns.ts";

const at = Float64Array.of(0, 0.03, 0.1, 0.12, 0.2, 0.5);

function moved(strain: (x: number) => number): number[] {
  const out = new Float64Array(at.length);
  moveTurns(at, at.map(strain), out);
  return [...out];
}

test("the peak of a root of a parabola is found between uneven points, all other values stay", () => {
  const strain = (x: number): number => Math.sqrt(2 - 9 * (x - 0.113) ** 2); // largest at 0.113, the nearest point 0.12
  const out = moved(strain);
  expect(out[3]).toBeCloseTo(Math.sqrt(2), 12);
  for (const k of [0, 1, 2, 4, 5]) expect(out[k]).toBe(strain(at[k]));
});

test("shear that changes sign between two points comes down to nothing", () => {
  const strain = (x: number): number => Math.abs(x - 0.109);
  const out = moved(strain);
  expect(out[2]).toBeCloseTo(0, 7); // a root of rounding
  for (const k of [0, 1, 3, 4, 5]) expect(out[k]).toBe(strain(at[k]));
});

test("a least value that stays above nothing is lowered to that of the parabola", () => {
  expect(moved(x => Math.sqrt(1 + (x - 0.108) ** 2))[2]).toBeCloseTo(1, 12);
});

test("what only rises, falls or stays is left alone", () => {
  for (const strain of [(x: number) => x ** 3, (x: number) => 1 - x, () => 0.7])
    expect(moved(strain)).toEqual([...at].map(strain));
});

test("two equal values at the top are raised to one", () => {
  const out = moved(x => Math.sqrt(1 - (x - 0.11) ** 2)); // 0.1 and 0.12 alike
  expect(out[2]).toBeCloseTo(1, 12);
  expect(out[3]).toBeCloseTo(1, 12);
});

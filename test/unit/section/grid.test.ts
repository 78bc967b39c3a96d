import {expect, test} from "vitest";
import {buildGrid, type GridRules, gradedLines, SIDE} from "../../../src/engine/section/grid.ts";

const LINES = Float64Array.of(0, 1, 2);
const whole: GridRules = {
  x: LINES,
  z: LINES,
  present: () => true,
  acrossColumn: () => "whole",
  acrossRow: () => "whole",
  held: () => false,
};

// Serendipity: (nx+1)(nz+1) corners and nx(nz+1) + nz(nx+1) midsides.
test("a whole grid has the nodes of its corners and midsides", () => {
  const grid = buildGrid(whole);
  expect(grid.elements.length).toBe(4);
  expect(grid.unknownCount).toBe(3 * (9 + 12));
  // The middle corner is one node for all four.
  const middle = [grid.at(0, 0)!.unknowns[6], grid.at(1, 0)!.unknowns[9], grid.at(1, 1)!.unknowns[0]];
  expect(new Set([...middle, grid.at(0, 1)!.unknowns[3]]).size).toBe(1);
});

test("neighbours meet along shared sides in ascending order", () => {
  const grid = buildGrid(whole);
  const nodes = (column: number, row: number, side: readonly number[]) =>
    side.flatMap(n => [...grid.at(column, row)!.unknowns.subarray(3 * n, 3 * n + 3)]);
  expect(nodes(0, 0, SIDE.right)).toEqual(nodes(1, 0, SIDE.left));
  expect(nodes(1, 0, SIDE.bottom)).toEqual(nodes(1, 1, SIDE.top));
});

test("sliding rows share W alone; parted rows share nothing", () => {
  const sliding = buildGrid({...whole, acrossRow: () => "sliding"});
  const parted = buildGrid({...whole, acrossRow: () => "parted"});
  expect(sliding.unknownCount).toBe(63 + 2 * 5); // five nodes more, U and V each
  expect(parted.unknownCount).toBe(63 + 3 * 5);
  const above = sliding.at(0, 0)!.unknowns;
  const below = sliding.at(0, 1)!.unknowns;
  SIDE.bottom.forEach((node, k) => {
    const other = SIDE.top[k];
    expect(above[3 * node + 2]).toBe(below[3 * other + 2]);
    expect(above[3 * node]).not.toBe(below[3 * other]);
    expect(above[3 * node + 1]).not.toBe(below[3 * other + 1]);
  });
});

test("a slit that ends inside opens up to its end", () => {
  // Parted between the columns in the lower row only: the middle corner stays whole, the lower two nodes are doubled.
  const grid = buildGrid({...whole, acrossColumn: (_, row) => (row === 1 ? "parted" : "whole")});
  expect(grid.unknownCount).toBe(63 + 3 * 2);
  expect(grid.at(0, 1)!.unknowns[3]).not.toBe(-1);
  expect(grid.at(0, 1)!.unknowns[3 * 1]).toBe(grid.at(1, 1)!.unknowns[0]);
  expect(grid.at(0, 1)!.unknowns[3 * 2]).not.toBe(grid.at(1, 1)!.unknowns[9]);
});

test("where a slit meets a sliding row, the row's W still ties both sides", () => {
  const grid = buildGrid({
    ...whole,
    acrossColumn: (_, row) => (row === 1 ? "parted" : "whole"),
    acrossRow: () => "sliding",
  });
  const corner = [grid.at(0, 1)!.unknowns[3], grid.at(1, 1)!.unknowns[0]];
  expect(corner[0]).not.toBe(corner[1]); // U of the two lower sides
  expect(grid.at(0, 1)!.unknowns[5]).toBe(grid.at(1, 1)!.unknowns[2]); // W, through the body above
});

test("a missing element leaves a hole", () => {
  const grid = buildGrid({...whole, present: (column, row) => !(column === 0 && row === 1)});
  expect(grid.elements.length).toBe(3);
  expect(grid.at(0, 1)).toBeNull();
  expect(grid.at(-1, 0)).toBeNull();
  expect(grid.at(2, 0)).toBeNull();
  expect(grid.unknownCount).toBe(63 - 3 * 3);
});

test("held components get no number, on both sides and only there", () => {
  const grid = buildGrid({...whole, held: (side, c) => (side === "right" ? c === 0 : true)});
  expect(grid.unknownCount).toBe(63 - 15 - 4); // bottom: 5 nodes; right: U of the 4 above it
  expect(grid.at(1, 0)!.unknowns[3 * 1]).toBe(-1);
  expect(grid.at(1, 0)!.unknowns[3 * 1 + 2]).toBeGreaterThanOrEqual(0);
  for (const node of SIDE.bottom) expect(grid.at(0, 1)!.unknowns[3 * node + 1]).toBe(-1);
  expect(grid.at(0, 0)!.unknowns.includes(-1)).toBe(false);
});

test("numbers run from 0 without gaps", () => {
  const grid = buildGrid({...whole, acrossRow: () => "sliding", held: side => side === "bottom"});
  const used = new Set(grid.elements.flatMap(e => [...e.unknowns]).filter(u => u >= 0));
  expect([...used].sort((a, b) => a - b)).toEqual(Array.from({length: grid.unknownCount}, (_, k) => k));
});

test("graded lines: through all breaks, sizes and growth as asked", () => {
  const lines = gradedLines([3, 0, 1, 1], [{at: 1, size: 0.01, growth: 1.5}], () => 0.5);
  for (const b of [0, 1, 3]) expect(lines.includes(b)).toBe(true);
  const sizes = [...lines.subarray(1)].map((x, k) => x - lines[k]);
  expect(Math.min(...sizes)).toBeGreaterThan(0.005);
  expect(Math.max(...sizes)).toBeLessThanOrEqual(0.5 * 1.1); // a twentieth of an element is given away to save one
  const at = lines.indexOf(1);
  expect(lines[at + 1] - 1).toBeLessThan(0.0125); // grows within the element itself
  expect(1 - lines[at - 1]).toBeLessThan(0.0125);
  sizes.slice(1).forEach((s, k) => {
    if (k + 1 === at) return; // the two sides of a break share out their own way
    expect(Math.max(s / sizes[k], sizes[k] / s)).toBeLessThan(1.6);
  });
});

test("graded lines without a refinement are even", () => {
  const lines = gradedLines([0, 1], [], () => 0.25);
  expect(lines.length).toBe(5);
  lines.forEach((x, k) => {
    expect(Math.abs(x - k / 4)).toBeLessThan(1e-12);
  });
});

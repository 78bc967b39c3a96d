import {describe, expect, test} from "vitest";
import {cellShares, passesPerCoverage, type Wander} from "../../../src/engine/traffic/index.ts";

const wheel = (y: number, width = 0.3) => ({x: 0, y, load: 1e5, length: 0.4, width});

describe("lateral spread", () => {
  test("even: each cell gets its part of the width", () => {
    const wander: Wander = {kind: "uniform", width: 2};
    expect([...cellShares([-2, -1, -0.5, 0, 3], 0, wander)]).toEqual([0, 0.25, 0.25, 0.5]);
    expect([...cellShares([-1, 0, 1], 0.5, wander)]).toEqual([0.25, 0.5]); // offsets −0.5…0.5 and 0.5…1.5, cut at 1
  });

  test("measured: passes are even within a cell, and a mirrored point takes the other side", () => {
    const wander: Wander = {kind: "histogram", edges: [-0.2, 0, 0.4], shares: [0.25, 0.75]};
    // A cell (e, e') about a point at 0 is passed at offsets −e' … −e.
    expect([...cellShares([-0.4, -0.2, 0, 0.1, 0.2], 0, wander)]).toEqual([0.375, 0.375, 0.125, 0.125]);
    const even: Wander = {kind: "histogram", edges: [-1, 1], shares: [1]};
    const uniform: Wander = {kind: "uniform", width: 2};
    const edges = [-1.3, -0.4, 0.2, 0.9];
    cellShares(edges, 0.1, even).forEach((s, k) => void expect(s).toBeCloseTo(cellShares(edges, 0.1, uniform)[k], 14));
  });

  test("what is no spread is refused", () => {
    const shares = (wander: Wander) => () => cellShares([0, 1], 0, wander);
    expect(shares({kind: "uniform", width: 0})).toThrow("wander.width");
    expect(shares({kind: "normal", deviation: Number.NaN})).toThrow("wander.deviation");
    expect(shares({kind: "histogram", edges: [0, 1], shares: [0.5, 0.5]})).toThrow("one more than shares");
    expect(shares({kind: "histogram", edges: [0, 0, 1], shares: [0.5, 0.5]})).toThrow("ascending");
    expect(shares({kind: "histogram", edges: [0, 1, 2], shares: [0.5, 0.4]})).toThrow("sum");
  });
});

describe("passes per coverage", () => {
  test("a tyre that keeps to its line covers it at every pass; wheels behind each other do so once", () => {
    const wander: Wander = {kind: "normal", deviation: 0};
    expect(passesPerCoverage({wheels: [wheel(0)], wander})).toBe(1);
    expect(passesPerCoverage({wheels: [wheel(0), {...wheel(0), x: 1.4}], wander})).toBe(1);
  });

  test("two tyres apart help each other only when passes wander", () => {
    const one = passesPerCoverage({wheels: [wheel(0)], wander: {kind: "normal", deviation: 0.8}});
    const two = passesPerCoverage({wheels: [wheel(-0.4), wheel(0.4)], wander: {kind: "normal", deviation: 0.8}});
    expect(two).toBeLessThan(one);
    expect(two).toBeGreaterThan(one / 2);
  });
});

import {expect, test} from "vitest";
import {laneOf} from "../../../src/engine/life/lane.ts";
import {passPlan, patchesOf} from "../../../src/engine/life/passPlan.ts";
import {wavenumbers} from "../../../src/engine/response/index.ts";
import type {LoadClass, Wheel} from "../../../src/engine/traffic/index.ts";

const wheel = (x: number, load = 40e3, y = 0): Wheel => ({x, y, load, length: 0.24, width: 0.24});

function plan(...wheels: Wheel[]) {
  const loadClass: LoadClass = {
    name: "group",
    wheels,
    passesPerYear: 1,
    growth: 0,
    group: null,
    wander: {kind: "normal", deviation: 0.25},
  };
  const traffic = {classes: [loadClass], standardAxle: loadClass, calendar: {hours: null, months: null}};
  return passPlan(loadClass, {patches: patchesOf(traffic, 4), waves: wavenumbers(4, 1, 300)}, laneOf(traffic));
}

test.each([
  ["one axle", [wheel(0)]],
  ["an axle ahead of the reference", [wheel(0.7)]],
  ["two axles", [wheel(-0.7), wheel(0.7)]],
  ["three axles", [wheel(-1.4), wheel(0), wheel(1.4)]],
])("a pass of %s is followed to its middle, the rest mirrored", (_, wheels) => {
  const {order, positions, along} = plan(...wheels);
  expect([2 * positions, 2 * positions - 1]).toContain(order.length); // a position in the middle is its own image
  expect([...order].reverse()).toEqual([...order]);
  expect(Math.max(...order)).toBe(positions - 1);
  const middle = -(wheels[0].x + wheels[wheels.length - 1].x) / 2;
  for (let k = 0; k < order.length; k++) {
    expect(along[k] + along[order.length - 1 - k]).toBeCloseTo(2 * middle, 12);
    if (k > 0) expect(along[k]).toBeGreaterThan(along[k - 1]);
  }
});

test.each([
  ["axles of different load", [wheel(0), wheel(1.4, 30e3)]],
  ["staggered wheels", [wheel(0, 40e3, -0.5), wheel(0.3, 40e3, 0.5)]],
])("a pass of %s is followed all along", (_, wheels) => {
  const {order, positions, along} = plan(...wheels);
  expect(along.length).toBe(positions);
  expect([...order]).toEqual([...Array(positions).keys()]);
});

test("in the middle of the pass of one axle its wheel stands over the joint, and everywhere it is at a solved place", () => {
  const {trains, positions} = plan(wheel(0));
  expect(trains.length).toBe(1);
  const {places, wheel: column, even, odd} = trains[0];
  expect(places).toBe(1);
  expect([...column]).toEqual([...Array(positions).keys()].reverse());
  expect([...even]).toEqual(Array(positions).fill(1));
  expect([...odd]).toEqual([...Array(positions - 1).fill(-1), 1]); // before the joint shear has the other sign
});

test("a pass has the wheel's edges over the joint, where shear has a sharp peak, among its points", () => {
  const {along} = plan(wheel(0));
  for (const edge of [-0.12, 0.12]) expect(Math.min(...along.map(x => Math.abs(x - edge)))).toBeLessThan(1e-12);
});

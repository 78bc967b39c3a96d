import fc from "fast-check";
import {expect, test} from "vitest";
import {conductionGrid} from "../../../src/engine/climate/index.ts";
import {reduction} from "../../../src/engine/climate/reduction.ts";
import {ASPHALT, CONCRETE, SOIL} from "./fixtures.ts";

const grid = conductionGrid([
  {...ASPHALT, thickness: 0.08},
  {...ASPHALT, thickness: 0.02},
  {...CONCRETE, thickness: 0.2},
  {...CONCRETE, thickness: 0.1},
  {...SOIL, thickness: 1},
]);
const weights = reduction(grid, ["overlay", "interlayer", "jointed", "jointed", "foundation"]);

const reduced = (w: Float64Array, T: Float64Array): number => w.reduce((sum, weight, i) => sum + weight * T[i], 0);

test("a straight profile gives its own means and slope", () => {
  const value = fc.double({min: -50, max: 50, noNaN: true});
  fc.assert(
    fc.property(value, value, (top, slope) => {
      const T = grid.centre.map(z => top + slope * z);
      expect(reduced(weights.overlayMean, T)).toBeCloseTo(top + slope * 0.05, 10);
      expect(reduced(weights.slabMean, T)).toBeCloseTo(top + slope * 0.25, 10);
      expect(reduced(weights.slabGradient, T)).toBeCloseTo(slope, 9);
      expect(reduced(weights.halfWayOverlay, T)).toBeCloseTo(top + slope * 0.04, 10);
      const middles = [0.04, 0.09, 0.2, 0.35, 0.9];
      weights.layerMean.forEach((w, j) => {
        expect(reduced(w, T)).toBeCloseTo(top + slope * middles[j], 9);
      });
    }),
  );
});

test("the line through a cubic is the least-squares one", () => {
  // Over h = 0.3 m about its middle, ζ³ has the slope ∫ζ⁴/∫ζ² = 3h²/20: derived.
  const T = grid.centre.map(z => (z - 0.25) ** 3);
  const exact = (3 * 0.3 ** 2) / 20;
  expect(Math.abs(reduced(weights.slabGradient, T) / exact - 1)).toBeLessThan(0.01); // second order, 20 cells
});

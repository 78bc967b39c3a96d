import fc from "fast-check";
import {describe, expect, test} from "vitest";
import {settle} from "../../../src/engine/climate/conduction.ts";
import {
  conductingBody,
  conductionGrid,
  FLUX_WEIGHTS,
  finishStep,
  interpolationAt,
  STAGE,
  setTemperatures,
  startStep,
  surfaceFlux,
  temperaturesOf,
} from "../../../src/engine/climate/index.ts";
import {ASPHALT, CONCRETE, SOIL} from "./fixtures.ts";

const thermal = fc.record({
  thickness: fc.double({min: 0.01, max: 1, noNaN: true}),
  conductivity: fc.double({min: 0.2, max: 3, noNaN: true}),
  density: fc.double({min: 1000, max: 2600, noNaN: true}),
  heatCapacity: fc.double({min: 700, max: 2000, noNaN: true}),
});
const temperature = fc.double({min: -40, max: 70, noNaN: true});

function heat(body: ReturnType<typeof conductingBody>): number {
  return temperaturesOf(body).reduce((sum, T, i) => sum + T * body.grid.capacity[i], 0);
}

describe("grid", () => {
  test("cells fill the layers and faces lie on the interfaces", () => {
    fc.assert(
      fc.property(fc.array(thermal, {minLength: 1, maxLength: 6}), layers => {
        const grid = conductionGrid(layers);
        layers.forEach((layer, j) => {
          let sum = 0;
          for (let i = grid.firstCell[j]; i < grid.firstCell[j + 1]; i++) sum += grid.width[i];
          expect(sum).toBeCloseTo(layer.thickness, 12);
        });
        expect(grid.width.every(w => w > 0)).toBe(true);
      }),
    );
  });

  test("steady flow through two materials is interpolated exactly at and beside their interface", () => {
    const grid = conductionGrid([
      {...ASPHALT, thickness: 0.1},
      {...SOIL, conductivity: 0.35, thickness: 0.3},
    ]);
    // T = z/k₁ above, 0.1/k₁ + (z − 0.1)/k₂ below, for unit flux: derived.
    const exact = (z: number) => (z <= 0.1 ? z / 1.4 : 0.1 / 1.4 + (z - 0.1) / 0.35);
    for (const z of [0.02, 0.099, 0.1, 0.101, 0.2]) {
      const {cell, weight} = interpolationAt(grid, z);
      const T = (1 - weight) * exact(grid.centre[cell]) + weight * exact(grid.centre[cell + 1]);
      expect(T).toBeCloseTo(exact(z), 12);
    }
  });

  test("refuses what it cannot cut", () => {
    expect(() => conductionGrid([])).toThrow("layers.length: got 0");
    expect(() => conductionGrid([{...ASPHALT, thickness: 0}])).toThrow("layers[0].thickness: got 0");
    expect(() => conductionGrid([{...ASPHALT, thickness: 1, conductivity: NaN}])).toThrow("layers[0].conductivity");
    expect(() => interpolationAt(conductionGrid([{...ASPHALT, thickness: 1}]), 2)).toThrow("depth: got 2");
  });
});

describe("step", () => {
  const layers = [
    {...ASPHALT, thickness: 0.1},
    {...CONCRETE, thickness: 0.2},
    {...SOIL, thickness: 1},
  ];

  test("an insulated body keeps its heat and evens out", () => {
    fc.assert(
      fc.property(temperature, temperature, fc.double({min: 10, max: 1e5, noNaN: true}), (upper, lower, step) => {
        const body = conductingBody(conductionGrid(layers), step, lower);
        setTemperatures(body, temperaturesOf(body).fill(upper, 0, 12));
        const before = heat(body);
        for (let i = 0; i < 50; i++) {
          startStep(body, new Float64Array([123, 0, 456, 0])); // a film of zero: these must not matter
          finishStep(body, new Float64Array([789, 0]));
        }
        expect(Math.abs(heat(body) - before)).toBeLessThan(1e-9 * 70 * 5e6); // 70 K times the heat capacity
        const spread = Math.max(...temperaturesOf(body)) - Math.min(...temperaturesOf(body));
        expect(spread).toBeLessThanOrEqual(Math.abs(upper - lower) + 1e-9);
      }),
      {numRuns: 30},
    );
  });

  test("heat stored is the heat that came through the surface, whatever the weather", () => {
    const film = fc.oneof(fc.constant(Infinity), fc.double({min: 1, max: 100, noNaN: true}));
    const weather = fc.array(fc.tuple(temperature, film), {minLength: 3, maxLength: 3});
    fc.assert(
      fc.property(temperature, weather, (initial, [start, middle, end]) => {
        const body = conductingBody(conductionGrid(layers), 1800, initial);
        const before = heat(body);
        const first = temperaturesOf(body)[0];
        startStep(body, new Float64Array([...start, ...middle]));
        finishStep(body, new Float64Array(end));
        const flux = [
          surfaceFlux(body.grid, first, ...start),
          surfaceFlux(body.grid, body.stageCell, ...middle),
          surfaceFlux(body.grid, temperaturesOf(body)[0], ...end),
        ];
        const came = flux.reduce((sum, q, i) => sum + 1800 * FLUX_WEIGHTS[i] * q, 0);
        expect(Math.abs(heat(body) - before - came)).toBeLessThan(1); // [J/m²] of some 10⁷
      }),
    );
  });

  test("a millimetre cell does not ring after a jump of the surface", () => {
    const body = conductingBody(conductionGrid(layers), 3600, 0);
    const hot = new Float64Array([50, Infinity, 50, Infinity]);
    let last = 0;
    for (let i = 0; i < 24; i++) {
      startStep(body, hot);
      finishStep(body, hot);
      // The exact first cell rises without turning back to 50. A scheme that rings overshoots by tens of kelvins.
      if (i > 1) expect(temperaturesOf(body)[0]).toBeGreaterThan(last - 0.01);
      expect(body.firstCell).toBeLessThan(51);
      last = body.firstCell;
    }
    expect(last).toBeGreaterThan(49);
  });

  test("under a constant film the body settles into its periodic state at once", () => {
    // The film that the modes are made for, 1/(1/U + R₀) = 20 W/(m²·K): then the correction is exact up to the time step.
    const grid = conductionGrid(layers);
    const film = 1 / (1 / 20 - grid.resistance[0]);
    const body = conductingBody(grid, 1800, 3);
    const day = (): void => {
      for (let k = 0; k < 48; k++) {
        const at = (part: number): number => 10 + 8 * Math.sin((2 * Math.PI * (k + part)) / 48);
        startStep(body, Float64Array.of(at(0), film, at(STAGE), film));
        finishStep(body, Float64Array.of(at(1), film));
      }
    };
    const start = body.amplitude.slice();
    day();
    settle(body, start, 86400);
    const before = temperaturesOf(body);
    day();
    temperaturesOf(body).forEach((T, i) => {
      expect(Math.abs(T - before[i])).toBeLessThan(1e-3); // of 7 K; third order in the step for the slow modes
    });
  });

  test("stage stands where TR-BDF2 has it", () => {
    expect(STAGE).toBeCloseTo(2 - Math.sqrt(2), 15); // makes both stages share a matrix: Bank et al. 1985
    expect(FLUX_WEIGHTS[0] + FLUX_WEIGHTS[1] + FLUX_WEIGHTS[2]).toBeCloseTo(1, 15); // derived: consistency
    expect(FLUX_WEIGHTS[1] * STAGE + FLUX_WEIGHTS[2]).toBeCloseTo(0.5, 15); // derived: second order
  });
});

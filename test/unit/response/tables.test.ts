import {describe, expect, test} from "vitest";
import {wavenumbers} from "../../../src/engine/response/loads.ts";
import {responseGeometry} from "../../../src/engine/response/model.ts";
import {contactSegments} from "../../../src/engine/response/parts.ts";
import {respond} from "../../../src/engine/response/respond.ts";
import {addInterpolated, combine, emptyTables, type ResponseTables} from "../../../src/engine/response/tables.ts";
import {section} from "../section/fixture.ts";

const PATCH = {length: 0.2, centres: Float64Array.of(0, 0.1)};
const SIZE = {states: 3, segments: 2};
const COLUMNS = 2 + SIZE.segments;

/** Each entry a value of its wavenumber and its column. */
function filled(count: number, wheel: (beta: number) => number, unit: (beta: number) => number): ResponseTables {
  const tables = emptyTables(wavenumbers(count, 2, 300), [PATCH], SIZE);
  const each = tables.opening.length / count;
  tables.opening.forEach((_, i) => {
    const beta = tables.waves.beta[Math.floor(i / each)];
    tables.opening[i] = i % COLUMNS < 2 ? wheel(beta) : unit(beta);
  });
  tables.shear.forEach((_, i) => {
    tables.shear[i] = wheel(tables.waves.beta[Math.floor(i / (tables.shear.length / count))]);
  });
  return tables;
}

test("differences are added by interpolation: exact for a polynomial, that of unit pressures over a falling function", () => {
  const polynomial = (beta: number): number => {
    const s = Math.asinh(beta * 2);
    return 1 - 2 * s + 0.3 * s ** 3;
  };
  const falling = (beta: number): number => polynomial(beta) / (1 + 0.2 * beta); // 0.2 m, about a segment's length
  const tables = filled(
    14,
    () => 1,
    () => 5,
  );
  addInterpolated(tables, filled(7, polynomial, falling));
  const expected = filled(
    14,
    b => 1 + polynomial(b),
    b => 5 + falling(b),
  );
  for (const name of ["opening", "shear"] as const)
    tables[name].forEach((v, i) => void expect(v).toBeCloseTo(expected[name][i], 10));
});

describe("two meshes", () => {
  const ROAD = section({}, {facesTouch: true});
  const geometry = responseGeometry(ROAD, {
    accuracy: 0.05,
    reach: 0.5,
    cracks: {interlayer: [0, 0.01], overlay: [0, 0.02], overlayThickness: 0.08, interlayerThickness: 0.01},
  });
  const moduli = ROAD.layers.map(l => l.material.modulus[0].modulus);
  const waves = wavenumbers(2, 1, 30);
  const solve = (meshes: typeof geometry.meshes, corrections = waves): ResponseTables =>
    respond({...geometry, meshes, waves, corrections}, {moduli, transfer: 1e9}, [PATCH]);
  const [coarse, fine] = geometry.meshes.map(mesh => solve([mesh, mesh], {...waves, beta: new Float64Array(0)}));

  test("solved at the same wavenumbers give twice the fine one less the coarse one", () => {
    const both = solve(geometry.meshes);
    const expected = combine([2, -1], [fine, coarse]);
    for (const name of ["opening", "shear"] as const) {
      const largest = Math.max(...both[name].map(Math.abs));
      const worst = Math.max(...both[name].map((v, i) => Math.abs(v - expected[name][i])));
      expect(worst / largest).toBeLessThan(1e-12);
    }
  });

  test("what a pressure on one segment opens at another is reciprocal and positive definite", () => {
    const {opening, states, wheels} = fine;
    const lengths = contactSegments(geometry.meshes[1].model, true).map(s => s.length);
    expect(lengths.length).toBe(3);
    for (let at = 0; at < waves.beta.length * states; at++) {
      // Work of one pressure on the opening by another [m² per Pa].
      const F = (r: number, c: number): number => lengths[r] * opening[(at * 6 + 3 + r) * (wheels + 3) + wheels + c];
      const size = F(0, 0) + F(1, 1) + F(2, 2);
      for (const [r, c] of [
        [0, 1],
        [0, 2],
        [1, 2],
      ])
        expect(Math.abs(F(r, c) - F(c, r)) / size).toBeLessThan(1e-10);
      const minor = F(0, 0) * F(1, 1) - F(0, 1) ** 2;
      const determinant =
        F(2, 2) * minor - F(0, 0) * F(1, 2) ** 2 - F(1, 1) * F(0, 2) ** 2 + 2 * F(0, 1) * F(1, 2) * F(0, 2);
      for (const positive of [F(0, 0), minor, determinant]) expect(positive).toBeGreaterThan(0);
    }
  });

  test("are not combined with others of another size", () => {
    expect(() => combine([1], [])).toThrow(/weights\.length: got 1/);
    const other = emptyTables(waves, [PATCH], {states: 1, segments: 3});
    expect(() => combine([1, 1], [fine, other])).toThrow(/responses\[1\]\.opening\.length/);
  });
});

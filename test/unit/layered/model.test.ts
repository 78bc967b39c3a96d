import fc from "fast-check";
import {describe, expect, test} from "vitest";
import {InputError} from "../../../src/engine/errors.ts";
import {
  type ElasticBase,
  type ElasticLayer,
  horizontalStrains,
  largestHorizontal,
  layeredModel,
  type PointResponse,
} from "../../../src/engine/layered/index.ts";

const HALF_SPACE: ElasticBase = {kind: "half-space"};
const road: ElasticLayer[] = [
  {modulus: 4e9, poisson: 0.35, thickness: 0.08},
  {modulus: 1e10, poisson: 0.2, thickness: 0.2},
  {modulus: 9e7, poisson: 0.4, thickness: Infinity},
];
const wheel = {x: 0, y: 0, radius: 0.15, pressure: 7e5};

function numbers(p: PointResponse): number[] {
  return [...Object.values(p.displacement).map(u => u * 1e9), ...Object.values(p.stress)];
}

describe("properties of the solution", () => {
  test("loads superpose, and the answer turns with the axes", () => {
    const model = layeredModel(road, HALF_SPACE);
    const other = {x: 0.2, y: 0.35, radius: 0.1, pressure: 5e5};
    const at = [{x: 0.1, y: 0.05, z: 0.08}];
    const one = numbers(model.respond([wheel], at).points[0]);
    const two = numbers(model.respond([other], at).points[0]);
    const both = numbers(model.respond([wheel, other], at).points[0]);
    both.forEach((value, i) => {
      expect(value).toBeCloseTo(one[i] + two[i], 4); // Pa, and nm
    });
    const turned = model.respond([{...other, x: -other.y, y: other.x}], [{x: -0.05, y: 0.1, z: 0.08}]).points[0];
    const straight = model.respond([other], at).points[0];
    expect(turned.stress.xx).toBeCloseTo(straight.stress.yy, 4);
    expect(turned.stress.xy).toBeCloseTo(-straight.stress.xy, 4);
    expect(turned.stress.yz).toBeCloseTo(straight.stress.xz, 4);
    expect(turned.displacement.x * 1e9).toBeCloseTo(-straight.displacement.y * 1e9, 4);
  });

  test("vertical stress on any plane carries the load", () => {
    // On a rigid base the response dies out exponentially, over √(E·h·H/G) = 2.6 m here; the integral is cut at 50 m.
    const model = layeredModel([road[0], {...road[1], modulus: 5e8}, {...road[2], thickness: 0.5}], {kind: "rigid"});
    for (const z of [0.08, 0.28, 0.78]) {
      const n = 400; // Simpson's rule in s = asinh(x / 0.1 m)
      const end = Math.asinh(500);
      const places = Array.from({length: n + 1}, (_, i) => ({x: 0.1 * Math.sinh((end * i) / n), y: 0, z}));
      const {points} = model.respond([wheel], places);
      let sum = 0;
      points.forEach((p, i) => {
        const weight = i === 0 || i === n ? 1 : i % 2 === 1 ? 4 : 2;
        sum += weight * p.stress.zz * places[i].x * 0.1 * Math.cosh((end * i) / n);
      });
      const force = (sum * 2 * Math.PI * end) / (3 * n);
      expect(Math.abs(force / (-Math.PI * 0.15 ** 2 * 7e5) - 1)).toBeLessThan(1e-8); // Simpson's error
    }
  });

  test("local equilibrium along r and z", () => {
    const model = layeredModel(road, HALF_SPACE);
    const d = 1e-4;
    for (const [x, z] of [
      [0.07, 0.03],
      [0.2, 0.15],
      [0.4, 0.6],
    ]) {
      const places = [
        [0, 0],
        [d, 0],
        [-d, 0],
        [0, d],
        [0, -d],
      ].map(([dx, dz]) => ({x: x + dx, y: 0, z: z + dz}));
      const s = model.respond([wheel], places).points.map(p => p.stress);
      const radial = (s[1].xx - s[2].xx) / (2 * d) + (s[3].xz - s[4].xz) / (2 * d) + (s[0].xx - s[0].yy) / x;
      const vertical = (s[1].xz - s[2].xz) / (2 * d) + (s[3].zz - s[4].zz) / (2 * d) + s[0].xz / x;
      const scale = 7e5 / 0.1; // pressure over a length
      expect(Math.abs(radial) / scale).toBeLessThan(1e-4); // second-order differences
      expect(Math.abs(vertical) / scale).toBeLessThan(1e-4);
    }
  });

  test("strains are those of the displacements", () => {
    const model = layeredModel(road, {kind: "half-space"});
    const d = 1e-4;
    const [x, z] = [0.17, 0.05];
    const places = [
      [d, 0],
      [-d, 0],
      [0, d],
      [0, -d],
      [0, 0],
    ].map(([dx, dz]) => ({x: x + dx, y: 0, z: z + dz}));
    const [right, left, down, up, here] = model.respond([wheel], places).points;
    const exx = (right.displacement.x - left.displacement.x) / (2 * d);
    const ezz = (down.displacement.z - up.displacement.z) / (2 * d);
    const exz = (down.displacement.x - up.displacement.x + right.displacement.z - left.displacement.z) / (4 * d);
    expect(Math.abs(exx - here.strain.xx)).toBeLessThan(1e-9); // strains are of 1e-4, differences second order
    expect(Math.abs(ezz - here.strain.zz)).toBeLessThan(1e-9);
    expect(Math.abs(exz - here.strain.xz)).toBeLessThan(1e-9);
    expect(here.strain.yy).toBeCloseTo(here.displacement.x / x, 12);
  });

  test("identical layers are the half-space, whatever the cuts", () => {
    const solid = {modulus: 1e8, poisson: 0.4};
    const whole = layeredModel([{...solid, thickness: Infinity}], HALF_SPACE);
    const cut = layeredModel(
      [0.03, 0.2, 0.5, Infinity].map(thickness => ({...solid, thickness})),
      HALF_SPACE,
    );
    const places = [0, 0.02, 0.03, 0.1, 0.6, 3].flatMap(z => [0, 0.15, 0.4].map(x => ({x, y: 0, z})));
    const a = whole.respond([wheel], places).points;
    const b = cut.respond([wheel], places).points;
    a.forEach((p, i) => {
      const other = numbers(b[i]);
      numbers(p).forEach((value, k) => {
        expect(Math.abs(value - other[k])).toBeLessThan(1e-4); // of 7e5 Pa, and of 2e6 nm
      });
    });
  });

  const random = fc.record({
    layers: fc.array(
      fc.record({
        modulus: fc.double({min: 6, max: 10, noNaN: true}).map(p => 10 ** p), // contrasts up to 1e4
        poisson: fc.double({min: 0, max: 0.5, noNaN: true}),
        thickness: fc.double({min: -2, max: 0.3, noNaN: true}).map(p => 10 ** p), // 10 mm to 2 m
        shearSpringBelow: fc.constantFrom(Infinity, 0, 1e5, 1e9, 1e12),
      }),
      {minLength: 2, maxLength: 5},
    ),
    base: fc.constantFrom<ElasticBase>(HALF_SPACE, {kind: "rigid"}, {kind: "springs", stiffness: 5e7}),
  });

  test("horizontal strains of several sets of moduli are those of the full solution, one model after the other", () => {
    const softening = fc.double({min: 0.01, max: 1, noNaN: true});
    fc.assert(
      fc.property(random, softening, ({layers, base}, factor) => {
        const stack: ElasticLayer[] = layers.map((layer, j) =>
          base.kind === "half-space" && j === layers.length - 1 ? {...layer, thickness: Infinity} : layer,
        );
        const first = stack[0].thickness;
        const points = [0, 0.1, 0.9, 4].flatMap(x => [0, first / 2, first].map(z => ({x, y: 0.05, z, layer: 0})));
        points.push({x: 0.3, y: 0, z: first, layer: 1});
        const loads = [wheel, {x: 0.3, y: 0.1, radius: 0.1, pressure: 5e5}];
        const moduli = [1, factor].map(f => stack.map((l, j) => (j === 0 ? f * l.modulus : l.modulus)));
        horizontalStrains({layers: stack, base, moduli}, loads, points).forEach((strains, s) => {
          const model = layeredModel(
            stack.map((l, j) => ({...l, modulus: moduli[s][j]})),
            base,
          );
          const full = model.respond(loads, points).points.map(p => largestHorizontal(p.strain));
          const largest = Math.max(...full.map(Math.abs));
          full.forEach((strain, i) => {
            expect(Math.abs(strains[i] - strain) / largest).toBeLessThan(1e-11); // rounding grows with the ratio of moduli
          });
        });
      }),
      {numRuns: 40},
    );
  });

  test("tractions and deflection are continuous; slip has no shear, bond no jump, a spring T = k·jump", () => {
    fc.assert(
      fc.property(random, ({layers, base}) => {
        const stack: ElasticLayer[] = layers.map((layer, j) =>
          base.kind === "half-space" && j === layers.length - 1 ? {...layer, thickness: Infinity} : layer,
        );
        const model = layeredModel(stack, base);
        let z = 0;
        for (let j = 0; j + 1 < stack.length; j++) {
          z += stack[j].thickness;
          const {points} = model.respond(
            [wheel],
            [
              {x: 0.2, y: 0, z, layer: j},
              {x: 0.2, y: 0, z, layer: j + 1},
              {x: 0, y: 0, z: 0},
            ],
          );
          const [above, below, top] = points;
          const small = 1e-8 * wheel.pressure;
          const jump = below.displacement.x - above.displacement.x;
          const span = Math.abs(top.displacement.z);
          const spring = stack[j].shearSpringBelow ?? Infinity;
          expect(Math.abs(above.stress.zz - below.stress.zz)).toBeLessThan(small);
          expect(Math.abs(above.stress.xz - below.stress.xz)).toBeLessThan(small);
          expect(Math.abs(above.displacement.z - below.displacement.z)).toBeLessThan(1e-8 * span);
          if (spring === 0) expect(Math.abs(above.stress.xz)).toBeLessThan(small);
          else if (spring === Infinity) expect(Math.abs(jump)).toBeLessThan(1e-8 * span);
          else expect(Math.abs(above.stress.xz / spring - jump)).toBeLessThan(1e-8 * (span + small / spring));
        }
      }),
      {numRuns: 60, seed: 7},
    );
  });

  test("a shear spring is the limit of a thin incompressible layer of G = k·t", () => {
    const k = 2e9;
    const place = [{x: 0.1, y: 0, z: 0.08}];
    const upper = {...road[0], shearSpringBelow: k};
    const exact = layeredModel([upper, road[1], road[2]], HALF_SPACE).respond([wheel], place).points[0];
    const error = (t: number) => {
      const glue = {modulus: 3 * k * t, poisson: 0.5, thickness: t};
      const thin = layeredModel([road[0], glue, road[1], road[2]], HALF_SPACE).respond([wheel], place).points[0];
      return Math.abs(thin.strain.xx / exact.strain.xx - 1);
    };
    expect(error(1e-3)).toBeLessThan(0.02);
    expect(error(1e-3) / error(1e-4)).toBeGreaterThan(8); // first order in t
    expect(error(1e-3) / error(1e-4)).toBeLessThan(12);
  });

  test("smooth springs under the last layer carry −k·w without shear; a rough rigid base does not move", () => {
    const stack = [road[0], {...road[1]}];
    const place = [{x: 0.1, y: 0, z: 0.28}];
    const sprung = layeredModel(stack, {kind: "springs", stiffness: 5e7}).respond([wheel], place).points[0];
    expect(sprung.stress.zz / (-5e7 * sprung.displacement.z)).toBeCloseTo(1, 9);
    expect(Math.abs(sprung.stress.xz)).toBeLessThan(1e-4);
    const rigid = layeredModel(stack, {kind: "rigid"}).respond([wheel], place).points[0];
    expect(Math.abs(rigid.displacement.z)).toBeLessThan(1e-15);
    expect(Math.abs(rigid.displacement.x)).toBeLessThan(1e-15);
  });
});

describe("what it refuses", () => {
  const refuses = (run: () => unknown, code: InputError["code"], path: RegExp) => {
    try {
      run();
    } catch (error) {
      expect(error).toBeInstanceOf(InputError);
      expect((error as InputError).code).toBe(code);
      expect((error as InputError).path).toMatch(path);
      return;
    }
    expect.unreachable("did not throw");
  };

  test("layers that make no stack", () => {
    refuses(() => layeredModel([], HALF_SPACE), "shape", /layers/);
    refuses(
      () => layeredModel([{...road[0], modulus: Number.NaN}, road[2]], HALF_SPACE),
      "domain",
      /layers\[0\].modulus/,
    );
    refuses(() => layeredModel([{...road[0], poisson: 0.51}, road[2]], HALF_SPACE), "domain", /poisson/);
    refuses(() => layeredModel([{...road[0], thickness: 0}, road[2]], HALF_SPACE), "domain", /thickness/);
    refuses(() => layeredModel([road[0]], HALF_SPACE), "domain", /layers\[0\].thickness/);
    refuses(() => layeredModel([road[2]], {kind: "rigid"}), "domain", /layers\[0\].thickness/);
    refuses(
      () => layeredModel([{...road[0], shearSpringBelow: -1}, road[2]], HALF_SPACE),
      "domain",
      /shearSpringBelow/,
    );
    refuses(() => layeredModel([road[0]], {kind: "springs", stiffness: 0}), "domain", /base.stiffness/);
  });

  test("points and loads that are nowhere", () => {
    const model = layeredModel([road[0], road[1]], {kind: "rigid"});
    refuses(() => model.respond([wheel], [{x: 0, y: 0, z: 0.29}]), "domain", /points\[0\].z/);
    refuses(() => model.respond([wheel], [{x: 0, y: 0, z: 0.1, layer: 0}]), "domain", /points\[0\].z/);
    refuses(() => model.respond([wheel], [{x: 0, y: 0, z: 0.1, layer: 2}]), "domain", /layer/);
    refuses(() => model.respond([wheel], [{x: 0, y: 0, z: -1}]), "domain", /points\[0\].z/);
    refuses(() => model.respond([{...wheel, radius: 0}], [{x: 0, y: 0, z: 0}]), "domain", /loads\[0\].radius/);
  });

  test("a film so thin and a point so far that the integral would need millions of nodes", () => {
    const film = layeredModel([{...road[0], thickness: 1e-5}, road[1], road[2]], HALF_SPACE);
    refuses(() => film.respond([wheel], [{x: 10, y: 0, z: 0}]), "convergence", /wavenumbers/);
  });
});

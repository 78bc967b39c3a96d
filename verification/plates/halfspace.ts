/** A square wheel on a deep homogeneous solid without a joint, against the half-space. */
import {wavenumbers} from "../../src/engine/response/index.ts";
import type {Comparison} from "../table.ts";
import {integral} from "./kirchhoff.ts";
import {lines, meanBetween, solveWhole, wholeMesh} from "./solve.ts";

interface Traction {
  readonly xx: number;
  readonly xz: number;
  readonly xy: number;
}

/**
 * Point load 1 on the half-space z > 0, at a point (x, y, z) from it; tension positive.
 * @source Boussinesq 1885; in this form Poulos & Davis 1974, Elastic Solutions for Soil and Rock Mechanics
 */
function boussinesq(x: number, y: number, z: number, nu: number): Traction {
  const R = Math.hypot(x, y, z);
  const c = (1 - 2 * nu) / 3;
  const f = 3 / (2 * Math.PI);
  const side = (2 * R + z) / ((R + z) ** 2 * R ** 3);
  return {
    xx: -f * ((x * x * z) / R ** 5 + c * (1 / (R * (R + z)) - side * x * x - z / R ** 3)),
    xz: -f * ((x * z * z) / R ** 5),
    xy: -f * ((x * y * z) / R ** 5 - c * side * x * y),
  };
}

/** Unit pressure on |x − x₀| < a, |y| < a, at (0, y, z): Boussinesq integrated over the patch (Love 1929 in closed form). */
function love(x0: number, a: number, y: number, z: number, nu: number): Traction {
  const over = (f: (t: Traction) => number): number =>
    integral(s => integral(t => f(boussinesq(-s, y - t, z, nu)), -a, a, 8), x0 - a, x0 + a, 8);
  return {xx: over(t => t.xx), xz: over(t => t.xz), xy: over(t => t.xy)};
}

/** Deflection of the surface at (0, y) relative to the point at depth H below the patch's centre, times E. */
function deflection(x0: number, a: number, y: number, H: number, nu: number): number {
  // ∬ 1/r over the patch: x·ln(y + r) + y·ln(x + r) between its corners
  const corner = (x: number, t: number): number => {
    const r = Math.hypot(x, t);
    const term = (p: number, q: number): number => (Math.abs(p) < 1e-9 ? 0 : p * Math.log(q + r));
    return term(x, t) + term(t, x);
  };
  const [x1, x2, y1, y2] = [-x0 - a, -x0 + a, y - a, y + a];
  const inverse = corner(x2, y2) - corner(x1, y2) - corner(x2, y1) + corner(x1, y1);
  const atBase = (((1 + nu) * (3 - 2 * nu)) / (2 * Math.PI * H)) * 4 * a * a; // of the point load, at depth H
  return ((1 - nu * nu) / Math.PI) * inverse - atBase;
}

const DEPTH = 50; // of the rigid base, 500 half sides: its own effect is under 0.3 % of the deflection, taken off below
const A = 0.1; // half side [m]
const MODULUS = 1e8;
const GROWTH = 1.25; // of element sizes away from the patch

export function halfspace(compare: (c: Comparison) => void): void {
  const source = "point load (Boussinesq 1885) integrated over the patch; Love 1929";
  const zones = [
    [0.01, 0.05],
    [0.05, 0.1],
    [0.1, 0.2],
    [0.2, 0.3],
  ];
  const y = [0, 0.05, 0.1, 0.2];
  for (const poisson of [0.3]) {
    for (const x0 of [0, 0.06, 0.15]) {
      const edges = [...new Set([Math.abs(x0 - A), x0, x0 + A])].filter(v => v > 0);
      const mesh = wholeMesh({
        x: lines([...edges, DEPTH], 0.005, GROWTH),
        z: lines([...zones.flat(), DEPTH], 0.005, GROWTH),
        springs: false,
        farEnd: "held",
        reach: 1,
      });
      const wheel = {x: x0, length: 2 * A, width: 2 * A, pressure: 1};
      const solved = solveWhole(mesh, {modulus: MODULUS, poisson, support: 0}, wheel, wavenumbers(20, DEPTH, 300), y);
      const where = `ν = ${poisson}, wheel at x/a = ${x0 / A}`;
      y.forEach((at, i) => {
        const xx = solved.tractions(i, 0);
        const xy = solved.tractions(i, 1);
        const xz = solved.tractions(i, 2);
        zones.forEach(([from, to]) => {
          const mean = (f: (z: number) => number): number => integral(f, from, to, 2) / (to - from);
          const expected = (component: keyof Traction, offset = at): number =>
            mean(z => love(x0, A, offset, z, poisson)[component]);
          const found = (values: Float64Array): number => meanBetween(solved.model.path, values, from, to);
          const name = `${where}, y/a = ${at / A}, z/a = ${from / A} to ${to / A}`;
          // 1 % of the largest traction at that depth, but 0.1 % of q at least: each passes through zero somewhere.
          const tolerance = Math.max(0.01 * Math.max(Math.abs(expected("xx", 0)), Math.abs(expected("xz", 0))), 0.001);
          const shared = {source, standing: "derived", unit: "–", tolerance, absolute: true} as const;
          compare({...shared, name: `${name}: σx/q`, expected: expected("xx"), computed: found(xx)});
          if (x0 === 0) return; // by symmetry there is no shear
          compare({...shared, name: `${name}: τxz/q`, expected: expected("xz"), computed: found(xz)});
          if (at > 0) compare({...shared, name: `${name}: τxy/q`, expected: expected("xy"), computed: found(xy)});
        });
        compare({
          name: `${where}, y/a = ${at / A}: surface deflection wE/(qa)`,
          source: "Love 1929, less the half-space's deflection at the depth of the rigid base",
          standing: "derived",
          unit: "–",
          expected: deflection(x0, A, at, DEPTH, poisson) / A,
          computed: (solved.pathDeflection(i, 0) * MODULUS) / A,
          tolerance: 0.01,
        });
      });
    }
  }
}

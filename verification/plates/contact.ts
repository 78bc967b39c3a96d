/**
 * Contact in plane strain, node by node, against the engine's segments and its closing of whole cracks. Node by node:
 * opening g = g₀ + C·p ≥ 0, pressure p ≥ 0, p·g = 0 over all nodes that may touch, by projected Gauss–Seidel sweeps.
 */
import {solve} from "../../src/engine/numeric/index.ts";
import {
  type CrackLengths,
  condense,
  type Geometry,
  type LineModel,
  lineModel,
  pathMaterial,
  respond,
  settledOpening,
  stateSpace,
  stiffnesses,
  tipDepths,
  wheelLoads,
  zonesOf,
} from "../../src/engine/response/index.ts";
import {buildMesh, type Section} from "../../src/engine/section/index.ts";
import type {Comparison} from "../table.ts";
import {moduliOf, road} from "./balance.ts";

const LENGTH = 0.24; // of the wheel's patch [m]
const CENTRES = Float64Array.of(0, 0.06, 0.12, 0.18, 0.3, 0.5, 0.8, 1.2);
const UNDERSIDE = 1; // tip and quantity number

/** ⟨σx⟩ at the lower tip for each wheel position, contact node by node, */
function nodeByNode(
  model: LineModel,
  S: Float64Array,
  broken: (node: number) => boolean,
  zone: Zone,
  facesTouch: boolean,
): number[] {
  const {size, path, face, cut, below} = model;
  const whole = [cut[cut.length - 1], ...below];
  const held = new Uint8Array(size);
  for (const n of whole) held[n.U] = 1;
  path.forEach((n, k) => {
    if (!broken(k)) held[n.U] = 1;
  });
  const free = [...Array(size).keys()].filter(k => !held[k]);
  const n = free.length;
  const A = new Float64Array(n * n);
  for (let i = 0; i < n; i++) for (let j = 0; j <= i; j++) A[i * n + j] = S[free[i] * size + free[j]];
  const touching = [...path.filter((_, k) => broken(k)), ...(facesTouch ? face : []), ...cut.slice(0, -1)].map(p =>
    free.indexOf(p.U),
  );
  const m = touching.length;
  const count = CENTRES.length;
  const loads = wheelLoads(model.mesh, LENGTH, CENTRES, "symmetric");
  const B = new Float64Array((count + m) * n);
  for (let r = 0; r < count; r++)
    model.surface.forEach((place, s) => {
      B[r * n + free.indexOf(place)] += loads.values[r * model.surface.length + s];
    });
  touching.forEach((place, c) => {
    B[(count + c) * n + place] = 1;
  });
  solve(A, n, B, count + m);
  const C = (r: number, c: number): number => B[(count + c) * n + touching[r]];

  return Array.from({length: count}, (_, r) => {
    const p = new Float64Array(m);
    const gap = Float64Array.from(touching, place => B[r * n + place]);
    for (let sweep = 1, change = Infinity; change > 1e-9 * LENGTH; sweep++) {
      if (sweep > 200_000) throw new Error("projected Gauss–Seidel did not settle");
      change = 0;
      for (let i = 0; i < m; i++) {
        const next = Math.max(0, p[i] - gap[i] / C(i, i));
        const d = next - p[i];
        if (d === 0) continue;
        for (let j = 0; j < m; j++) gap[j] += C(j, i) * d;
        p[i] = next;
        change = Math.max(change, Math.abs(d));
      }
    }
    const u = Float64Array.from(free, (_, i) => {
      let sum = B[r * n + i];
      for (let c = 0; c < m; c++) sum += p[c] * B[(count + c) * n + i];
      return sum;
    });
    // Force across a tied node: what the tie lacks; no wheel acts on U.
    return zone.nodes.reduce(
      (sum, node, i) =>
        sum - zone.weights[i] * free.reduce((f, place, k) => f + S[path[node].U * size + place] * u[k], 0),
      0,
    );
  });
}

interface Zone {
  readonly nodes: Int32Array;
  readonly weights: Float64Array;
}

/** Lower tip's strain for each wheel position, both ways; a crack pressed shut is not strained in opening. */
function tipStrains(section: Section, length: number) {
  const cracks: CrackLengths = {interlayer: [0], overlay: [0, length], overlayThickness: 0.08, interlayerThickness: 0};
  const extent = {spacings: 2.5};
  const mesh = buildMesh(section, {
    rowSize: 0.004,
    finest: 4e-5,
    halved: false,
    tips: tipDepths(cracks),
    extent,
    reach: 1.5,
  });
  const model = lineModel(mesh);
  const space = stateSpace(model, cracks);
  const condition = {moduli: moduliOf(section), transfer: 0};
  // The engine's tables at β = 0 alone; the same mesh twice, so that the extrapolation changes nothing.
  const waves = {beta: Float64Array.of(0), scale: 1, last: 1};
  const everyWave = {waves, corrections: waves};
  const geometry: Geometry = {
    section,
    meshes: [
      {model, space},
      {model, space},
    ],
    ...everyWave,
  };
  const tables = respond(geometry, condition, [{length: LENGTH, centres: CENTRES}]);
  const state = space.index(0, 1, 0);
  const patterns = [...Array(1 << tables.segments).keys()].map(p => settledOpening(tables, state, p));
  const value = (pattern: number, r: number, quantity: number): number =>
    patterns[pattern][quantity * CENTRES.length + r];
  const settle = (r: number): number =>
    patterns.findIndex((_, p) => [...Array(tables.segments).keys()].every(k => value(p, r, 3 + k) >= 0));
  const modulus = moduliOf(section)[0] / (1 - 0.35 ** 2);
  const strain = (sigma: number, r: number): number =>
    Math.hypot(
      Math.max(sigma, 0),
      Math.sqrt(section.shearWeight) * tables.shear[(state * 6 + UNDERSIDE) * CENTRES.length + r],
    ) / modulus;
  const S = condense(model, stiffnesses(section, condition), 0);
  const zones = zonesOf(model, space, pathMaterial(section, model, condition))(space.states[state]);
  const exact = nodeByNode(model, S, k => k > space.underside[1], zones[UNDERSIDE]!.opening, section.joint.facesTouch);
  const each = (f: (r: number) => number): number[] => [...CENTRES.keys()].map(f);
  return {
    exact: each(r => strain(exact[r], r)),
    engine: each(r => strain(value(Math.max(settle(r), 0), r, UNDERSIDE), r)),
  };
}

export function contactCases(compare: (c: Comparison) => void): void {
  const tight = road();
  const weak = road({shearWeight: 0}); // opening alone: shear knows no contact
  const sealed = road({joint: {...road().joint, facesTouch: false}, shearWeight: 0});
  for (const [name, section, length, worst, damage] of [
    ["tight joint, crack 20 mm up", tight, 0.02, 0.05, 0.01],
    ["tight joint, crack 40 mm up", tight, 0.04, 0.05, 0.01],
    ["tight joint, crack 40 mm up, opening alone", weak, 0.04, 0.15, 0.6],
    ["open joint, crack 40 mm up, opening alone", sealed, 0.04, 0.45, 0.2],
  ] as const) {
    const {exact, engine} = tipStrains(section, length);
    const peak = Math.max(...exact);
    const sum = (e: readonly number[]): number => e.reduce((s, v) => s + v ** 4, 0);
    const shared = {
      source: "every node by itself: complementarity, projected Gauss–Seidel",
      standing: "derived",
    } as const;
    compare({
      ...shared,
      name: `${name}: largest difference of tip strain over the largest strain`,
      unit: "–",
      expected: 0,
      computed: Math.max(...exact.map((e, r) => Math.abs(engine[r] - e))) / peak,
      tolerance: worst,
      absolute: true,
    });
    compare({
      ...shared,
      name: `${name}: sum of fourth powers along the pass`,
      unit: "–",
      expected: 1,
      computed: sum(engine) / sum(exact),
      tolerance: damage,
    });
  }
}

/** What any model must keep: vertical balance, reciprocity of deflections, and what is out of reach stays out of it. */
import {
  type Condition,
  condense,
  contactSegments,
  lineModel,
  type SurfaceLoads,
  solveDirect,
  stiffnesses,
  wheelLoads,
} from "../../src/engine/response/index.ts";
import {buildMesh, type LineNode, type Mesh, type Section, SIDE} from "../../src/engine/section/index.ts";
import type {Compare} from "../table.ts";
import {layer} from "./solve.ts";

export function road(change: Partial<Section> = {}, interlayer = false): Section {
  return {
    layers: [
      layer("overlay", 3.5e9, 0.35, 0.08),
      ...(interlayer ? [layer("interlayer", 4e8, 0.4, 0.01)] : []),
      layer("jointed", 9e9, 0.2, 0.2),
      layer("foundation", 9e7, 0.4, 1.2),
    ],
    joint: {
      spacing: 4,
      width: 0,
      unbondedStrip: 0,
      transfer: {kind: "spring", stiffness: 0},
      facesTouch: true,
      cutDepth: 0.3,
    },
    slabFriction: Infinity,
    base: {kind: "rigid"},
    crackInterlock: 0,
    shearWeight: 1,
    ...change,
  };
}

export const moduliOf = (section: Section): number[] => section.layers.map(l => l.material.modulus[0].modulus);

/** The mesh with the nodes at its bottom kept as well (put before the face's own, with no length of the face). */
function withBottom(mesh: Mesh): {mesh: Mesh; shares: number[]} {
  const {grid} = mesh;
  const nodes: LineNode[] = [];
  const shares: number[] = [];
  const known = new Map<number, number>();
  for (const {column, row, unknowns} of grid.elements) {
    if (row !== grid.z.length - 2) continue;
    SIDE.bottom.forEach((node, k) => {
      const [U, V, W] = [0, 1, 2].map(c => unknowns[3 * node + c]);
      const share = (grid.x[column + 1] - grid.x[column]) * (k === 1 ? 4 / 6 : 1 / 6);
      const place = known.get(W);
      if (place !== undefined) shares[place] += share;
      else {
        known.set(W, nodes.length);
        nodes.push({z: -1, share: 0, unknowns: [U, V, W]});
        shares.push(share);
      }
    });
  }
  return {mesh: {...mesh, face: [...nodes, ...mesh.face]}, shares};
}

const CENTRES = [0.05, 0.3, 1.5];
const LENGTH = 0.24;

export function equilibrium(compare: Compare): void {
  const support = 2e8;
  for (const [name, section] of [
    ["bonded", road({base: {kind: "springs", stiffness: support}})],
    [
      "with friction and a wide joint",
      road(
        {
          base: {kind: "springs", stiffness: support},
          slabFriction: 1e9,
          joint: {...road().joint, width: 0.01, unbondedStrip: 0.03},
        },
        true,
      ),
    ],
  ] as const) {
    const extent = {spacings: 2.5};
    const built = buildMesh(section, {rowSize: 0.01, finest: 1e-4, halved: false, tips: [0.05], extent, reach: 2});
    const {mesh, shares} = withBottom(built);
    const model = lineModel(mesh);
    const condition: Condition = {moduli: moduliOf(section), transfer: 0};
    const S = condense(model, stiffnesses(section, condition), 0);
    for (const [state, tied] of [
      ["uncracked", () => true],
      ["cracked to 50 mm depth from below", (k: number) => model.path[k].z < 0.05 + 1e-9],
    ] as const) {
      const request = {part: "symmetric", tied, transfer: 0, interlock: 0, contact: []} as const;
      const {displacement} = solveDirect(model, S, request, wheelLoads(mesh, LENGTH, CENTRES, "symmetric"));
      CENTRES.forEach((x, r) => {
        const W = (n: number): number => displacement[r * model.size + model.face[n].W];
        const reaction = shares.reduce((sum, share, n) => sum + support * share * W(n), 0);
        compare({
          name: `${name}, ${state}, wheel at ${x} m: reaction of the base over the load, β = 0`,
          source: "vertical equilibrium",
          standing: "derived",
          unit: "–",
          expected: 1,
          computed: Number((reaction / (LENGTH / 2)).toFixed(7)), // beyond that another machine may differ
          tolerance: 1.5e-7,
        });
      });
    }
  }
}

export function reciprocity(compare: Compare): void {
  const section = road({slabFriction: 1e9, crackInterlock: 1e8}, true);
  const extent = {spacings: 2.5};
  const mesh = buildMesh(section, {rowSize: 0.01, finest: 1e-4, halved: false, tips: [0.05], extent, reach: 2});
  const model = lineModel(mesh);
  const condition: Condition = {moduli: moduliOf(section), transfer: 1e9};
  const contact = contactSegments(model, true);
  for (const beta of [0, 2, 20]) {
    const S = condense(model, stiffnesses(section, condition), beta);
    for (const part of ["symmetric", "antisymmetric"] as const) {
      const loads: SurfaceLoads = wheelLoads(mesh, LENGTH, CENTRES, part);
      const request = {part, tied: (k: number) => model.path[k].z < 0.05, transfer: 1e9, interlock: 1e8, contact};
      const {displacement} = solveDirect(model, S, request, loads);
      const work = (p: number, q: number): number =>
        model.surface.reduce(
          (sum, place, s) => sum + loads.values[p * model.surface.length + s] * displacement[q * model.size + place],
          0,
        );
      let worst = 0;
      for (let p = 0; p < CENTRES.length; p++)
        for (let q = 0; q < p; q++)
          worst = Math.max(worst, Math.abs(work(p, q) - work(q, p)) / Math.sqrt(work(p, p) * work(q, q)));
      compare({
        name: `${part}, β = ${beta}/m, cracked, faces pressed: largest lack of reciprocity of three wheels`,
        source: "Betti 1872",
        standing: "derived",
        unit: "–",
        expected: 0,
        computed: Number(worst.toFixed(9)),
        tolerance: 1e-8,
        absolute: true,
      });
    }
  }
}

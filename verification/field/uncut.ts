/** An uncut section: the picture against the layered solution, a way of its own by Hankel integrals. */
import {type ElasticLayer, layeredModel, type PointResponse} from "../../src/engine/layered/index.ts";
import {type FieldRequest, fieldAround, type JointField} from "../../src/engine/life/index.ts";
import type {Layer, Section} from "../../src/engine/section/index.ts";
import {layer} from "../plates/solve.ts";
import type {Compare} from "../table.ts";

const SIDE = 0.24; // of the wheel's square [m]
const LOAD = 40e3; // [N]
const TOP = 0.08; // thickness of the asphalt [m]

/** Asphalt, base and soil, all of them path and tied; the cut is in the lowest 20 mm of the soil, on the rigid base. */
function uncut(): Section {
  const layers: Layer[] = [
    layer("overlay", 5e9, 0.35, TOP),
    layer("overlay", 9e9, 0.2, 0.15),
    layer("overlay", 9e7, 0.4, 0.45),
    layer("jointed", 9e7, 0.4, 0.02),
  ];
  return {
    layers,
    joint: {
      spacing: 3,
      width: 0,
      unbondedStrip: 0,
      transfer: {kind: "spring", stiffness: 0},
      facesTouch: false,
      cutDepth: 0,
    },
    slabFriction: Infinity,
    base: {kind: "rigid"},
    crackInterlock: 0,
    shearWeight: 1,
  };
}

function picture(size: FieldRequest["size"], positions: readonly number[]): JointField {
  const section = uncut();
  return fieldAround({
    section,
    moduli: section.layers.map(l => l.material.modulus[0].modulus),
    transfer: 0,
    cracks: {interlayer: 0, underside: 0, surface: 0},
    wheels: [{x: 0, y: 0, load: LOAD, length: SIDE, width: SIDE}],
    y: 0,
    positions: Float64Array.from(positions),
    view: {halfWidth: 0.6, depth: 0.4},
    size,
  });
}

const CIRCLES = 24; // on a side of the square

/** Means over cells by the layered solution: four Gauss points a cell, the square made of 24 × 24 circles of its area. */
function layered(position: number, cells: readonly Cell[]): readonly Record<Quantity, number>[] {
  const layers = uncut().layers.map(
    ({material, thickness}): ElasticLayer => ({
      modulus: material.modulus[0].modulus,
      poisson: material.poisson,
      thickness,
    }),
  );
  const step = SIDE / CIRCLES;
  const place = (k: number): number => (k + 0.5) * step - SIDE / 2;
  // In the plane y = 0 a circle at −y strains as that at y does: half of them, with twice the pressure.
  const loads = Array.from({length: CIRCLES ** 2 / 2}, (_, k) => ({
    x: position + place(k % CIRCLES),
    y: place(Math.floor(k / CIRCLES)),
    radius: step / Math.sqrt(Math.PI),
    pressure: (2 * LOAD) / SIDE ** 2,
  }));
  const gauss = 1 / Math.sqrt(3);
  const points = cells.flatMap(({x, z}) =>
    [-gauss, gauss].flatMap(s =>
      [-gauss, gauss].map(t => ({
        x: (x[0] + x[1]) / 2 + (s * (x[1] - x[0])) / 2,
        y: 0,
        z: (z[0] + z[1]) / 2 + (t * (z[1] - z[0])) / 2,
      })),
    ),
  );
  const found = layeredModel(layers, {kind: "rigid"}).respond(loads, points).points;
  return cells.map((_, k) => {
    const own = found.slice(4 * k, 4 * k + 4);
    const mean = (value: (p: PointResponse) => number): number => own.reduce((sum, p) => sum + value(p) / 4, 0);
    return {
      strainXx: mean(p => p.strain.xx),
      shearXz: mean(p => 2 * p.strain.xz),
      stressZz: mean(p => p.stress.zz),
    };
  });
}

const QUANTITIES = ["strainXx", "shearXz", "stressZz"] as const;
type Quantity = (typeof QUANTITIES)[number];

interface Cell {
  readonly cell: number;
  readonly x: readonly [number, number];
  readonly z: readonly [number, number];
}

function cellAt({x, z}: JointField, px: number, pz: number): Cell {
  const column = x.findLastIndex(v => v <= px + 1e-9);
  const row = z.findLastIndex(v => v <= pz + 1e-9);
  return {cell: row * (x.length - 1) + column, x: [x[column], x[column + 1]], z: [z[row], z[row + 1]]};
}

/** Wheels at the middle and beside it; cells under the wheel, at its edge, beside it. */
const POSITIONS = [0, 0.3];
const ACROSS = [0.005, 0.1, 0.2, 0.35];
const DEPTHS = [0.02, 0.06, 0.1, 0.2, 0.3];

export function uncutCases(compare: Compare): void {
  for (const size of ["usual", "fine"] as const) {
    const field = picture(size, POSITIONS);
    const most = new Map<Quantity, number>(QUANTITIES.map(q => [q, 0]));
    POSITIONS.forEach((position, p) => {
      const cells = DEPTHS.flatMap(z => ACROSS.map(x => cellAt(field, x, z)));
      const exact = layered(position, cells);
      DEPTHS.forEach((depth, d) => {
        for (const q of QUANTITIES) {
          const row = ACROSS.map((_, k) => exact[d * ACROSS.length + k][q]);
          const size0 = Math.max(...row.map(Math.abs));
          ACROSS.forEach((across, k) => {
            const {cell} = cells[d * ACROSS.length + k];
            const computed = field[q][p * field.layer.length + cell];
            most.set(q, Math.max(most.get(q)!, Math.abs(computed - row[k]) / size0));
            if (size === "fine" && (depth === 0.06 || depth === 0.2)) {
              compare({
                name: `wheel at ${position} m, x = ${across} m, z = ${depth} m: ${NAMES[q]}`,
                source: "layered solution, mean of 4 points in the cell",
                standing: "derived",
                unit: q === "stressZz" ? "kPa" : "µε",
                expected: row[k] * (q === "stressZz" ? 1e-3 : 1e6),
                computed: computed * (q === "stressZz" ? 1e-3 : 1e6),
                tolerance: TOLERANCE * size0 * (q === "stressZz" ? 1e-3 : 1e6),
                absolute: true,
              });
            }
          });
        }
      });
    });
    for (const q of QUANTITIES) {
      compare({
        name: `${size}: ${NAMES[q]}, largest error by the largest value at the same depth`,
        source: "layered solution",
        standing: "derived",
        unit: "%",
        expected: 0,
        computed: 100 * most.get(q)!,
        tolerance: 100 * WORST[size],
        absolute: true,
      });
    }
  }
}

const NAMES = {strainXx: "εxx", shearXz: "γxz", stressZz: "σzz"} as const;
/** Of the largest value at that depth [–]: elements of the second order, a wheel's edge within one of them. */
const WORST = {usual: 0.02, fine: 0.005} as const;
const TOLERANCE = WORST.fine;

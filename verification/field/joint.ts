/** A cracked section over a joint: balance, mirror images, and the tips against the probe's way. */
import {type FieldRequest, fieldAround, type JointField, probe} from "../../src/engine/life/index.ts";
import {stiffnesses} from "../../src/engine/response/index.ts";
import {buildMesh, type Section} from "../../src/engine/section/index.ts";
import {layer} from "../plates/solve.ts";
import type {Compare} from "../table.ts";
import {planeField} from "./closed.ts";

const SIDE = 0.24; // of the wheel's square [m]
const LOAD = 40e3; // [N]
const TRANSFER = 2e8; // q [Pa/m]

/** 80 mm of asphalt on 12 mm of interlayer or none, a cement-bound base that touches at its joint, soil. */
function cracked(interlayer: boolean, facesTouch: boolean, change: Partial<Section> = {}): Section {
  return {
    layers: [
      layer("overlay", 3.5e9, 0.35, 0.08),
      ...(interlayer ? [layer("interlayer", 4e8, 0.4, 0.012)] : []),
      layer("jointed", 9e9, 0.2, 0.2),
      layer("foundation", 9e7, 0.4, 1),
    ],
    joint: {
      spacing: 4,
      width: 0.002,
      unbondedStrip: 0,
      transfer: {kind: "spring", stiffness: TRANSFER},
      facesTouch,
      cutDepth: 0.3,
    },
    slabFriction: Infinity,
    base: {kind: "rigid"},
    crackInterlock: 0,
    shearWeight: 1,
    ...change,
  };
}

const moduliOf = (section: Section): number[] => section.layers.map(l => l.material.modulus[0].modulus);

interface Look {
  readonly section: Section;
  readonly cracks: FieldRequest["cracks"];
  readonly positions: readonly number[];
  readonly size: FieldRequest["size"];
}

function look({section, cracks, positions, size}: Look): JointField {
  return fieldAround({
    section,
    moduli: moduliOf(section),
    transfer: TRANSFER,
    cracks,
    wheels: [{x: 0, y: 0, load: LOAD, length: SIDE, width: SIDE}],
    y: 0,
    positions: Float64Array.from(positions),
    view: {halfWidth: 0.6, depth: 0.4},
    size,
  });
}

/** Vertical force through each row of elements in plane strain: the load, whatever joints and crack do. */
export function balance(compare: Compare): void {
  const section = cracked(true, false, {slabFriction: 1e9});
  const mesh = buildMesh(section, {
    rowSize: 0.01,
    finest: 0.001,
    halved: false,
    tips: [0.03],
    reach: 1,
    extent: {spacings: 1.5},
  });
  const wheel = {x: 0.3, length: SIDE};
  const stiff = stiffnesses(section, {moduli: moduliOf(section), transfer: TRANSFER});
  for (const tied of [true, false]) {
    const field = planeField({mesh, stiff, wheel, tied, transfer: TRANSFER});
    const columns = field.x.length - 1;
    for (const depth of [0.005, 0.078, 0.085, 0.15, 0.5, 1.2]) {
      const row = field.z.findLastIndex(z => z <= depth);
      let force = 0;
      for (let c = 0; c < columns; c++)
        if (field.layer[row * columns + c] >= 0)
          force += field.stressZz[row * columns + c] * (field.x[c + 1] - field.x[c]);
      compare({
        name: `plane strain, overlay ${tied ? "whole" : "cracked through"}, row at ${depth} m: ∫σzz dx`,
        source: "balance: minus the load of unit pressure",
        standing: "derived",
        unit: "m",
        expected: -SIDE,
        computed: force,
        tolerance: 2e-5, // single precision
      });
    }
  }
}

/** γxz is odd in x under a wheel on the joint, and a wheel before the joint mirrors one behind it, each solved by itself. */
export function mirror(compare: Compare): void {
  const cracks = {interlayer: 0.012, underside: 0.02, surface: 0};
  const section = cracked(true, true);
  const own = (position: number): JointField => look({section, cracks, positions: [position], size: "usual"});
  const [centred, before, behind] = [0, -0.15, 0.15].map(own);
  const columns = centred.x.length - 1;
  const image = (cell: number): number => {
    const column = cell % columns;
    return cell - column + columns - 1 - column;
  };
  const most = (values: Float32Array): number => values.reduce((m, v) => Math.max(m, Math.abs(v)), 0);
  const odd = {name: "", source: "mirror image", standing: "derived", unit: "–", expected: 0, absolute: true} as const;
  const difference = (a: Float32Array, b: Float32Array, sign: 1 | -1): number =>
    a.reduce((m, v, cell) => Math.max(m, Math.abs(v - sign * b[image(cell)])), 0) / most(a);
  for (const [name, quantity, sign] of [
    ["εxx", "strainXx", 1],
    ["γxz", "shearXz", -1],
    ["σzz", "stressZz", 1],
  ] as const) {
    compare({
      ...odd,
      name: `wheel on the joint: ${name} against its image, largest difference by largest value`,
      computed: difference(centred[quantity], centred[quantity], sign),
      tolerance: 1e-6,
    });
    compare({
      ...odd,
      name: `wheel 0.15 m before and behind: ${name}, largest difference by largest value`,
      computed: difference(before[quantity], behind[quantity], sign),
      tolerance: 1e-6,
    });
  }
  compare({
    ...odd,
    name: "wheel on the joint: shear of the tip by that with the wheel beside it",
    computed: centred.tips.underside!.shear[0] / behind.tips.underside!.shear[0],
    tolerance: 1e-9,
  });
  compare({
    ...odd,
    name: "shear of the tip, wheel before by wheel behind, plus 1",
    computed: before.tips.underside!.shear[0] / behind.tips.underside!.shear[0] + 1,
    tolerance: 1e-9,
  });
}

const POSITIONS = [-0.12, 0, 0.06, 0.12, 0.3, 0.8];

/** Tips and edges of the joint against the probe: two finer meshes, extrapolated, everything on the line and nothing inside. */
export function tips(compare: Compare): void {
  const whole = {interlayer: 0, underside: 0, surface: 0};
  const cases = [
    {name: "whole overlay", section: cracked(false, true), cracks: whole},
    {
      name: "underside 20 mm, surface 10 mm",
      section: cracked(false, true),
      cracks: {...whole, underside: 0.02, surface: 0.01},
    },
    {name: "whole interlayer", section: cracked(true, true), cracks: whole},
    {
      name: "through the interlayer, 30 mm",
      section: cracked(true, false),
      cracks: {interlayer: 0.012, underside: 0.03, surface: 0},
    },
  ];
  for (const {name, section, cracks} of cases) {
    const exact = probe(section, {
      moduli: moduliOf(section),
      wheel: {load: LOAD, length: SIDE, width: SIDE},
      x: POSITIONS,
      y: [0],
      cracks,
      contact: "decide",
      transfer: null,
      accuracy: 0.01,
    }).points;
    const fields = (["usual", "fine"] as const).map(size => ({
      size,
      field: look({section, cracks, positions: POSITIONS, size}),
    }));
    for (const tip of ["interlayer", "underside", "surface"] as const) {
      if (!exact[0].tips[tip]) continue;
      const modulus = exact[0].tips[tip].planeStrainModulus;
      for (const [component, told] of [
        ["opening", "opening"],
        ["shear", "shearXz"],
      ] as const) {
        const expected = exact.map(p => p.tips[tip]![told] / modulus);
        const size0 = Math.max(...exact.map(p => p.tips[tip]!.strain));
        for (const {size, field} of fields) {
          const errors = expected.map((e, k) => field.tips[tip]![component][k] - e);
          const at = errors.reduce((most, e, k) => (Math.abs(e) > Math.abs(errors[most]) ? k : most), 0);
          compare({
            name: `${name}, ${size}: ${tip} tip, ${component}, where it is farthest off (wheel at ${POSITIONS[at]} m)`,
            source: "`probe`: two finer meshes, extrapolated",
            standing: "derived",
            unit: "µε",
            expected: expected[at] * 1e6,
            computed: field.tips[tip]![component][at] * 1e6,
            tolerance: 1e6 * TIP[size] * size0,
            absolute: true,
          });
        }
      }
    }
    const [{field}] = fields;
    const corners = field.cornerX.length;
    const right = field.cornerX.findIndex((x, k) => k < corners / 2 && x === 0 && field.cornerZ[k] === 0);
    [0, 3].forEach(p => {
      for (const [side, corner] of [
        ["plus", right],
        ["minus", right + corners / 2],
      ] as const) {
        compare({
          name: `${name}, usual: surface at the joint plane, ${side} side, wheel at ${POSITIONS[p]} m`,
          source: "`probe`: within 0.7 % itself by its wavenumbers",
          standing: "derived",
          unit: "mm",
          expected: exact[p].deflection.surface[side] * 1e3,
          computed: field.w[p * corners + corner] * 1e3,
          tolerance: 0.015,
        });
      }
    });
  }
}

/** Of the largest tip strain along the pass [–]: one mesh, not extrapolated; the error is of the first order in its size. */
const TIP = {usual: 0.03, fine: 0.025};

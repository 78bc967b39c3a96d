import {test} from "vitest";
import {type ElasticLayer, layeredModel} from "../../src/engine/layered/index.ts";
import {fatigueDamage} from "../../src/engine/life/index.ts";
import {verificationTable} from "../table.ts";
import {JONES, OFF_AXIS, SURFACE_BOWL, TWO_LAYER_HALF, TWO_LAYER_THIRD} from "./values.ts";

const {compare, heading, page} = verificationTable(
  "layered",
  "Layered elasticity and fatigue sums",
  "Multilayer elastic solution under circular loads, tension positive. Lengths in radii a and stresses in pressures q " +
    "unless a unit is given. Values to six decimals are held to their last digit.",
);

const LAST_DIGIT = 6e-7; // half a unit of the sixth decimal, and a little
const half = (modulus: number, poisson: number): ElasticLayer => ({modulus, poisson, thickness: Infinity});
const unit = {x: 0, y: 0, radius: 1, pressure: 1};

/** Response of a stack on a half-space to one load, at points of the plane y = 0. */
function respond(layers: readonly ElasticLayer[], points: {x: number; z: number; layer?: number}[], load = unit) {
  return layeredModel(layers, {kind: "half-space"}).respond(
    [load],
    points.map(p => ({...p, y: 0})),
  ).points;
}

test("half-space: axis, off axis, surface", () => {
  heading("Half-space (Boussinesq 1885; Love 1929)");
  for (const nu of [0.35, 0.5]) {
    for (const z of [0, 0.5, 1, 1.5, 2, 3, 4]) {
      const s = z / Math.hypot(1, z);
      const [p] = respond([half(1, nu)], [{x: 0, z}]);
      const source = "closed form on the axis";
      const name = `ν = ${nu}, z/a = ${z}`;
      const root = Math.hypot(1, z);
      const w = (1 + nu) * (1 / root + (1 - 2 * nu) * (root - z));
      const radial = -(1 + 2 * nu - 2 * (1 + nu) * s + s ** 3) / 2;
      const shared = {source, standing: "derived", tolerance: 1e-12, absolute: true} as const;
      compare({...shared, name: `${name}: σz/q`, unit: "–", expected: s ** 3 - 1, computed: p.stress.zz});
      compare({...shared, name: `${name}: σr/q`, unit: "–", expected: radial, computed: p.stress.xx});
      compare({...shared, name: `${name}: wE/(qa)`, unit: "–", expected: w, computed: p.displacement.z});
    }
  }
  for (const [z, r, vertical, radial, hoop, shear, w] of OFF_AXIS) {
    // Cut into four equal layers: both the closed form and the integrals are tried.
    const cut = [0.3, 0.4, 0.8, Infinity].map(thickness => ({modulus: 1, poisson: 0.35, thickness}));
    const [p] = respond(cut, [{x: r, z}]);
    const shared = {
      source: "own quadrature of the Hankel integrals",
      standing: "derived",
      unit: "–",
      tolerance: LAST_DIGIT,
      absolute: true,
    } as const;
    const name = `four equal layers, ν = 0.35, z/a = ${z}, r/a = ${r}`;
    compare({...shared, name: `${name}: σz/q`, expected: -vertical, computed: p.stress.zz});
    compare({...shared, name: `${name}: σr/q`, expected: -radial, computed: p.stress.xx});
    compare({...shared, name: `${name}: σθ/q`, expected: -hoop, computed: p.stress.yy});
    compare({...shared, name: `${name}: τrz/q`, expected: shear, computed: p.stress.xz});
    compare({...shared, name: `${name}: wE/(qa)`, expected: w, computed: p.displacement.z});
  }
  for (const [r, ratio] of SURFACE_BOWL) {
    const [p, centre] = respond(
      [half(1, 0.35)],
      [
        {x: r, z: 0},
        {x: 0, z: 0},
      ],
    );
    compare({
      name: `surface deflection over that of the centre, r/a = ${r}`,
      source: "complete elliptic integrals (Terazawa 1916)",
      standing: "derived",
      unit: "–",
      expected: ratio,
      computed: p.displacement.z / centre.displacement.z,
      tolerance: LAST_DIGIT,
      absolute: true,
    });
  }
});

test("two layers", () => {
  heading("Two layers, ν = 0.5 (Burmister 1943)");
  const source = "own quadrature; Burmister's charts agree to their two digits";
  const shared = {source, standing: "derived", unit: "–", tolerance: LAST_DIGIT, absolute: true} as const;
  for (const {ratio, values} of TWO_LAYER_HALF) {
    for (const [h, f2, interfaceStress] of values) {
      const [top, below] = respond(
        [{modulus: ratio, poisson: 0.5, thickness: h}, half(1, 0.5)],
        [
          {x: 0, z: 0},
          {x: 0, z: h},
        ],
      );
      const name = `E₁/E₂ = ${ratio}, h/a = ${h}`;
      compare({...shared, name: `${name}: F₂`, expected: f2, computed: top.displacement.z / 1.5});
      compare({
        ...shared,
        name: `${name}: σz/q at the interface`,
        expected: -interfaceStress,
        computed: below.stress.zz,
      });
    }
  }
  heading("Two layers, ν = 0.35");
  for (const [ratio, h, f2, vertical, radial, strain] of TWO_LAYER_THIRD) {
    const [top, below] = respond(
      [{modulus: ratio, poisson: 0.35, thickness: h}, half(1, 0.35)],
      [
        {x: 0, z: 0},
        {x: 0, z: h, layer: 0},
      ],
    );
    const name = `E₁/E₂ = ${ratio}, h/a = ${h}`;
    const f = top.displacement.z / (2 * (1 - 0.35 ** 2));
    compare({...shared, name: `${name}: F₂`, expected: f2, computed: f});
    compare({...shared, name: `${name}: σz/q at the interface`, expected: -vertical, computed: below.stress.zz});
    compare({...shared, name: `${name}: σr/q at the underside`, expected: radial, computed: below.stress.xx});
    compare({...shared, name: `${name}: εr·E₂/q at the underside`, expected: strain, computed: below.strain.xx});
  }
});

test("three layers", () => {
  heading("Three layers, ν = 0.5 (Acum & Fox 1951; Jones 1962)");
  const inches = [{modulus: 400, poisson: 0.5, thickness: 6}, {modulus: 20, poisson: 0.5, thickness: 6}, half(10, 0.5)];
  const places = [
    {x: 0, z: 0},
    {x: 0, z: 6, layer: 0},
    {x: 0, z: 6, layer: 1},
    {x: 0, z: 12, layer: 1},
    {x: 0, z: 12, layer: 2},
  ];
  const load = {...unit, radius: 4.8, pressure: 0.12}; // ksi, in
  const [top, one, under, two, soil] = respond(inches, places, load);
  const book = "Huang, Pavement Analysis and Design, three-layer example";
  const printed = {source: book, standing: "memory", unit: "–"} as const;
  const own = {source: "own quadrature", standing: "derived"} as const;
  const q = load.pressure;
  const difference = (p: typeof one) => (p.stress.xx - p.stress.zz) / q;
  compare({...printed, name: "ZZ1", expected: 0.12173, computed: -one.stress.zz / q, tolerance: 1e-4});
  compare({...printed, name: "ZZ2", expected: 0.05938, computed: -two.stress.zz / q, tolerance: 1e-4});
  compare({...printed, name: "ZZ1 − RR1", expected: 1.97428, computed: difference(one), tolerance: 1e-4});
  compare({...printed, name: "ZZ2 − RR2", expected: 0.09268, computed: difference(two), tolerance: 1e-4});
  compare({...own, unit: "–", name: "ZZ1 − RR1′", expected: 0.09872, computed: difference(under), tolerance: 1e-4});
  compare({...own, unit: "–", name: "ZZ2 − RR3", expected: 0.04634, computed: difference(soil), tolerance: 1e-4});
  compare({
    ...own,
    unit: "–",
    name: "εr, underside of layer 1",
    expected: 2.9614623e-4,
    computed: one.strain.xx,
    tolerance: 1e-7,
  });
  compare({
    ...own,
    unit: "–",
    name: "εz, top of layer 3",
    expected: -5.5605448e-4,
    computed: soil.strain.zz,
    tolerance: 1e-7,
  });
  compare({...own, unit: "in", name: "w₀", expected: 0.021466, computed: top.displacement.z, tolerance: 3e-6});
  for (const [H, A, k1, k2, zz1, zz2, rr1, rr2] of JONES) {
    const stack = [
      {modulus: k1 * k2, poisson: 0.5, thickness: H / A},
      {modulus: k2, poisson: 0.5, thickness: 1 / A},
      half(1, 0.5),
    ];
    const [first, second] = respond(stack, [
      {x: 0, z: H / A},
      {x: 0, z: (H + 1) / A, layer: 1},
    ]);
    const shared = {
      source: "own quadrature of Jones' cases, five decimals",
      standing: "derived",
      unit: "–",
      tolerance: 6e-6,
      absolute: true,
    } as const;
    const name = `H = ${H}, A = ${A}, k₁ = ${k1}, k₂ = ${k2}`;
    compare({...shared, name: `${name}: ZZ1`, expected: zz1, computed: -first.stress.zz});
    compare({...shared, name: `${name}: ZZ2`, expected: zz2, computed: -second.stress.zz});
    compare({...shared, name: `${name}: ZZ1 − RR1`, expected: rr1, computed: first.stress.xx - first.stress.zz});
    compare({...shared, name: `${name}: ZZ2 − RR2`, expected: rr2, computed: second.stress.xx - second.stress.zz});
  }
});

test("limits", () => {
  heading("Limits with a closed form");
  const derived = {standing: "derived", unit: "–"} as const;
  const [thick] = respond([{modulus: 1, poisson: 0.35, thickness: 1e4}, half(1e-2, 0.35)], [{x: 1, z: 1}]);
  compare({
    ...derived,
    name: "layer 10⁴ radii thick: σz/q at z = r = a",
    source: "half-space, own quadrature",
    expected: -0.332239,
    computed: thick.stress.zz,
    tolerance: LAST_DIGIT,
    absolute: true,
  });

  // Under a load much wider than the layer is thick, the middle is compressed without lateral strain.
  const nu = 0.3;
  const squeezed = layeredModel([{modulus: 1, poisson: nu, thickness: 1}], {kind: "rigid"});
  const [middle, below] = squeezed.respond(
    [{...unit, radius: 60}],
    [
      {x: 0, y: 0, z: 0},
      {x: 0, y: 0, z: 1},
    ],
  ).points;
  const confined = ((1 + nu) * (1 - 2 * nu)) / (1 - nu);
  const source = "confined compression, w = qh(1+ν)(1−2ν)/(E(1−ν)), σr = σz·ν/(1−ν)";
  compare({
    ...derived,
    source,
    name: "rough rigid base, load of 60 thicknesses: wE/(qh)",
    expected: confined,
    computed: middle.displacement.z,
    tolerance: 1e-9,
    absolute: true,
  });
  compare({
    ...derived,
    source,
    name: "the same: σr/q at the base",
    expected: -nu / (1 - nu),
    computed: below.stress.xx,
    tolerance: 1e-9,
    absolute: true,
  });

  // Point-like load on a thin plate sliding on an elastic half-space: w₀ = P·l²/(3√3·D), l³ = 2D(1−ν²)/E.
  const slip = 100; // l/h
  const E1 = (slip ** 3 * 6 * (1 - 0.25 ** 2)) / (1 - 0.3 ** 2);
  const plate = {modulus: E1, poisson: 0.25, thickness: 1, shearSpringBelow: 0};
  const small = {...unit, radius: 1};
  const [hogg] = respond([plate, half(1, 0.3)], [{x: 0, z: 0.5}], small);
  const rigidity = E1 / (12 * (1 - 0.25 ** 2));
  compare({
    ...derived,
    name: "thin plate slipping on a half-space, l = 100 h, a = h: w₀D/(Pl²)",
    source: "Hogg 1938, 1/(3√3); the load is not quite a point",
    expected: 1 / (3 * Math.sqrt(3)),
    computed: (hogg.displacement.z * rigidity) / (Math.PI * slip ** 2),
    tolerance: 1e-4,
  });

  // The plate of thin-plate theory on dense-liquid springs: thickness cut to 2 mm with D kept, so that shear and
  // squeezing, which that theory leaves out, vanish. Stress is turned back to the true thickness by M = σh²/6.
  const thin = 2;
  for (const [E, h, k, poisson, P, a, w, stress] of [
    [35000, 250, 0.05, 0.15, 40000, 150, 0.10231277, 0.877776],
    [30000, 200, 0.08, 0.2, 50000, 300, 0.14347073, 1.074597],
  ]) {
    const slab = {modulus: E * (h / thin) ** 3, poisson, thickness: thin};
    const [mid, face] = layeredModel([slab], {kind: "springs", stiffness: k}).respond(
      [{...unit, radius: a, pressure: P / (Math.PI * a * a)}],
      [
        {x: 0, y: 0, z: thin / 2},
        {x: 0, y: 0, z: thin},
      ],
    ).points;
    const name = `slab on springs (N, mm): E = ${E}, h = ${h}, k = ${k}, a = ${a}`;
    const exact = "thin-plate theory, own quadrature of its Hankel integral";
    compare({
      ...derived,
      name: `${name}: w`,
      unit: "mm",
      source: exact,
      expected: w,
      computed: mid.displacement.z,
      tolerance: 1e-4,
    });
    compare({
      ...derived,
      name: `${name}: σ`,
      unit: "MPa",
      source: exact,
      expected: stress,
      computed: face.stress.xx * (thin / h) ** 2,
      tolerance: 1e-4,
    });
  }
});

test("fatigue line and Miner's sum", () => {
  heading("Fatigue");
  const line = {strainAtMillion: 100e-6, exponent: 5, referenceModulus: null, stiffnessExponent: 0};
  const derived = {standing: "derived", unit: "–", source: "N = 10⁶(ε₆/ε)⁵", tolerance: 1e-9} as const;
  compare({
    ...derived,
    name: "cycles to failure at 130 µε",
    expected: 269329.0743,
    computed: 1 / fatigueDamage(line, 5e9, 130e-6, 1),
  });
  compare({
    ...derived,
    name: "cycles to failure at 80 µε",
    expected: 3051757.8125,
    computed: 1 / fatigueDamage(line, 5e9, 80e-6, 1),
  });
  const blocks = [
    [2e5, 100e-6],
    [1e5, 130e-6],
    [5e5, 80e-6],
  ];
  compare({
    ...derived,
    name: "2·10⁵ at 100, 10⁵ at 130 and 5·10⁵ at 80 µε",
    source: "0.2 + 1.3⁵/10 + 0.5·0.8⁵ (Miner 1945)",
    expected: 0.735133,
    computed: blocks.reduce((sum, [n, strain]) => sum + fatigueDamage(line, 5e9, strain, n), 0),
  });
});

page();

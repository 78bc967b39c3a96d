/** The beam before it cracks, against a finite beam with free ends on Winkler's foundation. */
import type {BeamChoices} from "../../src/engine/laboratory/index.ts";
import type {Compare} from "../table.ts";
import {characteristic, finiteBeam} from "./foundation.ts";
import {plainBeam, solveCut} from "./solve.ts";

const [E, POISSON] = [4e9, 0.35];
const LENGTH = 2.4; // βL = 2.4: the ends matter
const BETA = 1; // [1/m]
const WHEEL = 0.01; // half the patch [m]

/**
 * What the thin beam leaves out is shear: of the deflection 2·(β²EI)/(κGA) = (βh)²·E/(6κG) under a load, κ = 5/6. Mesh, soft
 * skin and its gap come to less than 5e-4 in all.
 */
const tolerance = (h: number): number => ((BETA * h) ** 2 * 2 * (1 + POISSON)) / 5 + 5e-4;

export function uncracked(compare: Compare): void {
  for (const plane of ["stress", "strain"] as const)
    for (const h of [0.05, 0.025]) for (const centre of [0, 0.3]) one(compare, {plane, h, centre, accuracy: 0.02});
}

export function uncrackedAccuracy(compare: Compare): void {
  for (const accuracy of [0.04, 0.02, 0.01]) one(compare, {plane: "stress", h: 0.05, centre: 0.3, accuracy});
}

interface Case {
  readonly plane: BeamChoices["plane"];
  readonly h: number;
  readonly centre: number;
  readonly accuracy: number;
}

function one(compare: Compare, {plane, h, centre, accuracy}: Case): void {
  const modulus = plane === "stress" ? E : E / (1 - POISSON ** 2);
  const rigidity = (modulus * h ** 3) / 12;
  const beam = {length: LENGTH, rigidity, support: 4 * rigidity * BETA ** 4};
  const load = {from: LENGTH / 2 + centre - WHEEL, to: LENGTH / 2 + centre + WHEEL, pressure: 1};
  const exact = finiteBeam(beam, load);
  const choices = {plane, zoneLength: {mix: 0.01}, interlock: 0, accuracy};
  const solved = solveCut(plainBeam(h, LENGTH), beam.support, choices, {centre, crack: 0});
  const where = centre ? `load at βx = ${centre * characteristic(beam)}` : "load above the gap";
  const shared = {source: "finite beam, initial parameters", standing: "derived", tolerance: tolerance(h)} as const;
  const name = (what: string): string =>
    `plane ${plane}, h = ${h * 1e3} mm, ${where}, accuracy ${accuracy}: ${what} by unit load`;
  const P = 2 * WHEEL;
  const gap = exact(LENGTH / 2);
  compare({
    ...shared,
    name: name("moment at the gap"),
    unit: "mm",
    expected: (gap.moment / P) * 1e3,
    computed: (solved.moment / P) * 1e3,
  });
  compare({
    ...shared,
    name: name("shear force at the gap"),
    unit: "–",
    expected: centre ? gap.shear / P : 0,
    computed: Number((solved.shear / P).toFixed(9)),
    tolerance: tolerance(h),
    absolute: true, // of the load
  });
  const far = solved.deflection(LENGTH / 4);
  const under = solved.deflection(centre);
  for (const [place, {x, w}] of [
    ["under the load", under],
    ["half-way to the end", far],
    ["at the end", solved.deflection(LENGTH / 2)],
  ] as const)
    compare({
      ...shared,
      name: name(`deflection ${place}`),
      unit: "mm/kN",
      expected: (exact(LENGTH / 2 + x).deflection / P) * 1e6,
      computed: (w / P) * 1e6,
      tolerance: tolerance(h) * (exact(LENGTH / 2 + under.x).deflection / P) * 1e6, // of the largest
      absolute: true,
    });
}

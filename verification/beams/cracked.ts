/** The cracked beam where the wheel is far: a strip with an edge crack in pure bending. */
import {solveBeam} from "../../src/engine/laboratory/index.ts";
import {EDGE_CRACK} from "../fracture/values.ts";
import type {Compare} from "../table.ts";
import {plainBeam, solveCut} from "./solve.ts";

const [E, POISSON] = [4e9, 0.35];
const [LENGTH, DEPTH, BETA] = [4, 0.1, 0.6];
const FAR = 0.6; // the wheel's place: six depths from the crack [m]
const ZONES = [0.005, 0.0025]; // process zones d [m]

/** Good to 0.2 % for α ≤ 0.6. Tada, Paris & Irwin. */
const handbook = (a: number): number => 1.122 - 1.4 * a + 7.33 * a ** 2 - 13.08 * a ** 3 + 14 * a ** 4;

/**
 * F = K/(σ√(πa)), σ = 6M/h², K = ε·E′·√(πd/2). The mean over a finite zone is that of K by a part of d/(h − a), as stress
 * in bending falls across the ligament; two zones tell the limit. M is what passes the ligament: the crack is a hinge.
 */
export function edgeCrack(compare: Compare): void {
  for (const plane of ["stress", "strain"] as const) {
    const modulus = plane === "stress" ? E : E / (1 - POISSON ** 2);
    const support = 4 * ((modulus * DEPTH ** 3) / 12) * BETA ** 4;
    const test = {...plainBeam(DEPTH, LENGTH), travel: {from: -FAR, to: FAR}};
    const factors = ZONES.map(d => {
      const choices = {plane, zoneLength: {mix: d}, interlock: 0, accuracy: 0.02};
      const {cracks, opening, positions} = solveBeam(test, support, choices);
      const {undersideLength, surfaceLength, number} = cracks;
      return [...undersideLength.keys()].flatMap(b => {
        const a = undersideLength[b];
        if (a < 0.25 * DEPTH || a > 0.6 * DEPTH) return [];
        const row = 3 * number[b * surfaceLength.length] + 1;
        const mean = opening[(row + 1) * positions.length - 1]; // ⟨σx⟩ = ε·E′, the wheel at FAR
        const {moment} = solveCut(test, support, choices, {centre: FAR, crack: a});
        const stress = (6 * moment) / DEPTH ** 2;
        return [{a, F: (mean * Math.sqrt((Math.PI * d) / 2)) / (stress * Math.sqrt(Math.PI * a))}];
      });
    });
    factors[0].forEach(({a, F}, k) => {
      const alpha = a / DEPTH;
      const finer = factors[1][k].F;
      const name = `plane ${plane}, α = ${alpha.toPrecision(4)}`;
      const shared = {unit: "–", source: "polynomial of the handbook, good to 0.2 %", standing: "memory"} as const;
      const expected = handbook(alpha);
      ZONES.forEach((d, i) => {
        const part = d / (DEPTH - a);
        const computed = [F, finer][i];
        compare({...shared, name: `${name}, d = ${d * 1e3} mm: F`, expected, computed, tolerance: 0.9 * part});
      });
      // Its own 0.2 %, and 0.3 % for mesh, axial force in the springs and what is left of the zone after extrapolation.
      const limit = {computed: 2 * finer - F, tolerance: 5e-3};
      compare({...shared, name: `${name}, limit d → 0: F`, expected, ...limit});
      const row = EDGE_CRACK.find(([at]) => Math.abs(at - alpha) < 1e-6);
      if (row)
        compare({
          ...limit,
          name: `${name}, limit d → 0: F`,
          unit: "–",
          source: "dislocation integral equation; Kaya & Erdogan 1987",
          standing: "derived",
          expected: row[3],
          tolerance: 3e-3,
        });
    });
  }
}

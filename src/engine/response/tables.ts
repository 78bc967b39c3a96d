/** What is kept of each crack state under one patch, wavenumber by wavenumber. */
import {contactPressures} from "./contact.ts";
import type {Tableau} from "./parts.ts";
import {TIPS, type TipZones} from "./sweep.ts";

/** Results of one patch while they are gathered: [state][centre][quantity][wave]. */
export interface Tables {
  readonly waves: number;
  readonly quantities: number; // of opening
  readonly opening: readonly Float64Array[]; // by contact pattern
  readonly shear: Float64Array;
}

/** table[i][k] += Σⱼ basis[k][j]·differences[i][j]. */
export function addInterpolated(table: Float64Array, differences: Float64Array, basis: readonly Float64Array[]): void {
  const K = basis.length;
  const J = basis[0].length;
  for (let i = 0; i * K < table.length; i++) {
    for (let k = 0; k < K; k++) {
      let sum = 0;
      for (let j = 0; j < J; j++) sum += basis[k][j] * differences[i * J + j];
      table[i * K + k] += sum;
    }
  }
}

/** Where a result goes, and how many times. */
export interface Sink {
  readonly tables: Tables;
  readonly state: number;
  readonly k: number; // wave
  readonly factor: number;
}

/** Tips and segments of one state in every contact pattern. */
export function addOpening(
  {tables, state, k, factor}: Sink,
  zones: readonly (TipZones | null)[],
  T: Float64Array,
  {unknowns, columns, loads}: Tableau,
): void {
  const {waves, quantities} = tables;
  const segments = quantities - TIPS.length;
  const wheels = loads - segments;
  // Rows: tips' zone means, then the segments' mean openings; columns: wheels, then unit pressures.
  const values = new Float64Array(quantities * loads);
  zones.forEach((z, tip) => {
    if (!z) return;
    const {nodes, weights} = z.opening;
    for (let i = 0; i < nodes.length; i++) {
      const row = nodes[i] * columns + unknowns;
      for (let p = 0; p < loads; p++) values[tip * loads + p] += weights[i] * T[row + p];
    }
  });
  for (let s = 0; s < segments; s++) {
    for (let p = 0; p < loads; p++) values[(TIPS.length + s) * loads + p] = T[(unknowns + s) * columns + unknowns + p];
  }
  tables.opening.forEach((table, closed) => {
    const settled = contactPressures(values, {tips: TIPS.length, segments, wheels}, closed);
    for (let p = 0; p < wheels; p++) {
      for (let q = 0; q < quantities; q++) {
        table[((state * wheels + p) * quantities + q) * waves + k] += factor * settled[q * wheels + p];
      }
    }
  });
}

/** τxz and τxy at the tips of one state. */
export function addShear(
  {tables, state, k, factor}: Sink,
  zones: readonly (TipZones | null)[],
  T: Float64Array,
  {unknowns, columns, loads}: Tableau,
): void {
  for (let p = 0; p < loads; p++) {
    const at = (state * loads + p) * 2 * TIPS.length;
    for (let tip = 0; tip < TIPS.length; tip++) {
      const zone = zones[tip]?.shear;
      if (!zone) continue;
      let xz = 0;
      let xy = 0;
      for (let i = 0; i < zone.nodes.length; i++) {
        const row = 2 * zone.nodes[i] * columns + unknowns + p;
        xy += zone.weights[i] * T[row];
        xz += zone.weights[i] * T[row + columns];
      }
      tables.shear[(at + tip) * tables.waves + k] += factor * xz;
      tables.shear[(at + TIPS.length + tip) * tables.waves + k] += factor * xy;
    }
  }
}

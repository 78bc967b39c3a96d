/** What is kept of each crack state under one patch, wavenumber by wavenumber. */
import {contactPressures} from "./contact.ts";
import {TIPS} from "./sweep.ts";

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

/** @param values from `sweepStates`: tips' zone means, then the segments' mean openings, row-major by load */
export function addOpening({tables, state, k, factor}: Sink, values: Float64Array): void {
  const {waves, quantities} = tables;
  const segments = quantities - TIPS.length;
  const wheels = values.length / quantities - segments;
  tables.opening.forEach((table, closed) => {
    const settled = contactPressures(values, {tips: TIPS.length, segments, wheels}, closed);
    for (let p = 0; p < wheels; p++) {
      for (let q = 0; q < quantities; q++) {
        table[((state * wheels + p) * quantities + q) * waves + k] += factor * settled[q * wheels + p];
      }
    }
  });
}

/** @param values from `sweepStates`: τxz at the tips, then τxy, row-major by load */
export function addShear({tables, state, k, factor}: Sink, values: Float64Array): void {
  const quantities = 2 * TIPS.length;
  const wheels = values.length / quantities;
  for (let p = 0; p < wheels; p++) {
    for (let q = 0; q < quantities; q++) {
      tables.shear[((state * wheels + p) * quantities + q) * tables.waves + k] += factor * values[q * wheels + p];
    }
  }
}

/** Wheels added up along a pass, one state at a time, first at each wavenumber, then at each offset. */
import {type ResponseTables, SHEARS, TIPS, transform} from "../response/index.ts";
import type {PassPlan} from "./passPlan.ts";

/** Rows of a table at one state. */
export interface TableRows {
  readonly values: Float64Array; // [wave][state][row][column]
  readonly states: number;
  readonly rows: number;
  readonly columns: number;
  readonly state: number;
}

/**
 * @param chosen  rows of the table, in the order wanted
 * @param out     [train][wave][row][position]; overwritten, but not beyond the last position
 */
export function superpose(
  plan: PassPlan,
  {values, states, rows, columns, state}: TableRows,
  parity: "even" | "odd",
  chosen: readonly number[],
  out: Float64Array,
): void {
  const waves = plan.terms / plan.trains.length;
  let to = 0;
  for (const {places, wheel, [parity]: weight} of plan.trains) {
    for (let k = 0; k < waves; k++) {
      for (const row of chosen) {
        const from = ((k * states + state) * rows + row) * columns;
        for (let x = 0, place = 0; x < plan.positions; x++) {
          let sum = 0;
          for (const end = place + places; place < end; place++) sum += weight[place] * values[from + wheel[place]];
          out[to + x] = sum;
        }
        to += plan.columns;
      }
    }
  }
}

/** τxz and τxy at the tips of one state along the pass, [offset][tip][position]; only the tips asked for, in their order. */
export interface ShearAlong {
  readonly xz: Float64Array;
  readonly xy: Float64Array;
  /** Overwrites both. */
  readonly solve: (state: number, tips: readonly number[]) => void;
}

export function shearAlong(plan: PassPlan, tables: ResponseTables): ShearAlong {
  const values = new Float64Array(plan.terms * TIPS.length * plan.columns);
  const xz = new Float64Array(plan.rows * TIPS.length * plan.columns);
  const xy = new Float64Array(xz.length);
  const solve = (state: number, tips: readonly number[]): void => {
    const table = {values: tables.shear, states: tables.states, rows: SHEARS, columns: tables.wheels, state};
    const size = {waves: plan.terms, rows: tips.length, columns: plan.columns};
    superpose(plan, table, "odd", tips, values);
    transform(plan.even, values, size, plan.rows, xz);
    const across = tips.map(tip => TIPS.length + tip);
    superpose(plan, table, "odd", across, values);
    transform(plan.odd, values, size, plan.rows, xy);
  };
  return {xz, xy, solve};
}

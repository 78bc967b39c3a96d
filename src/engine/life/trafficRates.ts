/** Growth by traffic: bins summed, the worst lateral place taken, loads of one stream scaled. */
import {InputError} from "../errors.ts";
import {type Stream, streamsOf, type Traffic} from "../traffic/index.ts";
import {type CrackGrid, type LawScale, type RateTable, rateTable} from "./rates.ts";
import type {TemperatureBin} from "./types.ts";
import type {TrafficPiece} from "./work.ts";

/** Over the year's bins, at the worst lateral place of each state and tip. */
export interface TrafficRates {
  readonly streams: readonly Stream[];
  readonly cracks: CrackGrid;
  readonly scale: LawScale;
  readonly advance: readonly Float64Array[]; // by stream, [state][tip], under its full load [m per pass]
  readonly exponent: Float64Array; // [state][tip], n of the law there; 0 where there is no such tip [–]
  readonly place: Int32Array; // [state][tip], number of the worst lateral offset
}

/**
 * The worst place is that of the first year's passes of all classes together; it is kept when classes grow differently.
 *
 * @param traffic  as the pieces were computed with
 * @param pieces   of one treatment, one a temperature solved
 */
export function trafficRates(
  traffic: Traffic,
  bins: readonly TemperatureBin[],
  pieces: readonly TrafficPiece[],
  scale: LawScale,
): TrafficRates {
  const streams = streamsOf(traffic.classes);
  const {cracks, lane, exponent} = pieces[0];
  const ny = lane.y.length;
  const yearly = streams.map((_, s) => {
    const sum = new Float64Array(pieces[0].advance[s].length);
    for (const bin of bins) {
      const piece = pieces.length === 1 ? pieces[0] : pieces.find(p => p.temperature === bin.temperature);
      if (!piece) throw new InputError("shape", "pieces", "none", `one solved at ${bin.temperature} °C`);
      const values = piece.advance[s];
      for (let k = 0; k < sum.length; k++) sum[k] += bin.share * values[k];
    }
    return sum;
  });
  const passes = streams.map(stream => passesAtFullLoad(stream, exponent));
  const advance = streams.map(() => new Float64Array(exponent.length));
  const place = new Int32Array(exponent.length);
  for (let r = 0; r < exponent.length; r++) {
    let [worst, at] = [-1, 0];
    for (let i = 0; i < ny; i++) {
      let total = 0; // of the first year
      for (let s = 0; s < streams.length; s++) total += passes[s][r] * yearly[s][r * ny + i];
      if (total > worst) [worst, at] = [total, i];
    }
    for (let s = 0; s < streams.length; s++) advance[s][r] = yearly[s][r * ny + at];
    place[r] = at;
  }
  return {streams, cracks, scale, advance, exponent, place};
}

/** Passes of a stream's full load that the first year's are worth, [state][tip]: strain goes with load, growth with ε^n. */
function passesAtFullLoad({loads}: Stream, exponent: Float64Array): Float64Array {
  const byExponent = new Map<number, number>();
  return exponent.map(n => {
    const known = byExponent.get(n) ?? loads.reduce((sum, load) => sum + load.passesPerYear * load.factor ** n, 0);
    byExponent.set(n, known);
    return known;
  });
}

/** Growth per pass of one load of a stream, `factor` times its full load. */
export function loadTable({advance, exponent, cracks, scale}: TrafficRates, stream: number, factor: number): RateTable {
  const rates = advance[stream].map((rate, r) => rate * factor ** exponent[r]);
  return rateTable(cracks, rates, scale);
}

/** Growth a year at the first year's passes, of all streams that grow alike. */
export function yearlyTables(rates: TrafficRates): {readonly table: RateTable; readonly growth: number}[] {
  const {streams, cracks, scale, advance, exponent} = rates;
  const sums = new Map<number, Float64Array>();
  streams.forEach((stream, s) => {
    const sum = sums.get(stream.growth) ?? new Float64Array(exponent.length);
    const passes = passesAtFullLoad(stream, exponent);
    for (let r = 0; r < sum.length; r++) sum[r] += passes[r] * advance[s][r];
    sums.set(stream.growth, sum);
  });
  return [...sums].map(([growth, sum]) => ({growth, table: rateTable(cracks, sum, scale)}));
}

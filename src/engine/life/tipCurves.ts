/** Tip strain against crack length, other cracks absent: what drives each front, for the eye. */
import {TIPS} from "../response/index.ts";
import {streamsOf} from "../traffic/index.ts";
import type {CrackGrid} from "./rates.ts";
import type {Study, TipStrainCurve} from "./types.ts";
import type {ThermalPiece, TrafficPiece} from "./work.ts";

/** Lengths of one crack alone, with the state of each and the tip that is asked for. */
function alone(cracks: CrackGrid, front: TipStrainCurve["front"]): {length: Float64Array; rows: number[]} {
  const [nb, nc] = [cracks.undersideLength.length, cracks.surfaceLength.length];
  const tip = TIPS.indexOf(front);
  const hasInterlayer = cracks.interlayerLength.length > 1;
  const all = {interlayer: cracks.interlayerLength, underside: cracks.undersideLength, surface: cracks.surfaceLength}[
    front
  ];
  // The interlayer's own tip is gone once it is through.
  const length = front === "interlayer" ? all.subarray(0, hasInterlayer ? all.length - 1 : 0) : all;
  const rows = [...length.keys()].map(k => {
    const [a, b, c] = [front === "interlayer" ? k : 0, front === "underside" ? k : 0, front === "surface" ? k : 0];
    return cracks.number[(a * nb + b) * nc + c] * TIPS.length + tip;
  });
  return {length: length.slice(), rows};
}

/** One curve a front and stream, under its heaviest load, at the solved temperature nearest to the middle of those solved. */
export function trafficCurves(study: Study, pieces: readonly TrafficPiece[]): TipStrainCurve[] {
  if (!pieces.length) return [];
  const middle = [...pieces].sort((p, q) => p.temperature - q.temperature)[Math.floor((pieces.length - 1) / 2)];
  return TIPS.flatMap(front => {
    const {length, rows} = alone(middle.cracks, front);
    if (!length.length) return [];
    return streamsOf(study.traffic.classes).map(({loads}, s): TipStrainCurve => {
      const {index, factor} = loads.reduce((most, load) => (load.factor > most.factor ? load : most));
      return {
        front,
        cause: "traffic",
        label: `${study.traffic.classes[index].name}, ${middle.temperature.toFixed(0)} °C`,
        length,
        strain: Float64Array.from(rows, r => factor * middle.peak[s][r]),
      };
    });
  });
}

export function thermalCurves(piece: ThermalPiece): TipStrainCurve[] {
  return TIPS.flatMap(front => {
    const {length, rows} = alone(piece.cracks, front);
    if (!length.length) return [];
    return [
      {
        front,
        cause: "thermal" as const,
        label: "largest of the year",
        length,
        strain: Float64Array.from(rows, r => piece.growth.largestRange[r]),
      },
    ];
  });
}

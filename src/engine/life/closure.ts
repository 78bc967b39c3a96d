/**
 * Which cracks are closed. A crack whose own mode I is compressive has its faces in contact: it is tied against opening
 * but still slides. A closed crack opens nothing at the other tips, so their opening is that of the state in which the
 * closed crack has no length. Cracks are closed one after the other, the most compressed first, until every open one has
 * tension ahead of its tip.
 */
import type {StateSpace} from "../response/index.ts";

/** For one state, the number of the state left open for each set of closed cracks (bit k: crack k). */
export interface ClosureMap {
  readonly cracks: number; // independent cracks that exist in the state: bits below are used
  readonly present: number; // bits of the cracks that have a length
  readonly substate: Int32Array; // by set of closed cracks
  readonly tipOf: Int32Array; // tip (interlayer 0, underside 1, surface 2) of each crack
  readonly crackOfTip: Int32Array; // which crack's closing relieves each tip; −1 when the tip has no crack
}

export function closureMaps(space: StateSpace): ClosureMap[] {
  const hasInterlayer = space.interlayer.length > 1;
  return space.states.map(({interlayer: a, underside: b, surface: c, through}) => {
    // Through the interlayer, lower and restarted crack are one.
    const joined = through && (hasInterlayer || b > 0);
    const cracks = joined
      ? [
          {tip: 1, exists: true},
          {tip: 2, exists: c > 0},
        ]
      : [
          {tip: 0, exists: a > 0},
          {tip: 1, exists: b > 0},
          {tip: 2, exists: c > 0},
        ];
    const present = cracks.reduce((bits, crack, k) => bits | (crack.exists ? 1 << k : 0), 0);
    const substate = Int32Array.from({length: 1 << cracks.length}, (_, closed) => {
      const off = (tip: number): boolean => cracks.some((crack, k) => crack.tip === tip && (closed & (1 << k)) !== 0);
      if (joined) return off(1) ? space.index(0, 0, off(2) ? 0 : c) : space.index(a, b, off(2) ? 0 : c);
      return space.index(off(0) ? 0 : a, off(1) ? 0 : b, off(2) ? 0 : c);
    });
    const crackOfTip = Int32Array.of(-1, -1, -1);
    cracks.forEach((crack, k) => {
      if (crack.exists) crackOfTip[crack.tip] = k;
    });
    return {cracks: cracks.length, present, substate, tipOf: Int32Array.from(cracks, crack => crack.tip), crackOfTip};
  });
}

/** Tractions that differ by no more are alike [–]: those ahead of two tips so near each other that one zone serves both. */
const ALIKE = 1e-9;

/**
 * The open crack with the most compression ahead of its tip; −1 when all have tension. Of cracks alike
 * the lower one: rounding must not decide.
 *
 * @param closed   bits of the cracks closed so far
 * @param opening  ⟨σx⟩ at a tip of a state [Pa], all cracks of that state open
 */
export function mostCompressed(
  map: ClosureMap,
  closed: number,
  opening: (state: number, tip: number) => number,
): number {
  let worst = -1;
  let least = 0;
  for (let k = 0; k < map.cracks; k++) {
    if (!(map.present & (1 << k)) || closed & (1 << k)) continue;
    const traction = opening(map.substate[closed], map.tipOf[k]);
    if (traction < least * (1 + ALIKE)) {
      least = traction;
      worst = k;
    }
  }
  return worst;
}

/**
 * Opening tractions of one state's tips with closure.
 *
 * @param opening  ⟨σx⟩ at a tip of a state [Pa], all cracks of that state open
 * @param out      the three tips, overwritten; 0 where the tip's crack is closed
 */
export function resolveClosure(
  map: ClosureMap,
  opening: (state: number, tip: number) => number,
  out: Float64Array,
): void {
  let closed = 0;
  for (let worst = mostCompressed(map, closed, opening); worst >= 0; worst = mostCompressed(map, closed, opening))
    closed |= 1 << worst;
  const state = map.substate[closed];
  for (let tip = 0; tip < 3; tip++) {
    const crack = map.crackOfTip[tip];
    out[tip] = crack >= 0 && closed & (1 << crack) ? 0 : opening(state, tip);
  }
}

/** Tractions under three unit cases, by set of closed tips. */
export interface OpeningForms {
  readonly cracked: number; // bits of the tips that have a crack
  readonly values: Float64Array; // [set of closed tips][tip][case], 0 at closed tips; unused where a tip has no crack
}

/** @param opening [state][tip][case], three tips and three cases */
export function openingForms(map: ClosureMap, opening: Float64Array): OpeningForms {
  const cracked = map.crackOfTip.reduce((bits, crack, tip) => bits | (crack >= 0 ? 1 << tip : 0), 0);
  const values = new Float64Array(8 * 9);
  for (let tips = 0; tips < 8; tips++) {
    if (tips & ~cracked) continue;
    const closed = map.crackOfTip.reduce((bits, crack, tip) => bits | (tips & (1 << tip) ? 1 << crack : 0), 0);
    const state = 9 * map.substate[closed];
    values.set(opening.subarray(state, state + 9), 9 * tips);
    for (let tip = 0; tip < 3; tip++) if (tips & (1 << tip)) values.fill(0, 9 * tips + 3 * tip, 9 * tips + 3 * tip + 3);
  }
  return {cracked, values};
}

/**
 * Tips of the cracks that `resolveClosure` closes, for tractions x·first + y·second + z·third: the same without a call for
 * each traction, as a record has many hours.
 *
 * @returns bits of the closed tips
 */
export function closedTips({cracked, values}: OpeningForms, x: number, y: number, z: number): number {
  let closed = 0;
  for (;;) {
    const open = cracked & ~closed;
    const at = 9 * closed;
    let least = 0;
    let worst = 0;
    for (let tip = 0, k = at; tip < 3; tip++, k += 3) {
      if (!(open & (1 << tip))) continue;
      const traction = values[k] * x + values[k + 1] * y + values[k + 2] * z;
      if (traction < least * (1 + ALIKE)) {
        least = traction;
        worst = 1 << tip;
      }
    }
    if (!worst) return closed;
    closed |= worst;
  }
}

/** Which cracks and stretches of the joint touch at one wheel position and offset, and which state then stays open. */
import {InputError} from "../errors.ts";
import {type Response, TIPS, type Tip} from "../response/index.ts";
import {type ClosureMap, closureMaps, mostCompressed} from "./closure.ts";

/** Nothing touches; what the mechanics say; or as given, cracks by their tip and stretches of the joint from the top down. */
export type ContactChoice =
  | "open"
  | "decide"
  | {readonly closedCracks: readonly Tip[]; readonly closedFaces: readonly boolean[]};

/** A lower crack through the interlayer goes by its tip, `underside`. */
export interface ContactFound {
  readonly closedCracks: readonly Tip[];
  /** Stretches, where they can touch: upper and lower half of the jointed layers' face, then the cut in the foundation. */
  readonly closedFaces: readonly boolean[];
  readonly settled: boolean; // every open stretch open and every closed one pressed; false only when decided and none agrees
}

/** @param value of a quantity (tips, then stretches) in one contact pattern and state, see `Response.opening` */
type Lookup = (pattern: number, state: number, quantity: number) => number;

export function decideContact(
  choice: ContactChoice,
  tables: Response,
  state: number,
  value: Lookup,
): ContactFound & {readonly state: number; readonly pattern: number} {
  const map = closureMaps(tables.space)[state];
  const segments = tables.quantities - TIPS.length;
  const found = (closed: number, pattern: number, settled: boolean) => ({
    closedCracks: cracksOf(map, closed),
    closedFaces: Array.from({length: segments}, (_, s) => (pattern & (1 << s)) !== 0),
    settled,
    state: map.substate[closed],
    pattern,
  });
  if (choice === "open") return found(0, 0, true);
  if (choice !== "decide")
    return found(closedBits(map, choice.closedCracks), faceBits(choice.closedFaces, segments), true);

  // As for passes: the crack most compressed is closed first, each time with the stretches settled anew.
  let closed = 0;
  for (;;) {
    const open = map.substate[closed];
    const {pattern, settled} = settle(open, segments, value);
    const worst = mostCompressed(map, closed, tip => value(pattern, open, tip));
    if (worst < 0) return found(closed, pattern, settled);
    closed |= 1 << worst;
  }
}

/** The first pattern without fault, or the one with fewest. */
function settle(state: number, segments: number, value: Lookup): {pattern: number; settled: boolean} {
  let best = {pattern: 0, faults: Infinity};
  for (let pattern = 0; pattern < 1 << segments; pattern++) {
    let faults = 0;
    for (let s = 0; s < segments; s++) if (value(pattern, state, TIPS.length + s) < 0) faults++;
    if (faults < best.faults) best = {pattern, faults};
  }
  return {pattern: best.pattern, settled: best.faults === 0};
}

function cracksOf(map: ClosureMap, closed: number): Tip[] {
  return TIPS.filter((_, tip) => map.crackOfTip[tip] >= 0 && closed & (1 << map.crackOfTip[tip]));
}

function closedBits(map: ClosureMap, cracks: readonly Tip[]): number {
  return cracks.reduce((bits, name) => {
    const crack = map.crackOfTip[TIPS.indexOf(name)];
    if (crack < 0) {
      const there = TIPS.filter((_, tip) => map.crackOfTip[tip] >= 0).join(", ") || "none";
      throw new InputError("domain", "contact.closedCracks", name, `a crack that has a length: ${there}`);
    }
    return bits | (1 << crack);
  }, 0);
}

function faceBits(faces: readonly boolean[], segments: number): number {
  if (faces.length !== segments)
    throw new InputError(
      "shape",
      "contact.closedFaces.length",
      faces.length,
      `${segments}, the stretches that can touch`,
    );
  return faces.reduce((bits, closed, s) => (closed ? bits | (1 << s) : bits), 0);
}

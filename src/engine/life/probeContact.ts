/** Which cracks and stretches of the joint touch at one wheel position and offset, and which state then stays open. */
import {InputError} from "../errors.ts";
import {TIPS, type Tip} from "../response/index.ts";
import {type ClosureMap, mostCompressed} from "./closure.ts";
import {settledPattern} from "./contact.ts";

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

/** A quantity (tips, then stretches) in one contact pattern and state, see `settledOpening`. */
type Lookup = (pattern: number, state: number, quantity: number) => number;

/**
 * @param map       of the state asked for
 * @param segments  stretches that can touch
 */
export function decideContact(
  choice: ContactChoice,
  map: ClosureMap,
  segments: number,
  value: Lookup,
): ContactFound & {readonly state: number; readonly pattern: number} {
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
  const faultsOf = (state: number, pattern: number): number =>
    Array.from({length: segments}, (_, s) => (value(pattern, state, TIPS.length + s) < 0 ? 1 << s : 0)).reduce(
      (bits, bit) => bits | bit,
      0,
    );
  let closed = 0;
  for (;;) {
    const open = map.substate[closed];
    const pattern = settledPattern(0, segments, p => faultsOf(open, p));
    const worst = mostCompressed(map, closed, (state, tip) => value(pattern, state, tip));
    if (worst < 0) return found(closed, pattern, faultsOf(open, pattern) === 0);
    closed |= 1 << worst;
  }
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

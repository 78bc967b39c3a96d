import type {Section} from "../section/types.ts";

/** A depth at which the hourly temperature is kept. */
export interface ShownDepth {
  readonly depth: number; // below the surface [m]
  readonly layer: number; // of the section; at an interface the one above
  readonly place: "surface" | "middle" | "bottom"; // of that layer
}

/** The surface; middle and bottom of every course of the overlay and of every jointed layer; from the top down. */
export function shownDepths({layers}: Section): ShownDepth[] {
  const shown: ShownDepth[] = [{depth: 0, layer: 0, place: "surface"}];
  let top = 0;
  layers.forEach(({role, thickness}, layer) => {
    if (role === "overlay" || role === "jointed") {
      shown.push({depth: top + 0.5 * thickness, layer, place: "middle"});
      shown.push({depth: top + thickness, layer, place: "bottom"});
    }
    top += thickness;
  });
  return shown;
}

const ENVELOPE_POINTS = 40;
/** The envelope reaches at least so deep, and through all jointed layers [m]. */
const ENVELOPE_DEPTH = 1;
/** Points stand closer near the surface, where most happens: zᵢ = D·(i/N)^1.5. */
const CROWDING = 1.5;

/** Depths of the envelope, the surface first [m]. */
export function envelopeDepths({layers}: Section): Float64Array {
  let [depth, lowest] = [0, 0];
  for (const {role, thickness} of layers) {
    depth += thickness;
    if (role === "jointed") lowest = depth;
  }
  const deepest = Math.max(ENVELOPE_DEPTH, lowest);
  return Float64Array.from({length: ENVELOPE_POINTS + 1}, (_, i) => deepest * (i / ENVELOPE_POINTS) ** CROWDING);
}

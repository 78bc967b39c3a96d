import {requirePositive} from "../errors.ts";
import type {LoadClass, Wheel} from "./types.ts";
import {cumulative} from "./wander.ts";

/** Wheels whose lateral places differ by no more follow one another in one track [m]. */
const SAME_TRACK = 0.02;
/** Step across the width at which the most covered place is looked for, of the narrowest tyre [–]. */
const STEP = 0.02;

/**
 * Passes for one coverage: the inverse of the part of the passes whose tyres run over the place that most run over. Wheels
 * one behind the other in one track cover it once.
 *
 *   C(y) = Σ_tracks P(|y − y_track − w| ≤ b),  P/C = 1/max_y C(y)
 *
 * with w the lateral offset of a pass and 2b the tyre's width. Told as a measure of how channelised traffic is: damage is
 * computed from the wander itself.
 *
 * @throws InputError "domain" when a tyre has no width
 * @source Brown & Thompson 1973, lateral distribution of aircraft traffic, WES MP S-73-56 (title read, formula derived)
 */
export function passesPerCoverage({wheels, wander}: Pick<LoadClass, "wheels" | "wander">): number {
  const tracks = tracksOf(wheels);
  const narrowest = Math.min(...tracks.map(t => t.width));
  requirePositive("wheel.width", narrowest, "m");
  const below = cumulative(wander);
  const covered = (y: number): number =>
    tracks.reduce((sum, t) => sum + below(y - t.y + t.width / 2) - below(y - t.y - t.width / 2), 0);
  const [low, high] = [Math.min(...tracks.map(t => t.y)), Math.max(...tracks.map(t => t.y))];
  // The most covered place lies between the outermost tyres; a tyre that keeps to its line is met in its middle.
  const places = Math.ceil((high - low) / (STEP * narrowest));
  let most = 0;
  for (let k = 0; k <= places; k++) most = Math.max(most, covered(low + ((high - low) * k) / Math.max(places, 1)));
  for (const {y} of tracks) most = Math.max(most, covered(y));
  return 1 / most;
}

function tracksOf(wheels: readonly Wheel[]): {y: number; width: number}[] {
  const tracks: {y: number; width: number}[] = [];
  for (const {y, width} of [...wheels].sort((p, q) => p.y - q.y)) {
    const last = tracks.at(-1);
    if (last && y - last.y <= SAME_TRACK) last.width = Math.max(last.width, width);
    else tracks.push({y, width});
  }
  return tracks;
}

import type {Wheel} from "./types.ts";

/** Equal within this, when looking for mirror images [m]. */
const SAME = 1e-6;

/** True when every wheel's mirror image is a wheel of the group too, with the same load and contact. */
export function isSymmetric(
  wheels: readonly Wheel[],
  image: (w: Wheel) => {readonly x: number; readonly y: number},
): boolean {
  return wheels.every(wheel => {
    const {x, y} = image(wheel);
    return wheels.some(
      other =>
        Math.abs(other.x - x) <= SAME &&
        Math.abs(other.y - y) <= SAME &&
        other.load === wheel.load &&
        other.length === wheel.length &&
        other.width === wheel.width,
    );
  });
}

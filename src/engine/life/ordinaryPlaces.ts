import {axleLines, type Wheel} from "../traffic/index.ts";

/** Equal within this, when looking for mirror images [m]. */
const SAME = 1e-6;
/** Lateral distances outward from the wheel's edge, in radii [–]. */
const BESIDE = [0, 0.25, 0.5, 1, 1.5, 2, 3];

interface Place {
  readonly x: number; // [m]
  readonly y: number; // [m]
}

/** Radius of the circle with the area of the wheel's rectangle [m]. */
export function contactRadius(wheel: Wheel): number {
  return Math.sqrt((wheel.length * wheel.width) / Math.PI);
}

/**
 * Where tension at the underside of a course can peak: under each wheel's centre, under its four edge points, and
 * half-way to the next wheel of the same axle line and to the nearest wheel of the next line.
 */
export function undersidePlaces(wheels: readonly Wheel[]): Place[] {
  const places: Place[] = [];
  const lines = axleLines(wheels);
  lines.forEach((line, l) => {
    line.forEach((wheel, i) => {
      const a = contactRadius(wheel);
      const {x, y} = wheel;
      places.push({x, y}, {x, y: y - a}, {x, y: y + a}, {x: x - a, y}, {x: x + a, y});
      if (i + 1 < line.length) places.push(halfWay(wheel, line[i + 1]));
      if (l + 1 < lines.length) places.push(halfWay(wheel, nearest(wheel, lines[l + 1])));
    });
  });
  return oneOfEachMirrored(wheels, places);
}

/** Beside and between the wheels near the surface: outward along y from both edges of each wheel, to three radii. */
export function besidePlaces(wheels: readonly Wheel[]): Place[] {
  const places: Place[] = [];
  for (const wheel of wheels) {
    const a = contactRadius(wheel);
    for (const outward of BESIDE) {
      const distance = a * (1 + outward);
      places.push({x: wheel.x, y: wheel.y - distance}, {x: wheel.x, y: wheel.y + distance});
    }
  }
  return oneOfEachMirrored(wheels, places);
}

const halfWay = (a: Wheel, b: Wheel): Place => ({x: (a.x + b.x) / 2, y: (a.y + b.y) / 2});

function nearest(to: Wheel, line: readonly Wheel[]): Wheel {
  return line.reduce((best, w) => (Math.abs(w.y - to.y) < Math.abs(best.y - to.y) ? w : best));
}

/** Leaves out places on one side of an axis about which the wheels are symmetric: the response there is the same. */
function oneOfEachMirrored(wheels: readonly Wheel[], places: readonly Place[]): Place[] {
  const axisX = middle(wheels.map(w => w.x));
  const axisY = middle(wheels.map(w => w.y));
  const mirroredX = symmetric(wheels, w => ({x: 2 * axisX - w.x, y: w.y}));
  const mirroredY = symmetric(wheels, w => ({x: w.x, y: 2 * axisY - w.y}));
  return places.filter(p => (!mirroredX || p.x <= axisX + SAME) && (!mirroredY || p.y <= axisY + SAME));
}

const middle = (values: readonly number[]): number => (Math.min(...values) + Math.max(...values)) / 2;

function symmetric(wheels: readonly Wheel[], image: (w: Wheel) => Place): boolean {
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

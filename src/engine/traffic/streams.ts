import type {LoadClass, Wander, Wheel} from "./types.ts";

/** Loads whose wheels stand alike and differ in one factor, with the same wander and growth. */
export interface Stream {
  readonly geometry: number; // streams with the same number have the same wheels
  readonly wheels: readonly Wheel[]; // of the heaviest load
  readonly wander: Wander;
  readonly growth: number; // compound, per year [–]
  readonly loads: readonly StreamLoad[];
}

export interface StreamLoad {
  readonly index: number; // of the class
  readonly factor: number; // its load by that of the stream's wheels [–], ≤ 1
  readonly passesPerYear: number; // in the first year [1/year]
}

/** Ratios of loads equal within this are one [–]. */
const SAME = 1e-9;

/**
 * Load classes gathered into streams. Everything that wheels do to a linear pavement grows with their load, contact and
 * closure included, which depend on signs alone; so one computation serves all loads on the same wheels. In the order in
 * which the first class of each comes.
 */
export function streamsOf(classes: readonly LoadClass[]): Stream[] {
  const geometries: {key: string; wheels: readonly Wheel[]}[] = [];
  const places = classes.map(({wheels}) => {
    const key = geometryKey(wheels);
    const at = geometries.findIndex(g => g.key === key && ratioOf(wheels, g.wheels) !== null);
    if (at < 0) return geometries.push({key, wheels}) - 1;
    if (wheels[0].load > geometries[at].wheels[0].load) geometries[at].wheels = wheels;
    return at;
  });
  const streams = new Map<string, Stream & {loads: StreamLoad[]}>();
  classes.forEach(({wheels: own, wander, growth, passesPerYear}, index) => {
    const geometry = places[index];
    const {wheels} = geometries[geometry];
    const key = JSON.stringify([geometry, wander, growth]);
    const stream = streams.get(key) ?? {geometry, wheels, wander, growth, loads: []};
    stream.loads.push({index, factor: ratioOf(own, wheels)!, passesPerYear});
    streams.set(key, stream);
  });
  return [...streams.values()];
}

/** Wheels of each geometry that occurs, by its number. */
export function geometriesOf(streams: readonly Stream[]): (readonly Wheel[])[] {
  const wheels: (readonly Wheel[])[] = [];
  for (const stream of streams) wheels[stream.geometry] = stream.wheels;
  return wheels;
}

/** Loads of wheels over those of others that stand alike [–]; null when they are not in one proportion. */
export function loadRatio(wheels: readonly Wheel[], others: readonly Wheel[]): number | null {
  return geometryKey(wheels) === geometryKey(others) ? ratioOf(wheels, others) : null;
}

function geometryKey(wheels: readonly Wheel[]): string {
  return JSON.stringify(wheels.map(({x, y, length, width}) => [x, y, length, width]));
}

function ratioOf(wheels: readonly Wheel[], others: readonly Wheel[]): number | null {
  const ratio = wheels[0].load / others[0].load;
  const alike = wheels.every((w, k) => Math.abs(w.load - ratio * others[k].load) <= SAME * w.load);
  return alike ? ratio : null;
}

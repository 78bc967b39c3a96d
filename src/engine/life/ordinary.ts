import {InputError, requirePositive} from "../errors.ts";
import {
  type CircularLoad,
  type ElasticBase,
  type ElasticSets,
  type FieldPoint,
  horizontalStrains,
} from "../layered/index.ts";
import {bondBelow, type FatigueLine, type Layer, type Section} from "../section/index.ts";
import {
  geometriesOf,
  growthFactor,
  type Stream,
  standardAxleEquivalence,
  streamsOf,
  type Traffic,
  type Wheel,
} from "../traffic/index.ts";
import {
  besideGrid,
  besideLines,
  contactRadius,
  type LateralGrid,
  type LinePlaces,
  undersideGrid,
  undersideLines,
  underWheel,
  wanderAverage,
} from "./ordinaryPlaces.ts";
import type {Life, OrdinaryLife, OrdinaryMechanism, TemperatureBin} from "./types.ts";

/** "Near the surface" is down to here, or to half the top course where that is less [m]. */
const NEAR_SURFACE = 0.02;
/** Depths looked at, as shares of that [–]. */
const SHARES = [0, 0.5, 1];
/** Shares of the bins must sum to 1 within this [–]. */
const SHARE_SLACK = 1e-6;
/** Lives beyond are not told: nobody's traffic or climate is known so far ahead [years]. */
export const HORIZON = 1e5;
/** Accuracy of the time at which Miner's sum reaches 1, relative [–]. */
const TIME_TOLERANCE = 1e-12;

export interface OrdinaryCase {
  readonly section: Section; // its joint is ignored
  readonly traffic: Traffic;
  readonly bins: readonly TemperatureBin[];
  readonly moduli: readonly (readonly number[])[]; // by bin and layer [Pa]
  readonly analysisPeriod: number; // through which traffic grows [years]
  readonly horizon?: number; // lives beyond are censored [years]; default HORIZON
}

/** Where fatigue is followed: a mechanism in one layer. */
interface Site {
  readonly mechanism: OrdinaryMechanism;
  readonly layer: Layer;
  readonly index: number; // of the layer
  readonly depths: readonly number[]; // looked at; the first is told when no strain is found [m]
  readonly line: FatigueLine;
  readonly tracks: readonly Track[]; // a stream each
  strain: number; // largest so far [–]
  depth: number; // where [m]
}

/** Where wheels of one geometry strain a site, across the lane. */
interface Places {
  readonly grid: LateralGrid;
  readonly lines: readonly {
    readonly count: number; // axle lines alike
    readonly points: readonly (readonly FieldPoint[])[]; // of each solved lateral point; none under a wheel
  }[];
}

/** What one stream does to a site across the lane. */
interface Track extends Places {
  readonly damage: Float64Array; // at the solved points; of a year at first-year traffic that keeps to the line [1/year]
}

/**
 * Fatigue lives away from the joint: at the underside of every overlay and interlayer course, and near the surface of
 * the top course beside the wheels, for materials with a fatigue line.
 *
 * A whole group of wheels loads the section at once; each of its axle lines is one repetition of the largest strain at
 * that line, found at every lateral place. Damage is summed by Miner's rule over lines and temperature bins, averaged over
 * the lateral position of each class, summed over the classes, and counts at the place where the sum is largest.
 *
 * @throws InputError "domain" | "shape" | "convergence"
 * @source Palmgren 1924; Miner 1945; docs/theory/layered.md
 */
export function ordinaryLives(study: OrdinaryCase): {
  readonly lives: readonly OrdinaryLife[];
  readonly warnings: readonly string[];
} {
  const {section, traffic, bins, moduli} = study;
  checkBins(study);
  const warnings: string[] = [];
  const base = elasticBase(section, warnings);
  const streams = streamsOf(traffic.classes);
  const sites = sitesOf(section, streams, warnings);
  if (sites.length > 0) {
    const stack = uncutStack(section, base, moduli);
    geometriesOf(streams).forEach((wheels, geometry) => {
      const first = streams.findIndex(s => s.geometry === geometry);
      const points = sites.flatMap(site => site.tracks[first].lines.flatMap(line => line.points.flat()));
      horizontalStrains(stack, loadsOf(wheels), points).forEach((strains, b) => {
        streams.forEach((stream, s) => {
          if (stream.geometry === geometry)
            addDamage(strains, sites, {stream, s}, {share: bins[b].share, moduli: moduli[b]});
        });
      });
    });
  }
  const lives = sites.map((site): OrdinaryLife => {
    const damage = wanderedDamage(site.tracks, streams);
    const life = lifeOf(damage, streams, traffic, {period: study.analysisPeriod, horizon: study.horizon ?? HORIZON});
    return {mechanism: site.mechanism, layer: site.layer.name, depth: site.depth, strain: site.strain, life};
  });
  return {lives, warnings};
}

/**
 * Miner's damage n/N of equal strains, N = 10⁶·(ε₆(E)/ε)^k with ε₆(E) = ε₆·(E₀/E)^s. Compression does none.
 *
 * @param modulus      E of the layer at the time [Pa]
 * @param strain       ε, tension positive [–]
 * @param repetitions  n [–]
 * @source Miner 1945, doi:10.1115/1.4009458; EN 12697-24 (form of the line);
 *   s = ½ in the French design method (LCPC & SETRA 1994, Conception et dimensionnement des structures de chaussée)
 */
export function fatigueDamage(line: FatigueLine, modulus: number, strain: number, repetitions: number): number {
  if (!(strain > 0)) return 0;
  const shift = line.referenceModulus === null ? 1 : (line.referenceModulus / modulus) ** line.stiffnessExponent;
  return (repetitions / 1e6) * (strain / (line.strainAtMillion * shift)) ** line.exponent;
}

function checkBins({bins, moduli, section}: OrdinaryCase): void {
  const layers = section.layers.length;
  if (moduli.length !== bins.length || moduli.some(own => own.length !== layers))
    throw new InputError("shape", "moduli", `${moduli.length} rows`, `${bins.length} rows of ${layers}, a bin each`);
  const sum = bins.reduce((total, bin) => total + bin.share, 0);
  if (!(Math.abs(sum - 1) <= SHARE_SLACK)) throw new InputError("domain", "bins, sum of shares", sum, "1 [–]");
}

/** Elastic stack of the section at the bins' moduli, joint left out; bonds and slab friction are shear springs. */
function uncutStack(section: Section, base: ElasticBase, moduli: readonly (readonly number[])[]): ElasticSets {
  const {layers} = section;
  return {
    layers: layers.map(({material, thickness}, j) => ({
      poisson: material.poisson,
      thickness,
      shearSpringBelow: bondBelow(section, j),
    })),
    base,
    moduli,
  };
}

function elasticBase(section: Section, warnings: string[]): ElasticBase {
  const {base, layers, slabFriction} = section;
  const direct = layers.at(-1)?.role === "jointed"; // no foundation layer that could slide
  if (direct && base.kind === "rigid" && slabFriction !== Infinity) {
    warnings.push("Ordinary fatigue: the jointed layer lies right on the rigid base and is taken as bonded to it.");
  }
  if (direct && base.kind === "springs" && slabFriction > 0) {
    warnings.push("Ordinary fatigue: the jointed layer lies right on the springs, which pass no shear.");
  }
  return base;
}

function sitesOf(section: Section, streams: readonly Stream[], warnings: string[]): Site[] {
  const geometries = geometriesOf(streams);
  const sites: Site[] = [];
  let z = 0;
  section.layers.forEach((layer, j) => {
    z += layer.thickness;
    const bottom = z;
    if (layer.role !== "overlay" && layer.role !== "interlayer") return;
    const line = layer.material.fatigue;
    if (!line) {
      warnings.push(`Ordinary fatigue is not computed for ${layer.name}: ${layer.material.name} has no fatigue line.`);
      return;
    }
    const add = (mechanism: OrdinaryMechanism, depths: readonly number[]) => {
      const places = geometries.map(wheels => placesOf(mechanism, wheels, depths, j));
      const tracks = streams.map(({geometry}): Track => {
        const damage = new Float64Array(places[geometry].grid.solved.length);
        return {...places[geometry], damage};
      });
      sites.push({mechanism, layer, index: j, line, depths, tracks, strain: 0, depth: depths[0]});
    };
    if (j === 0) {
      const reach = Math.min(NEAR_SURFACE, layer.thickness / 2);
      add(
        "near-surface fatigue",
        SHARES.map(s => s * reach),
      );
    }
    add("underside fatigue", [bottom]);
  });
  return sites;
}

function placesOf(
  mechanism: OrdinaryMechanism,
  wheels: readonly Wheel[],
  depths: readonly number[],
  layer: number,
): Places {
  const beside = mechanism === "near-surface fatigue";
  const grid = beside ? besideGrid(wheels) : undersideGrid(wheels);
  const places = beside ? besideLines(wheels) : undersideLines(wheels);
  const pointsAt = (line: LinePlaces, y: number): FieldPoint[] =>
    beside && underWheel(line.wheels, y) ? [] : line.x.flatMap(x => depths.map(z => ({x, y, z, layer})));
  const lines = places.map(line => ({
    count: line.count,
    points: Array.from(grid.solved, y => pointsAt(line, y)),
  }));
  return {grid, lines};
}

function loadsOf(wheels: readonly Wheel[]): CircularLoad[] {
  return wheels.map(wheel => ({
    x: wheel.x,
    y: wheel.y,
    radius: contactRadius(wheel),
    pressure: wheel.load / (wheel.length * wheel.width),
  }));
}

/**
 * One stream in one bin: adds the damage of a year, as if without wander, and looks for the largest strain of every site.
 * Strain goes with load, so a load of f times the full one does f^k of its damage.
 *
 * @param strains  under the full load at all points of all sites, in their order [–]
 */
function addDamage(
  strains: Float64Array,
  sites: readonly Site[],
  {stream: {loads}, s}: {readonly stream: Stream; readonly s: number},
  bin: {readonly share: number; readonly moduli: readonly number[]},
): void {
  const heaviest = Math.max(...loads.map(load => load.factor));
  let next = 0;
  for (const site of sites) {
    const {lines, damage} = site.tracks[s];
    const modulus = bin.moduli[site.index];
    const k = site.line.exponent;
    const passes = bin.share * loads.reduce((sum, load) => sum + load.passesPerYear * load.factor ** k, 0);
    for (const {count, points} of lines) {
      points.forEach((candidates, i) => {
        let largest = 0;
        for (const {z} of candidates) {
          const strain = strains[next++];
          largest = Math.max(largest, strain);
          if (heaviest * strain > site.strain) {
            site.strain = heaviest * strain;
            site.depth = z;
          }
        }
        damage[i] += fatigueDamage(site.line, modulus, largest, passes * count);
      });
    }
  }
}

/** Damage of a year at first-year traffic, a stream each, at the lateral points of all streams, wander applied [1/year]. */
function wanderedDamage(tracks: readonly Track[], streams: readonly Stream[]): Float64Array[] {
  const at = Float64Array.from(new Set(tracks.flatMap(track => [...track.grid.y])));
  return tracks.map(({grid, damage}, s) => {
    const last = grid.y.length - 1;
    const across = grid.y.map((_, k) => damage[k < damage.length ? k : last - k]);
    return wanderAverage(grid, across, streams[s].wander, at);
  });
}

/** Time t with max over the places of Σ D·G(t) = 1 over the streams, D the damage of a year at first-year traffic. */
function lifeOf(
  damage: readonly Float64Array[],
  streams: readonly Stream[],
  {classes, standardAxle}: Traffic,
  {period, horizon}: {readonly period: number; readonly horizon: number},
): Life {
  requirePositive("horizon", horizon, "years");
  const reached = (years: number) => {
    const growth = streams.map(stream => growthFactor(years, stream.growth, period));
    let worst = 0;
    for (let k = 0; k < (damage[0]?.length ?? 0); k++) {
      let sum = 0;
      for (let c = 0; c < growth.length; c++) sum += damage[c][k] * growth[c];
      worst = Math.max(worst, sum);
    }
    return worst;
  };
  const censored = reached(horizon) < 1;
  const years = censored ? horizon : timeTo(reached, horizon);
  let passes = 0;
  let standardAxles = 0;
  classes.forEach(loadClass => {
    const count = loadClass.passesPerYear * growthFactor(years, loadClass.growth, period);
    passes += count;
    standardAxles += count * standardAxleEquivalence(loadClass, standardAxle);
  });
  return {years, passes, standardAxles, censored};
}

/** Bisection, which cannot fail on a rising function: the interval halves until it is TIME_TOLERANCE of itself. */
export function timeTo(reached: (years: number) => number, horizon: number): number {
  let low = 0;
  let high = horizon;
  while (high - low > TIME_TOLERANCE * high) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) break; // adjacent numbers
    if (reached(middle) < 1) low = middle;
    else high = middle;
  }
  return high;
}

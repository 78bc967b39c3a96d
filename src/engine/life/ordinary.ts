import {InputError, requirePositive} from "../errors.ts";
import {
  type CircularLoad,
  type ElasticBase,
  type FieldPoint,
  type LayeredModel,
  largestHorizontal,
  largestPrincipal,
  layeredModel,
  type PointResponse,
} from "../layered/index.ts";
import {type FatigueLine, type Layer, modulusAt, type Section} from "../section/index.ts";
import {axleLines, growthFactor, type LoadClass, standardAxleEquivalence, type Traffic} from "../traffic/index.ts";
import {besidePlaces, contactRadius, undersidePlaces} from "./ordinaryPlaces.ts";
import type {Life, OrdinaryLife, OrdinaryMechanism, TemperatureBin} from "./types.ts";

/** "Near the surface" is down to here, or to half the top course where that is less [m]. */
const NEAR_SURFACE = 0.02;
/** Depths looked at, as shares of that [–]. */
const SHARES = [0, 0.5, 1];
/** Shares of the bins must sum to 1 within this [–]. */
const SHARE_SLACK = 1e-6;
/** Longest life told [years]. */
const HORIZON = 1e4;
/** Accuracy of the time at which Miner's sum reaches 1, relative [–]. */
const TIME_TOLERANCE = 1e-12;

export interface OrdinaryCase {
  readonly section: Section; // its joint is ignored
  readonly traffic: Traffic; // wander is ignored
  readonly bins: readonly TemperatureBin[];
  readonly analysisPeriod: number; // through which traffic grows [years]
  readonly horizon?: number; // lives beyond are censored [years]; default 10 000
}

/** A place where fatigue is followed: a mechanism in one layer. */
interface Site {
  readonly mechanism: OrdinaryMechanism;
  readonly layer: Layer;
  readonly depth: number; // of the layer's underside, or 0 for the surface [m]
  readonly line: FatigueLine;
  readonly points: (loadClass: LoadClass) => FieldPoint[];
  readonly strain: (response: PointResponse) => number;
}

/** What a site has been through: damage of one year at first-year traffic, a class each. */
interface Exposure {
  readonly damage: Float64Array; // [1/year]
  strain: number; // largest so far [–]
  depth: number; // where [m]
}

/**
 * Fatigue lives away from the joint: at the underside of every overlay and interlayer course, and near the surface of
 * the top course beside the wheels, for materials with a fatigue line.
 *
 * A whole group of wheels loads the section at once; one pass counts as many repetitions of its largest strain as it has
 * axle lines. Damage is summed by Miner's rule over temperature bins and classes, each class with its own largest strain and no
 * wander, which errs on the safe side.
 *
 * @throws InputError "domain" | "shape" | "convergence"
 * @source Palmgren 1924; Miner 1945; docs/theory/layered.md
 */
export function ordinaryLives(study: OrdinaryCase): {
  readonly lives: readonly OrdinaryLife[];
  readonly warnings: readonly string[];
} {
  const {section, traffic, bins} = study;
  checkBins(bins);
  const warnings: string[] = [];
  const base = elasticBase(section, warnings);
  const sites = sitesOf(section, warnings);
  const records = sites.map(
    (site): Exposure => ({damage: new Float64Array(traffic.classes.length), strain: 0, depth: site.depth}),
  );
  if (sites.length > 0) {
    for (const bin of bins) {
      const model = uncutModel(section, base, bin.temperature);
      traffic.classes.forEach((loadClass, c) => {
        addDamage(model, sites, records, loadClass, c, bin);
      });
    }
  }
  const lives = sites.map((site, i): OrdinaryLife => {
    const {damage, strain, depth} = records[i];
    const life = lifeOf(damage, traffic, study.analysisPeriod, study.horizon ?? HORIZON);
    return {mechanism: site.mechanism, layer: site.layer.name, depth, strain, life};
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

function checkBins(bins: readonly TemperatureBin[]): void {
  const sum = bins.reduce((total, bin) => total + bin.share, 0);
  if (!(Math.abs(sum - 1) <= SHARE_SLACK)) throw new InputError("domain", "bins, sum of shares", sum, "1 [–]");
}

/** Elastic stack of the section at one temperature, joint left out; slab friction is a shear spring at its interface. */
function uncutModel(section: Section, base: ElasticBase, temperature: number): LayeredModel {
  const {layers} = section;
  const stack = layers.map((layer, j) => ({
    modulus: modulusAt(layer.material, temperature),
    poisson: layer.material.poisson,
    thickness: layer.thickness,
    shearSpringBelow:
      layer.role === "jointed" && layers[j + 1]?.role === "foundation" ? section.slabFriction : Infinity,
  }));
  return layeredModel(stack, base);
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

function sitesOf(section: Section, warnings: string[]): Site[] {
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
    if (j === 0) {
      const reach = Math.min(NEAR_SURFACE, layer.thickness / 2);
      sites.push({
        mechanism: "near-surface fatigue",
        layer,
        depth: 0,
        line,
        strain: response => largestPrincipal(response.strain),
        points: ({wheels}) => besidePlaces(wheels).flatMap(p => SHARES.map(s => ({...p, z: s * reach, layer: j}))),
      });
    }
    sites.push({
      mechanism: "underside fatigue",
      layer,
      depth: bottom,
      line,
      strain: response => largestHorizontal(response.strain),
      points: ({wheels}) => undersidePlaces(wheels).map(p => ({...p, z: bottom, layer: j})),
    });
  });
  return sites;
}

/** One class in one bin: largest strain of every site and the damage of a year. */
function addDamage(
  model: LayeredModel,
  sites: readonly Site[],
  records: readonly Exposure[],
  loadClass: LoadClass,
  c: number,
  bin: TemperatureBin,
): void {
  const loads = loadClass.wheels.map(
    (wheel): CircularLoad => ({
      x: wheel.x,
      y: wheel.y,
      radius: contactRadius(wheel),
      pressure: wheel.load / (wheel.length * wheel.width),
    }),
  );
  const pointsOf = sites.map(site => site.points(loadClass));
  const {points: responses} = model.respond(loads, pointsOf.flat());
  const repetitions = bin.share * loadClass.passesPerYear * axleLines(loadClass.wheels).length;
  let at = 0;
  sites.forEach((site, i) => {
    let largest = -Infinity;
    let depth = 0;
    for (const point of pointsOf[i]) {
      const strain = site.strain(responses[at++]);
      if (strain > largest) {
        largest = strain;
        depth = point.z;
      }
    }
    const record = records[i];
    record.damage[c] += fatigueDamage(site.line, modulusAt(site.layer.material, bin.temperature), largest, repetitions);
    if (largest > record.strain) {
      record.strain = largest;
      record.depth = depth;
    }
  });
}

/** Time t with Σ D·G(t) = 1 over the classes, D the damage of a year at first-year traffic. */
function lifeOf(damage: Float64Array, traffic: Traffic, period: number, horizon: number): Life {
  requirePositive("horizon", horizon, "years");
  const {classes, standardAxle} = traffic;
  const grown = (c: number, years: number) => growthFactor(years, classes[c].growth, period);
  const reached = (years: number) => damage.reduce((sum, d, c) => sum + d * grown(c, years), 0);
  const censored = reached(horizon) < 1;
  const years = censored ? horizon : timeTo(reached, horizon);
  let passes = 0;
  let standardAxles = 0;
  classes.forEach((loadClass, c) => {
    const count = loadClass.passesPerYear * grown(c, years);
    passes += count;
    standardAxles += count * standardAxleEquivalence(loadClass, standardAxle);
  });
  return {years, passes, standardAxles, censored};
}

/** Bisection, which cannot fail on a rising function: the interval halves until it is TIME_TOLERANCE of itself. */
function timeTo(reached: (years: number) => number, horizon: number): number {
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

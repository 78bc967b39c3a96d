/** What a pass of each load class is worth on this section, by reflection under traffic. */
import {type Section, thicknessOf} from "../section/index.ts";
import {loadRatio, passesPerCoverage, standardAxleEquivalence, type Traffic} from "../traffic/index.ts";
import {type FrontPath, integrateFronts} from "./fronts.ts";
import {ratesAt} from "./rates.ts";
import {loadTable, type TrafficRates} from "./trafficRates.ts";
import type {ClassEquivalence, LoadExponent, TrafficEquivalence} from "./types.ts";

/** Passes beyond which a load is said to do nothing [–]. */
const MOST_PASSES = 1e18;

/**
 * Factors of equivalence of this section and this mechanism: passes of the reference alone until the fronts meet, over
 * those of the class alone, both at the lateral place where the whole mix does most. The reference is the standard axle
 * when a class has its wheels, else the class that does most.
 */
export function trafficEquivalence(section: Section, traffic: Traffic, rates: TrafficRates): TrafficEquivalence {
  const {streams} = rates;
  const alone = passesToFailure(section, rates);
  const placed = streams
    .flatMap((stream, s) => stream.loads.map(load => ({...load, s})))
    .sort((p, q) => p.index - q.index);
  const passes = placed.map(({s, factor}) => alone(s, factor));
  const parts = passes.map((n, c) => traffic.classes[c].passesPerYear / n);
  const total = parts.reduce((sum, part) => sum + part, 0);
  const shares = parts.map(part => (total > 0 ? part / total : 0));
  const standard = standardAxlePasses(traffic, rates, alone);
  const most = shares.indexOf(Math.max(...shares));
  const reference = standard ?? {name: traffic.classes[most].name, passes: passes[most]};
  const fourth = traffic.classes.map(c => standardAxleEquivalence(c, traffic.standardAxle));
  const unit = standard ? 1 : fourth[most];
  const classes = traffic.classes.map(
    (c, k): ClassEquivalence => ({
      loadClass: c.name,
      group: c.group,
      load: c.wheels.reduce((sum, wheel) => sum + wheel.load, 0),
      passesPerYear: c.passesPerYear,
      passesToFailure: passes[k],
      factor: reference.passes / passes[k],
      fourthPower: fourth[k] / unit,
      share: shares[k],
      passesPerCoverage: passesPerCoverage(c),
    }),
  );
  return {reference: reference.name, classes, exponents: exponentsOf(classes)};
}

/** Passes of one load of a stream alone until the fronts meet. Where one exponent rules everywhere loads are scaled. */
function passesToFailure(section: Section, rates: TrafficRates): (stream: number, factor: number) => number {
  const exponents = new Set(rates.exponent);
  exponents.delete(0); // no tip
  const [only] = exponents.size === 1 ? exponents : [null];
  const integrate = (stream: number, factor: number): number => {
    const table = loadTable(rates, stream, factor);
    const path: FrontPath = integrateFronts({
      overlayThickness: thicknessOf(section.layers, "overlay"),
      interlayerThickness: thicknessOf(section.layers, "interlayer"),
      rates: (_, fronts, out) => ratesAt(table, fronts, out),
      horizon: MOST_PASSES,
      steady: true,
    });
    return path.failed ? path.years[path.years.length - 1] : Infinity;
  };
  const atFullLoad = new Map<number, number>();
  return (stream, factor) => {
    if (only === null) return integrate(stream, factor);
    const full = atFullLoad.get(stream) ?? integrate(stream, 1);
    atFullLoad.set(stream, full);
    return full / factor ** only;
  };
}

function standardAxlePasses(
  {standardAxle}: Traffic,
  {streams}: TrafficRates,
  alone: (stream: number, factor: number) => number,
): {name: string; passes: number} | null {
  for (const [s, {wheels}] of streams.entries()) {
    const factor = loadRatio(standardAxle.wheels, wheels);
    if (factor !== null) return {name: "standard axle", passes: alone(s, factor)};
  }
  return null;
}

/** Slope of ln factor on ln load within each group that has several loads. */
function exponentsOf(classes: readonly ClassEquivalence[]): LoadExponent[] {
  const groups = new Map<string, ClassEquivalence[]>();
  for (const one of classes) {
    if (one.group === null || !(one.factor > 0)) continue;
    groups.set(one.group, [...(groups.get(one.group) ?? []), one]);
  }
  return [...groups].flatMap(([group, members]) => {
    const loads = members.map(m => m.load);
    const [lightest, heaviest] = [Math.min(...loads), Math.max(...loads)];
    if (!(heaviest > lightest)) return [];
    const x = loads.map(Math.log);
    const y = members.map(m => Math.log(m.factor));
    const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;
    const [mx, my] = [mean(x), mean(y)];
    const sxx = x.reduce((sum, v) => sum + (v - mx) ** 2, 0);
    const sxy = x.reduce((sum, v, i) => sum + (v - mx) * (y[i] - my), 0);
    return [{group, exponent: sxy / sxx, lightest, heaviest}];
  });
}

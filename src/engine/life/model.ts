/**
 * A study solved once, and its lives when growth laws, counts of traffic, loads or the size of temperature changes are
 * others: nothing elastic is solved anew. Theory: docs/theory/risk.md.
 */
import {InputError} from "../errors.ts";
import {thicknessOf} from "../section/index.ts";
import {growthFactor} from "../traffic/index.ts";
import {assembleLife, lawScale, type Pieces, piecesOf} from "./assemble.ts";
import {integrateFronts} from "./fronts.ts";
import {HORIZON, timeTo} from "./ordinary.ts";
import {activeTraffic, type LifePlan} from "./plan.ts";
import {type CrackGrid, type Fronts, type RateTable, ratesAt, rateTable} from "./rates.ts";
import {trafficRates} from "./trafficRates.ts";
import type {LifeResult, Mechanism, OrdinaryLife, Study, Treatment} from "./types.ts";
import type {LifePiece} from "./work.ts";

/**
 * Exponents at which growth is computed besides the laws' own, as what is added to them: with these Chebyshev's points of the
 * span. Between them ln of growth is interpolated in n by a polynomial of degree 4.
 *
 * @param span  largest change of an exponent that will be asked for [–], > 0
 */
export function exponentsFor(span: number): number[] {
  return [-span, -span * Math.SQRT1_2, span * Math.SQRT1_2, span];
}

/** What is other than in the study. */
export interface Change {
  /** By material of the model: A times this, both in SI, and what is added to n. */
  readonly laws: readonly {readonly coefficient: number; readonly exponent: number}[];
  readonly fatigueStrains: readonly number[]; // by material: factor on ε₆ [–]
  readonly passes: number; // factor on all counts [–]
  readonly loads: number; // factor on all loads [–]
  readonly growth: number; // added to the growth of all classes [1/year]
  readonly temperatures: number; // factor on all departures of temperature from the strain-free one [–]
}

/** A life under a change. */
export interface ChangedLife {
  readonly years: number; // [years]
  readonly censored: boolean; // it is longer
  readonly mechanism: Mechanism;
  readonly depths: Float64Array; // cracked depth at the model's times, of the overlay [–]
}

interface Grown {
  readonly growth: number; // of its classes, per year [–]
  readonly rates: Growth; // at the first year's passes
}

/** ln of growth [state][tip][exponent] at the laws' own exponents first; −Infinity where there is none. */
interface Growth {
  readonly cracks: CrackGrid;
  readonly logs: Float64Array;
  readonly material: Int8Array; // [state][tip], of the model; −1 where there is no tip
}

interface TreatmentModel {
  readonly treatment: Treatment;
  readonly traffic: readonly Grown[];
  readonly thermal: Growth | null;
  readonly ordinary: readonly OrdinaryLife[];
}

export interface LifeModel {
  readonly study: Study;
  readonly base: LifeResult; // of the study as it is
  readonly materials: readonly string[]; // in which a crack can run, or with a fatigue line
  readonly further: readonly number[]; // exponents beside the own [–]
  readonly times: Float64Array; // at which cracked depths are told [years]
  readonly treatments: readonly TreatmentModel[];
}

const TIMES = 40; // steps of the analysis period

/**
 * @param plan     made with `further`
 * @param pieces   results of its tasks
 * @param further  from `exponentsFor`
 */
export function lifeModel(
  study: Study,
  plan: LifePlan,
  pieces: readonly (LifePiece | undefined)[],
  further: readonly number[],
): LifeModel {
  const active: Study = {...study, traffic: activeTraffic(study.traffic)};
  const base = assembleLife(study, plan, pieces);
  const materials = materialsOf(study);
  const times = Float64Array.from({length: TIMES + 1}, (_, k) => (study.analysisPeriod * k) / TIMES);
  const treatments = study.treatments.map((treatment, k): TreatmentModel => {
    const own = piecesOf(pieces, plan, k);
    return {
      treatment,
      traffic: trafficGrowth(active, treatment, plan, own, {materials, further}),
      thermal: thermalLogs(treatment, own, {materials, further}),
      ordinary: base.treatments[k].ordinary,
    };
  });
  return {study: active, base, materials, further, times, treatments};
}

function materialsOf({treatments}: Study): string[] {
  const names = treatments.flatMap(({section}) =>
    section.layers.flatMap(({material: {name, growth, fatigue}}) => (growth || fatigue ? [name] : [])),
  );
  return [...new Set(names)];
}

interface Of {
  readonly materials: readonly string[];
  readonly further: readonly number[];
}

function materialOfTips({section}: Treatment, tipLayer: Int8Array, materials: readonly string[]): Int8Array {
  return tipLayer.map(layer => (layer < 0 ? -1 : materials.indexOf(section.layers[layer].material.name)));
}

function trafficGrowth(
  {traffic}: Study,
  treatment: Treatment,
  {bins}: LifePlan,
  {traffic: pieces}: Pieces,
  {materials, further}: Of,
): Grown[] {
  if (!pieces.length) return [];
  const {streams, place, cracks, exponent} = trafficRates(traffic, bins, pieces, lawScale(treatment.section));
  const ny = pieces[0].lane.y.length;
  const count = 1 + further.length;
  const sums = new Map<number, Float64Array>();
  for (const bin of bins) {
    const piece = pieces.length === 1 ? pieces[0] : pieces.find(p => p.temperature === bin.temperature)!; // trafficRates found it
    if (piece.further.some(own => own.length !== further.length))
      throw new InputError("shape", "pieces, further exponents", piece.further[0].length, `${further.length}`);
    streams.forEach(({growth, loads}, s) => {
      const sum = sums.get(growth) ?? new Float64Array(exponent.length * count);
      [piece.advance[s], ...piece.further[s]].forEach((values, j) => {
        const offset = j === 0 ? 0 : further[j - 1];
        const passes = new Map<number, number>();
        for (let r = 0; r < exponent.length; r++) {
          const n = exponent[r] + offset;
          const own = passes.get(n) ?? loads.reduce((total, l) => total + l.passesPerYear * l.factor ** n, 0);
          passes.set(n, own);
          sum[r * count + j] += bin.share * own * values[r * ny + place[r]];
        }
      });
      sums.set(growth, sum);
    });
  }
  const material = materialOfTips(treatment, pieces[0].tipLayer, materials);
  return [...sums].map(([growth, sum]) => ({growth, rates: {cracks, logs: sum.map(Math.log), material}}));
}

function thermalLogs(treatment: Treatment, {thermal}: Pieces, {materials, further}: Of): Growth | null {
  if (!thermal) return null;
  const {growth, cracks, tipLayer} = thermal;
  const count = 1 + further.length;
  const logs = new Float64Array(growth.advance.length * count);
  [growth.advance, ...growth.further].forEach((values, j) => {
    for (let r = 0; r < values.length; r++) logs[r * count + j] = Math.log(values[r]);
  });
  return {cracks, logs, material: materialOfTips(treatment, tipLayer, materials)};
}

/** Lagrange's weights of the exponents 0, further… at a change of n. */
function weightsAt(further: readonly number[], change: number): number[] {
  const nodes = [0, ...further];
  return nodes.map((own, i) =>
    nodes.reduce((weight, other, j) => (j === i ? weight : (weight * (change - other)) / (own - other)), 1),
  );
}

/** Nothing is other. */
export function noChange({materials}: LifeModel): Change {
  return {
    laws: materials.map(() => ({coefficient: 1, exponent: 0})),
    fatigueStrains: materials.map(() => 1),
    passes: 1,
    loads: 1,
    growth: 0,
    temperatures: 1,
  };
}

/**
 * Lives of all treatments under a change, by whatever ends each first: reflection by traffic and temperature together, or
 * fatigue away from the joint.
 *
 * @throws InputError "domain" where an exponent changes by more than the model spans
 */
export function changedLives(model: LifeModel, change: Change): ChangedLife[] {
  requireChange(model, change);
  return model.treatments.map(treatment => {
    const reflection = reflectionLife(model, treatment, change);
    const others = treatment.ordinary.map(o => ordinaryLife(model, treatment, o, change));
    return others.reduce<ChangedLife>(
      (first, o) => (o.years < first.years ? {...o, depths: first.depths} : first),
      reflection,
    );
  });
}

function requireChange(
  {further, materials}: LifeModel,
  {laws, passes, loads, temperatures, fatigueStrains, growth}: Change,
): void {
  if (laws.length !== materials.length)
    throw new InputError("shape", "change.laws.length", laws.length, `${materials.length}, one a material`);
  const span = Math.max(...further, 0);
  for (const [k, {coefficient, exponent}] of laws.entries()) {
    if (!(Math.abs(exponent) <= span * (1 + 1e-12)))
      throw new InputError("domain", `change.laws[${k}].exponent`, exponent, `within ±${span} [–]`);
    if (!(coefficient > 0 && coefficient < Infinity))
      throw new InputError("domain", `change.laws[${k}].coefficient`, coefficient, "finite, > 0 [–]");
  }
  for (const [name, value] of Object.entries({passes, loads, temperatures}))
    if (!(value >= 0 && value < Infinity)) throw new InputError("domain", `change.${name}`, value, "finite, ≥ 0 [–]");
  for (const [k, value] of [...fatigueStrains].entries())
    if (!(value > 0 && value < Infinity))
      throw new InputError("domain", `change.fatigueStrains[${k}]`, value, "finite, > 0 [–]");
  if (!(growth > -1 && growth < Infinity))
    throw new InputError("domain", "change.growth", growth, "finite, > −1 [1/year]");
}

/** Rates under a change [m/year]; `scale` multiplies strains. */
function changedTable(
  model: LifeModel,
  treatment: Treatment,
  growth: Growth,
  change: Change,
  scale: number,
): RateTable {
  const {materials, further} = model;
  const {cracks, logs, material} = growth;
  const count = 1 + further.length;
  const exponents = materials.map(name => exponentOf(treatment, name));
  const weights = change.laws.map(law => weightsAt(further, law.exponent));
  const factors = change.laws.map((law, m) => law.coefficient * scale ** (exponents[m] + law.exponent));
  const rates = new Float64Array(material.length);
  for (let r = 0; r < rates.length; r++) {
    const m = material[r];
    if (m < 0 || logs[r * count] === -Infinity) continue;
    let sum = 0;
    for (let j = 0; j < count; j++) sum += weights[m][j] * logs[r * count + j];
    rates[r] = factors[m] * Math.exp(sum);
  }
  return rateTable(
    cracks,
    rates,
    lawScale(treatment.section, name => change.laws[materials.indexOf(name)]),
  );
}

function exponentOf({section}: Treatment, name: string): number {
  return section.layers.find(l => l.material.name === name)?.material.growth?.exponent ?? 0;
}

function reflectionLife(model: LifeModel, one: TreatmentModel, change: Change): ChangedLife {
  const {study, times} = model;
  const {treatment} = one;
  const {layers} = treatment.section;
  const overlay = thicknessOf(layers, "overlay");
  const traffic = one.traffic.map(({growth, rates}) => ({
    growth: growth + change.growth,
    table: changedTable(model, treatment, rates, change, change.loads),
  }));
  const thermal = one.thermal && changedTable(model, treatment, one.thermal, change, change.temperatures);
  const part = new Float64Array(3);
  const path = integrateFronts({
    overlayThickness: overlay,
    interlayerThickness: thicknessOf(layers, "interlayer"),
    horizon: HORIZON,
    rates: (years: number, fronts: Fronts, out: Float64Array) => {
      out.fill(0);
      for (const {growth, table} of traffic) {
        ratesAt(table, fronts, part);
        const passes = change.passes * (1 + growth) ** Math.min(years, study.analysisPeriod);
        for (let k = 0; k < out.length; k++) out[k] += passes * part[k];
      }
      if (!thermal) return;
      ratesAt(thermal, fronts, part);
      for (let k = 0; k < out.length; k++) out[k] += part[k];
    },
  });
  const depth = (k: number): number => (path.fronts[k][1] + path.fronts[k][2]) / overlay;
  let at = 0;
  const depths = times.map(t => {
    while (at < path.years.length - 1 && path.years[at + 1] < t) at++;
    if (at === path.years.length - 1) return path.failed ? 1 : depth(at);
    const share = (t - path.years[at]) / (path.years[at + 1] - path.years[at]);
    return depth(at) + share * (depth(at + 1) - depth(at));
  });
  const mechanism =
    traffic.length && thermal
      ? "reflection, both together"
      : thermal
        ? "reflection by temperature"
        : "reflection by traffic";
  return {years: path.years[path.years.length - 1], censored: !path.failed, mechanism, depths};
}

/**
 * Damage of the first year follows from the life that it gave; strains go with loads. Classes that grow apart are taken with the
 * mean of their growth, weighted by passes.
 */
function ordinaryLife(
  {study, materials}: LifeModel,
  {treatment}: TreatmentModel,
  {mechanism, layer, life}: OrdinaryLife,
  change: Change,
): Omit<ChangedLife, "depths"> {
  const {material} = treatment.section.layers.find(l => l.name === layer)!;
  const {classes} = study.traffic;
  const total = classes.reduce((sum, c) => sum + c.passesPerYear, 0);
  const grown = (years: number, added: number): number =>
    classes.reduce((sum, c) => sum + c.passesPerYear * growthFactor(years, c.growth + added, study.analysisPeriod), 0) /
    total;
  if (life.censored) return {years: HORIZON, censored: true, mechanism};
  const strain = change.loads / change.fatigueStrains[materials.indexOf(material.name)];
  const needed = grown(life.years, 0) / (change.passes * strain ** material.fatigue!.exponent);
  const reached = (years: number): number => grown(years, change.growth) / needed;
  if (!(reached(HORIZON) >= 1)) return {years: HORIZON, censored: true, mechanism};
  return {years: timeTo(reached, HORIZON), censored: false, mechanism};
}

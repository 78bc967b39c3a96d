/** Lives from the pieces: growth summed over bins and classes, fronts integrated, mechanisms compared. */
import type {PavementTemperatures} from "../climate/index.ts";
import {InputError} from "../errors.ts";
import {TIPS} from "../response/index.ts";
import {interfaceDepths, isPath, type Section, thicknessOf} from "../section/index.ts";
import {growthFactor, standardAxleEquivalence, streamsOf} from "../traffic/index.ts";
import {trafficEquivalence} from "./equivalence.ts";
import {type FrontPath, integrateFronts, timeOf} from "./fronts.ts";
import {HORIZON} from "./ordinary.ts";
import {activeTraffic, type LifePlan} from "./plan.ts";
import {type Fronts, type LawScale, type RateTable, ratesAt, rateTable} from "./rates.ts";
import {stiffnessWarnings} from "./stiffnessWarnings.ts";
import {thermalCurves, trafficCurves} from "./tipCurves.ts";
import {trafficRates, yearlyTables} from "./trafficRates.ts";
import type {
  CrackHistory,
  JointTransfer,
  Life,
  LifeResult,
  Mechanism,
  Scenario,
  Study,
  TemperatureBin,
  Treatment,
  TreatmentLife,
} from "./types.ts";
import type {LifePiece, OrdinaryPiece, ThermalPiece, TrafficPiece} from "./work.ts";

/**
 * @param plan    of the study
 * @param pieces  results of the plan's tasks, in any order; those that others needed may be missing
 */
export function assembleLife(
  study: Study,
  plan: Pick<LifePlan, "bins" | "temperatures">,
  pieces: readonly (LifePiece | undefined)[],
): LifeResult {
  const active: Study = {...study, traffic: activeTraffic(study.traffic)};
  const lives = study.treatments.map((treatment, k) =>
    treatmentLife(active, treatment, plan.bins, piecesOf(pieces, plan, k)),
  );
  const control = lives[0];
  return {study, treatments: lives.map(life => ({...life, ratioToControl: ratios(life, control)}))};
}

/** A thermal piece with the temperatures that the plan has kept for it. */
function withTemperatures(piece: ThermalPiece | null, known: PavementTemperatures | null): ThermalPiece | null {
  return piece && {...piece, temperatures: piece.temperatures ?? known};
}

type TreatmentPiece = TrafficPiece | ThermalPiece | OrdinaryPiece;

/** What was computed of one treatment. */
export interface Pieces {
  readonly traffic: readonly TrafficPiece[];
  readonly thermal: ThermalPiece | null;
  readonly ordinary: OrdinaryPiece | null;
}

/** @param treatment its number */
export function piecesOf(
  pieces: readonly (LifePiece | undefined)[],
  {temperatures}: Pick<LifePlan, "temperatures">,
  treatment: number,
): Pieces {
  const own = pieces.filter(p => p && "treatment" in p && p.treatment === treatment) as readonly TreatmentPiece[];
  return {
    traffic: own.filter(p => p.kind === "traffic"),
    thermal: withTemperatures(own.find(p => p.kind === "thermal") ?? null, temperatures[treatment]),
    ordinary: own.find(p => p.kind === "ordinary") ?? null,
  };
}

function treatmentLife(
  study: Study,
  treatment: Treatment,
  bins: readonly TemperatureBin[],
  pieces: Pieces,
): TreatmentLife {
  const {traffic: wheels, thermal, ordinary} = pieces;
  if (!wheels.length && !thermal)
    throw new InputError("domain", "study", "neither traffic nor weather", "at least one of them");
  const scale = lawScale(treatment.section);
  const byTraffic = wheels.length ? trafficRates(study.traffic, bins, wheels, scale) : null;
  const yearly = thermal ? rateTable(thermal.cracks, thermal.growth.advance, scale) : null;
  const scenarios: Scenario[] =
    byTraffic && yearly ? ["traffic", "thermal", "together"] : byTraffic ? ["traffic"] : ["thermal"];
  const grown = byTraffic ? yearlyTables(byTraffic) : [];
  const histories = scenarios.map(s =>
    crackHistory(study, treatment, s, s === "thermal" ? [] : grown, s === "traffic" ? null : yearly),
  );
  const ordinaryLives = ordinary?.lives ?? [];
  const candidates: {mechanism: Mechanism; life: Life}[] = [
    ...histories.map(h => ({mechanism: MECHANISM[h.scenario], life: h.life})),
    ...ordinaryLives.map(o => ({mechanism: o.mechanism, life: o.life})),
  ];
  const governing = candidates.reduce((best, c) => (c.life.years < best.life.years ? c : best));
  return {
    treatment,
    temperatures: thermal?.temperatures ?? null,
    bins,
    transfer: wheels.length ? jointTransfer(wheels[0]) : null,
    jointMovement: thermal?.jointMovement ?? null,
    histories,
    equivalence: byTraffic && trafficEquivalence(treatment.section, study.traffic, byTraffic),
    ordinary: ordinaryLives,
    governing,
    tipStrain: [...trafficCurves(study, wheels), ...(thermal ? thermalCurves(thermal) : [])],
    thermalCycles: thermal?.cycles ?? null,
    ratioToControl: {},
    warnings: [
      ...new Set([
        ...sectionWarnings(treatment.section),
        ...stiffnessWarnings(treatment.section, bins, thermal !== null),
        ...wheels.flatMap(p => p.warnings),
        ...contactWarnings(study, bins, wheels),
        ...(thermal?.warnings ?? []),
        ...(ordinary?.warnings ?? []),
      ]),
    ],
  };
}

const MECHANISM = {
  traffic: "reflection by traffic",
  thermal: "reflection by temperature",
  together: "reflection, both together",
} as const satisfies Record<Scenario, Mechanism>;

const USUAL_STRAIN = 2e-4; // at which laws are compared; any would do

/** No law is other than its material's. */
const ASIS = {coefficient: 1, exponent: 0};

/**
 * Which layer a front of some length is about to enter decides its law.
 *
 * @param changed  of a material: factor on the coefficient and what is added to the exponent
 */
export function lawScale(
  {layers}: Section,
  changed: (material: string) => {readonly coefficient: number; readonly exponent: number} = () => ASIS,
): LawScale {
  const depths = interfaceDepths(layers);
  const path = layers.filter(l => isPath(l.role));
  const overlayBottom = depths[layers.filter(l => l.role === "overlay").length];
  const speed = path.map(({material: {name, growth}}) => {
    const {coefficient, exponent} = changed(name);
    return coefficient * growth!.coefficient * USUAL_STRAIN ** (growth!.exponent + exponent);
  });
  const ahead = (depth: number, down: boolean): number => {
    // A front on an interface is in the layer ahead of it.
    const k = path.findIndex((_, i) => (down ? depth < depths[i + 1] - 1e-9 : depth <= depths[i + 1] + 1e-9));
    return k < 0 ? path.length - 1 : k;
  };
  return (tip, length) => {
    if (tip === 0) return speed[path.length - 1]; // the interlayer lies lowest
    return speed[tip === 1 ? ahead(overlayBottom - length, false) : ahead(length, true)];
  };
}

/** What is computed otherwise than the input may have meant. */
function jointTransfer({transfer: {stiffness, efficiency, tested = []}}: TrafficPiece): JointTransfer {
  return {spring: stiffness, efficiency, tested};
}

function sectionWarnings({layers, slabFriction}: Section): string[] {
  const warnings: string[] = [];
  const overlay = layers.filter(l => l.role === "overlay");
  const thickness = thicknessOf(layers, "overlay");
  for (const {name, material} of overlay) {
    const zone = material.growth!.zoneLength;
    if (zone > thickness / 2) {
      const mm = (length: number): string => (length * 1e3).toFixed(0);
      warnings.push(
        `The process zone of ${name}, ${mm(zone)} mm, is longer than half the overlay of ${mm(thickness)} mm: it is cut at the ` +
          "other front nearly everywhere, and the growth law is used outside the length it was measured with.",
      );
    }
  }
  if (!layers.some(l => l.role === "foundation") && slabFriction > 0 && Number.isFinite(slabFriction)) {
    warnings.push("There is no foundation layer for the slab to rub on: its friction is not used.");
  }
  return warnings;
}

const UNSETTLED_ACCEPTED = 0.05; // of the points that do the damage; more is worth a word

/** Streams for which contact of the joint's faces was often not settled, each bin counting by its part of the growth. */
function contactWarnings(study: Study, bins: readonly TemperatureBin[], pieces: readonly TrafficPiece[]): string[] {
  const {classes} = study.traffic;
  return streamsOf(classes).flatMap(({loads}, s) => {
    let growth = 0;
    let doubtful = 0;
    for (const piece of pieces) {
      const share = bins.find(b => b.temperature === piece.temperature)?.share ?? 1;
      const part = share * sumOf(piece.advance[s]);
      growth += part;
      doubtful += part * piece.unsettled[s];
    }
    if (!(doubtful > UNSETTLED_ACCEPTED * growth)) return [];
    const percent = ((100 * doubtful) / growth).toFixed(0);
    const heaviest = loads.reduce((most, load) => (load.factor > most.factor ? load : most));
    return [
      `Where ${classes[heaviest.index].name} does its damage, contact of the joint's faces could not be settled at ${percent} % of the points.`,
    ];
  });
}

function sumOf(values: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < values.length; k++) sum += values[k];
  return sum;
}

function crackHistory(
  study: Study,
  treatment: Treatment,
  scenario: Scenario,
  growing: readonly {readonly table: RateTable; readonly growth: number}[],
  yearly: RateTable | null,
): CrackHistory {
  const {layers} = treatment.section;
  const overlay = thicknessOf(layers, "overlay");
  const {analysisPeriod, traffic} = study;
  const part = new Float64Array(TIPS.length);
  const rates = (years: number, fronts: Fronts, out: Float64Array): void => {
    out.fill(0);
    for (const {table, growth} of growing) {
      ratesAt(table, fronts, part);
      const passes = (1 + growth) ** Math.min(years, analysisPeriod); // those of the first year being 1
      for (let k = 0; k < out.length; k++) out[k] += passes * part[k];
    }
    if (yearly) {
      ratesAt(yearly, fronts, part);
      for (let k = 0; k < out.length; k++) out[k] += part[k];
    }
  };
  const path: FrontPath = integrateFronts({
    overlayThickness: overlay,
    interlayerThickness: thicknessOf(layers, "interlayer"),
    rates,
    horizon: HORIZON,
  });
  const passesBy = (years: number): number =>
    traffic.classes.reduce((sum, c) => sum + c.passesPerYear * growthFactor(years, c.growth, analysisPeriod), 0);
  const axlesBy = (years: number): number =>
    traffic.classes.reduce(
      (sum, c) =>
        sum +
        c.passesPerYear *
          growthFactor(years, c.growth, analysisPeriod) *
          standardAxleEquivalence(c, traffic.standardAxle),
      0,
    );
  const years = path.years[path.years.length - 1];
  const last = path.fronts[path.fronts.length - 1];
  const depth = (f: Fronts): number => f[1] + f[2];
  return {
    scenario,
    years: path.years,
    passes: path.years.map(passesBy),
    interlayer: Float64Array.from(path.fronts, f => f[0]),
    underside: Float64Array.from(path.fronts, f => f[1]),
    surface: Float64Array.from(path.fronts, f => f[2]),
    failed: path.failed,
    life: {years, passes: passesBy(years), standardAxles: axlesBy(years), censored: !path.failed},
    milestones: [0.25, 0.5, 0.75].map(fraction => {
      const at = timeOf(path, depth, fraction * overlay);
      return {fraction, years: at, passes: Number.isFinite(at) ? passesBy(at) : Infinity};
    }),
    worstFront: last[1] >= last[2] ? "lower" : "upper",
  };
}

function ratios(life: TreatmentLife, control: TreatmentLife): TreatmentLife["ratioToControl"] {
  const out: Partial<Record<Scenario | "governing", number>> = {};
  const put = (key: Scenario | "governing", own: Life, other: Life): void => {
    if (!own.censored && !other.censored) out[key] = own.years / other.years;
  };
  for (const h of life.histories) {
    const other = control.histories.find(c => c.scenario === h.scenario);
    if (other) put(h.scenario, h.life, other.life);
  }
  put("governing", life.governing.life, control.governing.life);
  return out;
}

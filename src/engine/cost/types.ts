/**
 * What treatments cost. Everything is of one square metre of pavement. Money is in the currency of the study, written
 * [cur]; embodied carbon goes through the same quantities with [kg] of CO₂ equivalent in its place.
 */

/** A layer that one operation lays. */
export interface LaidLayer {
  readonly name: string;
  readonly role: "overlay" | "interlayer";
  readonly material: string;
  readonly thickness: number; // [m]
  readonly density: number; // [kg/m³]
}

/** One operation on the pavement: first construction, or a renewal. */
export interface Works {
  readonly layers: readonly LaidLayer[]; // from the surface down, one a course
  readonly planedDepth: number; // milled off before laying [m]; 0: not planed
  readonly reinforcement: string | null; // name; null: none
  readonly cracking: boolean; // slabs are cracked and seated
}

/** Of a material, by volume or by mass. */
export type MaterialRate =
  | {readonly kind: "volume"; readonly rate: number} // [cur/m³]
  | {readonly kind: "mass"; readonly rate: number}; // [cur/kg]

/** What a unit of each thing costs, or what carbon it stands for. */
export interface Rates {
  readonly materials: Readonly<Record<string, MaterialRate>>;
  readonly reinforcements: Readonly<Record<string, number>>; // [cur/m²]
  readonly laying: number; // of each course [cur/m²]
  readonly planing: {readonly area: number; readonly volume: number}; // [cur/m²], [cur/m³]; both count
  readonly cracking: number; // cracking and seating [cur/m²]
  readonly fixed: number; // of each operation, whatever it consists of [cur/m²]
  readonly trafficManagement: number; // of each operation [cur/m²]
}

/** What is done in one treatment, at first and at the end of each life. */
export interface TreatmentWorks {
  readonly name: string;
  readonly first: Works;
  readonly renewal: Works;
  readonly renewalLife: number | null; // of a renewal [years]; null: that of the treatment
}

/** How amounts at different times are added up. */
export interface CostOptions {
  readonly discountRate: number; // real, a year [–]; > −1
  readonly period: number; // from the first construction on [years]
  readonly longestLife: number; // other causes end an overlay by then [years]; Infinity: none do
}

/** The costs part of a study. */
export interface Costs extends CostOptions {
  readonly currency: string;
  readonly priceDate: string; // in words
  readonly prices: Rates;
  readonly carbon: Rates | null; // in kg of CO₂ equivalent; null: not asked for
  readonly treatments: readonly TreatmentWorks[]; // in the order of the study's
}

/** One thing that an operation pays for. */
export interface CostItem {
  readonly what: "material" | "laying" | "planing" | "reinforcement" | "cracking" | "fixed" | "traffic management";
  readonly name: string; // of the layer or the reinforcement; empty where there is none
  readonly amount: number; // [cur/m²]
}

/** A payment, or as a negative one the value that is left. */
export interface CashFlow {
  readonly kind: "first" | "renewal" | "residual";
  readonly years: number; // after the first construction [years]
  readonly amount: number; // undiscounted [cur/m²]
}

/** Of a sample of present worths or annual costs. */
export interface Spread {
  readonly mean: number; // [cur/m²]
  readonly quantiles: readonly {readonly probability: number; readonly value: number}[];
}

/** Costs of one treatment over a sample of lives; element k belongs to life k. */
export interface SampledCosts {
  readonly first: number; // [cur/m²]
  readonly renewal: number; // of one [cur/m²]
  readonly renewals: Float64Array; // within the period [–]
  readonly presentWorth: Float64Array; // [cur/m²]
  readonly annual: Float64Array; // equivalent annual cost [cur/m²]
  readonly summary: {readonly presentWorth: Spread; readonly annual: Spread};
  readonly capped: number; // lives that were longer than the longest [–]
  readonly warnings: readonly string[];
}

/** The price of what a treatment adds at which it costs as much as the control over the period. */
export interface BreakEven {
  readonly subject: "interlayer" | "reinforcement";
  readonly perArea: number; // material alone, equal in the mean [cur/m²]; negative: dearer even as a gift
  readonly perVolume: number | null; // [cur/m³]; null: a reinforcement
  readonly probability: number; // asked for [–]
  readonly perAreaSure: number; // at which it is not dearer with this probability [cur/m²]
  readonly perVolumeSure: number | null; // [cur/m³]
  readonly paid: number; // what it costs by the rates [cur/m²]
}

/** Costs of one treatment with its single computed life. */
export interface TreatmentCosts {
  readonly name: string;
  readonly life: number; // that counted [years]
  readonly capped: boolean; // the computed life was longer
  readonly first: {readonly total: number; readonly items: readonly CostItem[]}; // [cur/m²]
  readonly renewal: {readonly total: number; readonly items: readonly CostItem[]}; // of one [cur/m²]
  readonly renewals: number; // within the period [–]
  readonly flows: readonly CashFlow[]; // in the order of time; none where there are more than 10 000
  readonly presentWorth: number; // [cur/m²]
  readonly annual: number; // [cur/m²]
  readonly breakEven: BreakEven | null; // null: nothing added to the control, or no price brings it level
  readonly carbon: {
    readonly first: number; // [kg/m²]
    readonly renewal: number; // of one [kg/m²]
    readonly total: number; // over the period, less what is left, undiscounted [kg/m²]
    readonly annual: number; // [kg/m²]
  } | null;
}

export interface CostResult {
  readonly costs: Costs;
  readonly treatments: readonly TreatmentCosts[];
  readonly warnings: readonly string[];
}

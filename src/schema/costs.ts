import type {Costs, LaidLayer, MaterialRate, Rates, TreatmentWorks, Works} from "../engine/cost/types.ts";
import {thermalDefaults} from "./material-fields.ts";
import {fromMm, fromPercent, perMm, perTonne} from "./si.ts";
import type {CostsDocument, StudyDocument, TreatmentDocument} from "./study.ts";
import {treatedSection} from "./treatments.ts";

/** Costs in the engine's terms, money in the currency of the document. Call only with what passed `checkCosts`. */
export function toCosts(document: StudyDocument): Costs | null {
  const {costs} = document;
  if (costs === undefined) return null;
  return {
    currency: costs.currency,
    priceDate: costs.price_date,
    discountRate: fromPercent(costs.discount_percent),
    period: costs.analysis_period_years ?? document.analysis_period_years,
    longestLife: costs.longest_life_years,
    prices: toPrices(costs),
    carbon: costs.carbon ? toCarbon(costs.carbon) : null,
    treatments: document.treatments.map(treatment => toWorks(document, costs, treatment)),
  };
}

/** Whether a treatment breaks the jointed layer into smaller pieces. */
export function cracksSlabs(
  changes: {
    readonly jointed_modulus_factor?: number | undefined;
    readonly joint?: {readonly spacing_m?: number | undefined} | undefined;
  },
  spacing: number | undefined,
): boolean {
  const other = changes.joint?.spacing_m;
  return (changes.jointed_modulus_factor ?? 1) !== 1 || (other !== undefined && other !== spacing);
}

function toWorks(document: StudyDocument, costs: CostsDocument, treatment: TreatmentDocument): TreatmentWorks {
  const {courses, reinforcement} = treatedSection(document.section, treatment);
  const layers = courses.map(course =>
    toLayer(document, {...course, role: course.role === "interlayer" ? "interlayer" : "overlay"}),
  );
  const first: Works = {
    layers,
    planedDepth: fromMm(costs.first_construction.planing_mm),
    reinforcement: reinforcement?.name ?? null,
    cracking: cracksSlabs(treatment.changes, document.section.joint.spacing_m),
  };
  const own = costs.renewals.find(renewal => renewal.treatment === treatment.name);
  const laid_mm = (own?.layers ?? courses).reduce((sum, {thickness_mm}) => sum + thickness_mm, 0);
  const renewal: Works = {
    layers: own?.layers?.map(layer => toLayer(document, {...layer, name: layer.material})) ?? layers,
    planedDepth: fromMm(own?.planing_mm ?? laid_mm),
    reinforcement: own?.reinforcement ?? (own?.layers ? null : first.reinforcement),
    cracking: false, // they stay cracked
  };
  return {name: treatment.name, first, renewal, renewalLife: own?.life_years ?? null};
}

function toLayer(
  {materials}: StudyDocument,
  {name, role, material, thickness_mm}: Pick<LaidLayer, "name" | "role" | "material"> & {readonly thickness_mm: number},
): LaidLayer {
  const {kind, thermal} = materials[material];
  const density = thermal?.density_kg_per_m3 ?? thermalDefaults[kind].density;
  return {name, role, material, thickness: fromMm(thickness_mm), density};
}

function toPrices(costs: CostsDocument): Rates {
  const {operations} = costs;
  return {
    materials: mapped(costs.materials, ({price_per_m3: volume, price_per_tonne: mass}) =>
      toRate(volume, mass === undefined ? undefined : perTonne(mass)),
    ),
    reinforcements: mapped(costs.reinforcements, ({price_per_m2}) => price_per_m2),
    laying: operations.laying_per_m2,
    // Where neither is given nothing is planed: checkCosts
    planing: {area: operations.planing_per_m2 ?? 0, volume: perMm(operations.planing_per_m2_and_mm ?? 0)},
    cracking: operations.cracking_per_m2 ?? 0, // likewise
    fixed: operations.fixed_per_m2,
    trafficManagement: costs.traffic_management_per_m2,
  };
}

function toCarbon(carbon: NonNullable<CostsDocument["carbon"]>): Rates {
  return {
    materials: mapped(carbon.materials, ({kg_CO2e_per_m3: volume, kg_CO2e_per_kg: mass}) => toRate(volume, mass)),
    reinforcements: mapped(carbon.reinforcements, ({kg_CO2e_per_m2}) => kg_CO2e_per_m2),
    laying: carbon.laying_kg_CO2e_per_m2,
    planing: {area: carbon.planing_kg_CO2e_per_m2, volume: perMm(carbon.planing_kg_CO2e_per_m2_and_mm)},
    cracking: carbon.cracking_kg_CO2e_per_m2,
    fixed: carbon.fixed_kg_CO2e_per_m2,
    trafficManagement: 0,
  };
}

function toRate(volume: number | undefined, mass: number | undefined): MaterialRate {
  return volume === undefined ? {kind: "mass", rate: mass!} : {kind: "volume", rate: volume}; // one of the two: checkCosts
}

function mapped<T, U>(map: Readonly<Record<string, T>>, to: (value: T) => U): Record<string, U> {
  return Object.fromEntries(Object.entries(map).map(([name, value]) => [name, to(value)]));
}

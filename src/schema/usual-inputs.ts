import type {Distribution} from "../engine/risk/types.ts";
import type {Effect, UncertainInput} from "../engine/uncertainty/types.ts";
import type {DocumentPath} from "./fault.ts";
import type {LawDocument} from "./law-file.ts";
import {fromPercent} from "./si.ts";
import {lawSpread, scaleNames} from "./spreads.ts";
import type {StudyDocument} from "./study.ts";
import {usualSpread} from "./usual-uncertainty.ts";

/** The usual spread of whatever `given` does not have. */
export function usualInputs(
  document: StudyDocument,
  laws: ReadonlyMap<string, LawDocument>,
  given: readonly UncertainInput[],
): UncertainInput[] {
  const all = [
    ...lawInputs(document, laws),
    ...trafficAndClimate(document),
    ...structure(document),
    ...openChoices(document),
  ];
  const known = new Set(given.map(({effect}) => JSON.stringify(effect)));
  return all.filter(({effect}) => !known.has(JSON.stringify(effect)));
}

const one = (name: string, effect: Effect, distribution: Distribution): UncertainInput => ({
  name,
  effect,
  distribution,
});

const lognormal = (median: number, percent: number): Distribution => ({
  kind: "lognormal",
  median,
  coefficientOfVariation: fromPercent(percent),
});

function lawInputs({materials}: StudyDocument, laws: ReadonlyMap<string, LawDocument>): UncertainInput[] {
  const names = Object.keys(materials).filter(name => materials[name].crack_growth);
  const own = names.map((material): UncertainInput => {
    const guessed = {ln_A_deviation: usualSpread.lawDeviation, correlation: 0};
    const spread = lawSpread({correlation: 0}, laws.get(material)) ?? lawSpread(guessed, undefined)!;
    return {name: `law of ${material}`, effect: {kind: "law", material}, ...spread};
  });
  const lines = Object.keys(materials)
    .filter(name => materials[name].fatigue_line)
    .map(material =>
      one(`fatigue line of ${material}`, {kind: "fatigue", material}, lognormal(1, usualSpread.fatigue_percent)),
    );
  return [...own, one(scaleNames.rates, {kind: "rates"}, lognormal(1, usualSpread.rates_percent)), ...lines];
}

function trafficAndClimate({climate}: StudyDocument): UncertainInput[] {
  const normal = (mean: number, deviation: number): Distribution => ({kind: "normal", mean, deviation});
  return [
    one(scaleNames.passes, {kind: "passes"}, lognormal(1, usualSpread.passes_percent)),
    one(scaleNames.loads, {kind: "loads"}, normal(1, fromPercent(usualSpread.loads_percent))),
    one(scaleNames.growth_percent, {kind: "growth"}, normal(0, fromPercent(usualSpread.growth_points))),
    ...(climate
      ? [one(scaleNames.temperatures, {kind: "temperatures"}, normal(1, fromPercent(usualSpread.temperatures_percent)))]
      : []),
  ];
}

function structure({section, materials, treatments}: StudyDocument): UncertainInput[] {
  const inputs: UncertainInput[] = [];
  const field = (name: string, path: DocumentPath, distribution: Distribution): void => {
    inputs.push(one(name, {kind: "field", path}, distribution));
  };
  section.layers.forEach(({name, role, thickness_mm}, i) => {
    if (role !== "overlay") return;
    const deviation = fromPercent(usualSpread.asphaltThickness_percent) * thickness_mm;
    const truncated = {low: 0.7 * thickness_mm, high: 1.3 * thickness_mm};
    field(`thickness of ${name}`, ["section", "layers", i, "thickness_mm"], {
      kind: "normal",
      mean: thickness_mm,
      deviation,
      truncated,
    });
  });
  for (const [name, {modulus_MPa}] of Object.entries(materials)) {
    const layer = section.layers.find(l => l.material === name && l.role !== "overlay");
    if (!layer || modulus_MPa === undefined) continue;
    const percent = layer.role === "jointed" ? usualSpread.baseModulus_percent : usualSpread.foundationModulus_percent;
    field(`modulus of ${name}`, ["materials", name, "modulus_MPa"], lognormal(modulus_MPa, percent));
  }
  const soft = new Set(treatments.flatMap(t => (t.changes.interlayer ? [t.changes.interlayer.material] : [])));
  for (const material of soft)
    inputs.push(
      one(
        `relaxation of ${material}`,
        {kind: "relaxation", material},
        {...lognormal(1, usualSpread.relaxation_percent), truncated: {low: 0.2, high: 5}},
      ),
    );
  return inputs;
}

/** What nobody has measured. */
function openChoices({section}: StudyDocument): UncertainInput[] {
  const {low, high} = usualSpread.interlock_MPa_per_mm;
  const cut = section.layers.some(l => l.role === "foundation");
  return [
    one(
      "interlock of crack faces",
      {kind: "field", path: ["section", "crack_interlock_MPa_per_mm"]},
      {kind: "triangular", low, mode: low, high},
    ),
    one(
      "weight of shear",
      {kind: "field", path: ["section", "shear_weight"]},
      {kind: "uniform", ...usualSpread.shearWeight},
    ),
    ...(cut
      ? [
          one(
            "depth of the cut into the foundation",
            {kind: "field", path: ["section", "joint", "cut_into_foundation_mm"]},
            {kind: "uniform", ...usualSpread.cutDepth_mm},
          ),
        ]
      : []),
  ];
}

import type {WeatherRecord} from "../engine/climate/types.ts";
import type {Study, TemperatureBin} from "../engine/life/types.ts";
import type {Base, DeflectionTest, Layer, LoadTransfer, Reinforcement, Section} from "../engine/section/types.ts";
import {usualCut_mm} from "./check-section.ts";
import {toCosts} from "./costs.ts";
import {type ThermalLoading, thermalLoading, toMaterial} from "./materials.ts";
import {fromKN, fromMm, fromMPaPerMm, fromPercent, fromUm} from "./si.ts";
import type {ReadCurve} from "./stiffness.ts";
import {
  derivedBins,
  type LayerDocument,
  type SectionDocument,
  type StudyDocument,
  type TreatmentDocument,
} from "./study.ts";
import {toTraffic} from "./traffic.ts";
import {type TreatedSection, treatedSection} from "./treatments.ts";

/** Widest joint whose faces touch when nothing else is said [mm]. */
const tightJoint_mm = 0.1;

/** What a document refers to, as read. */
export interface Referred {
  readonly weather: WeatherRecord | null;
  readonly curves: ReadonlyMap<string, ReadCurve>; // by material
}

/** A checked document in the engine's terms. */
export function toStudy(document: StudyDocument, {weather, curves}: Referred): Study {
  const recorded = weather && weather.temperature.reduce((sum, t) => sum + t, 0) / weather.temperature.length;
  const thermal = thermalLoading(document.thermal_loading, recorded);
  return {
    name: document.name,
    treatments: document.treatments.map(treatment => ({
      name: treatment.name,
      description: treatment.description,
      section: toSection(document, treatedSection(document.section, treatment), {curves, thermal}),
    })),
    traffic: toTraffic(document.traffic),
    weather,
    exchange: {
      absorptivity: document.surface.absorptivity,
      emissivity: document.surface.emissivity,
      filmCoefficient: document.surface.film_coefficient_W_per_m2K,
    },
    bins: toBins(document.temperature_bins),
    neutralTemperature: document.neutral_temperature_C ?? null,
    analysisPeriod: document.analysis_period_years,
    accuracy: fromPercent(document.numerical.accuracy_percent),
    costs: toCosts(document),
  };
}

/** What materials need besides their own fields. */
type Stiffness = Pick<Referred, "curves"> & {readonly thermal: ThermalLoading};

function toSection(document: StudyDocument, treated: TreatedSection, stiffness: Stiffness): Section {
  const {section} = document;
  const own = toStructure(document, treated, stiffness);
  const {reinforcement} = treated;
  const tested = treated.testedUntreated ? toStructure(document, treatedSection(section, UNTREATED), stiffness) : own;
  return {
    ...own,
    joint: {...own.joint, transfer: toTransfer(treated.joint.load_transfer, tested)},
    crackInterlock: fromMPaPerMm(section.crack_interlock_MPa_per_mm),
    ...(reinforcement && {reinforcement: toReinforcement(reinforcement)}),
    shearWeight: section.shear_weight,
  };
}

const UNTREATED: TreatmentDocument = {name: "", description: "", changes: {}};

/** All of a section but its load transfer and what concerns cracks of the overlay. */
function toStructure(
  {section, materials, traffic}: StudyDocument,
  {layers: treated, joint}: TreatedSection,
  {curves, thermal}: Stiffness,
): DeflectionTest["section"] {
  let above_mm = 0;
  const layers = treated.map(({name, role, material, thickness_mm, modulusFactor: factor, bond_below}): Layer => {
    const place = {factor, depth: fromMm(above_mm + thickness_mm / 2), traffic, thermal};
    above_mm += thickness_mm;
    const bond = toBond(bond_below ?? "full");
    return {
      name,
      role,
      material: toMaterial(material, materials[material], curves.get(material), place),
      thickness: fromMm(thickness_mm),
      ...(bond !== Infinity && {bondBelow: bond}),
    };
  });
  const hasFoundation = layers.some(layer => layer.role === "foundation");
  return {
    layers,
    joint: {
      spacing: joint.spacing_m,
      width: fromMm(joint.width_mm),
      unbondedStrip: fromMm(joint.unbonded_strip_mm),
      facesTouch: joint.faces_touch ?? joint.width_mm <= tightJoint_mm,
      cutDepth: fromMm(joint.cut_into_foundation_mm ?? (hasFoundation ? usualCut_mm : 0)),
    },
    slabFriction: toFriction(section.slab_friction),
    base: toBase(section.base),
  };
}

type TransferDocument = SectionDocument["joint"]["load_transfer"];

function toTransfer(transfer: TransferDocument, tested: DeflectionTest["section"]): LoadTransfer {
  const {efficiency_percent, stiffness_MPa_per_mm, deflection_test} = transfer;
  if (deflection_test) return {kind: "test", test: toTest(deflection_test, tested)};
  return efficiency_percent !== undefined
    ? {kind: "efficiency", efficiency: fromPercent(efficiency_percent)}
    : {kind: "spring", stiffness: fromMPaPerMm(stiffness_MPa_per_mm!)}; // one of the three: checkJoint
}

function toTest(
  test: NonNullable<TransferDocument["deflection_test"]>,
  tested: DeflectionTest["section"],
): DeflectionTest {
  const radius = fromMm(test.plate_diameter_mm) / 2;
  const area = Math.PI * radius ** 2;
  const bare = {
    ...tested,
    layers: tested.layers.filter(({role}) => role === "jointed" || role === "foundation"),
    joint: {...tested.joint, unbondedStrip: 0},
  };
  return {
    section: test.tested_on === "jointed_layer" ? bare : tested,
    temperature: test.temperature_C ?? null,
    plate: {side: Math.sqrt(area), centre: fromMm(test.plate_centre_mm), pressure: fromKN(test.load_kN) / area},
    sensors: {loaded: fromMm(test.loaded_sensor_mm), unloaded: fromMm(test.unloaded_sensor_mm)},
    positions: (["approach", "leave"] as const).flatMap(name => {
      const found = test[name];
      return found ? [{name, loaded: fromUm(found.loaded_um), unloaded: fromUm(found.unloaded_um)}] : [];
    }),
  };
}

function toReinforcement(given: NonNullable<TreatedSection["reinforcement"]>): Reinforcement {
  return {
    name: given.name,
    depth: fromMm(given.depth_mm),
    height: fromMm(given.height_mm),
    stiffness: fromKN(given.stiffness_kN_per_m),
    bondLength: fromMm(given.bond_length_mm),
  };
}

function toBond(bond: NonNullable<LayerDocument["bond_below"]>): number {
  if (bond === "full") return Infinity;
  return bond === "none" ? 0 : fromMPaPerMm(bond.stiffness_MPa_per_mm);
}

function toFriction(friction: SectionDocument["slab_friction"]): number {
  if (friction === "bonded") return Infinity;
  if (friction === "free") return 0;
  return fromMPaPerMm(friction.stiffness_MPa_per_mm);
}

function toBase(base: SectionDocument["base"]): Base {
  return base === "rigid" ? {kind: "rigid"} : {kind: "springs", stiffness: fromMPaPerMm(base.springs_MPa_per_mm)};
}

function toBins(bins: StudyDocument["temperature_bins"]): Study["bins"] {
  if (bins === "derive") return {kind: "derive", count: derivedBins};
  if (!Array.isArray(bins)) return {kind: "derive", count: (bins as {count: number}).count};
  const total = bins.reduce((sum, bin) => sum + bin.share_percent, 0); // 100 within rounding: checkBins
  return bins.map((bin): TemperatureBin => ({temperature: bin.temperature_C, share: bin.share_percent / total}));
}

/** Materials of a checked document in the engine's terms. */
import type {GrowthLaw, Material, ModulusPoint, StiffnessSource} from "../engine/section/types.ts";
import {loadingFrequency, modulusNorm, relaxationModulusAt} from "../engine/viscoelastic/index.ts";
import {thermalDefaults, usualZone_mm} from "./material-fields.ts";
import {fromHours, fromKmPerHour, fromMicrostrain, fromMm, fromMPa} from "./si.ts";
import {curveTemperatures, type ReadCurve} from "./stiffness.ts";
import type {MaterialDocument, StudyDocument} from "./study.ts";

/** Where a material lies and how it is loaded there. */
export interface MaterialPlace {
  readonly factor: number; // on all moduli, of the treatment [–]
  readonly depth: number; // of the middle of its layer [m]
  readonly traffic: Pick<StudyDocument["traffic"], "speed_km_per_h" | "loading_frequency_Hz">;
  readonly thermal: ThermalLoading;
}

/** How long temperature loads, and at which. */
export interface ThermalLoading {
  readonly daily: number; // [s]
  readonly seasonal: number; // [s]
  readonly temperature: number; // [°C]
}

/** Temperature of thermal loading without a record [°C]. */
const usualTemperature_C = 15;

/** @param recorded mean of the record [°C]; null: there is none */
export function thermalLoading(document: StudyDocument["thermal_loading"], recorded: number | null): ThermalLoading {
  return {
    daily: fromHours(document.daily_loading_time_h),
    seasonal: fromHours(document.seasonal_loading_time_h),
    temperature: document.temperature_C ?? recorded ?? usualTemperature_C,
  };
}

/** @param curve of the material; undefined: its moduli are given as numbers */
export function toMaterial(
  name: string,
  material: MaterialDocument,
  curve: ReadCurve | undefined,
  place: MaterialPlace,
): Material {
  const thermal = thermalDefaults[material.kind];
  const {factor} = place;
  const moduli = curve ? curveModuli(material, curve, place) : givenModuli(material, factor);
  return {
    name: factor === 1 ? name : `${name} × ${factor}`,
    ...moduli,
    poisson: material.poisson,
    expansion: material.expansion_per_C ?? 0,
    conductivity: material.thermal?.conductivity_W_per_mK ?? thermal.conductivity,
    density: material.thermal?.density_kg_per_m3 ?? thermal.density,
    heatCapacity: material.thermal?.heat_capacity_J_per_kgK ?? thermal.heatCapacity,
    growth: material.crack_growth ? toGrowth(material.crack_growth) : null,
    fatigue: material.fatigue_line
      ? {
          strainAtMillion: fromMicrostrain(material.fatigue_line.strain_at_million_microstrain),
          exponent: material.fatigue_line.exponent,
          referenceModulus: material.fatigue_line.stiffness_shift
            ? fromMPa(material.fatigue_line.stiffness_shift.reference_modulus_MPa)
            : null,
          stiffnessExponent: material.fatigue_line.stiffness_shift?.exponent ?? 0,
        }
      : null,
    source: material.source ?? "not stated",
    ...(material.modulus_from && {estimated: true}),
  };
}

type Moduli = Pick<Material, "modulus" | "relaxationModulus" | "seasonalRelaxationModulus" | "masterCurve">;

function givenModuli(material: MaterialDocument, factor: number): Moduli {
  const single = material.modulus_MPa;
  const table = material.modulus_by_temperature ?? [{temperature_C: 15, modulus_MPa: single!}]; // one of the two: checkMaterials
  const relaxed = fromMPa(material.relaxation_modulus_MPa ?? single!) * factor; // needed with a table: checkMaterials
  return {
    modulus: table.map(row => ({temperature: row.temperature_C, modulus: fromMPa(row.modulus_MPa) * factor})),
    relaxationModulus: relaxed,
    seasonalRelaxationModulus: relaxed,
    masterCurve: null,
  };
}

/** Moduli of a curve at a layer's loading frequency and at the times of thermal loading. */
function curveModuli(material: MaterialDocument, read: ReadCurve, place: MaterialPlace): Moduli {
  const {factor, depth, traffic, thermal} = place;
  const speed = traffic.speed_km_per_h === undefined ? null : fromKmPerHour(traffic.speed_km_per_h);
  const frequency = speed === null ? traffic.loading_frequency_Hz! : loadingFrequency({speed, depth}); // one of the two: checkCurveUse
  const {temperature} = thermal;
  const relaxed = (time: number) => ({
    time,
    temperature,
    modulus: relaxationModulusAt(read.curve, read.prony, {time, temperature}) * factor,
  });
  const given = material.relaxation_modulus_MPa;
  const relaxation: StiffnessSource["relaxation"] =
    given === undefined ? {daily: relaxed(thermal.daily), seasonal: relaxed(thermal.seasonal)} : null;
  return {
    modulus: sampled(read, frequency).map(p => ({...p, modulus: p.modulus * factor})),
    relaxationModulus: relaxation?.daily.modulus ?? fromMPa(given!) * factor,
    seasonalRelaxationModulus: relaxation?.seasonal.modulus ?? fromMPa(given!) * factor,
    masterCurve: {...read, loadingFrequency: frequency, speed, factor, relaxation},
  };
}

/**
 * |E*| every degree over all temperatures that bins may have. ln E is taken as linear between: with a second derivative of
 * about 0.002/K² at most that is (1 K)²/8 of it, 0.03 %.
 */
function sampled({curve}: ReadCurve, frequency: number): ModulusPoint[] {
  const {coldest, hottest} = curveTemperatures;
  return Array.from({length: hottest - coldest + 1}, (_, k) => {
    const temperature = coldest + k;
    return {temperature, modulus: modulusNorm(curve, temperature, frequency)};
  });
}

/**
 * The growth law for strains as plain numbers and lengths in metres:
 *
 *   dc[mm] = A·(10⁶·ε)^n  →  dc[m] = (10⁻³·A·10^(6n))·ε^n
 */
function toGrowth(law: NonNullable<MaterialDocument["crack_growth"]>): GrowthLaw {
  const zone = law.process_zone_mm ?? usualZone_mm(law.aggregate_mm!); // one of the two: checkMaterials
  return {
    coefficient: law.A_mm_per_cycle * 1e-3 * 1e6 ** law.n,
    exponent: law.n,
    zoneLength: fromMm(zone),
    referenceModulus: law.stiffness_shift ? fromMPa(law.stiffness_shift.reference_modulus_MPa) : null,
    stiffnessExponent: law.stiffness_shift?.exponent ?? 0,
  };
}

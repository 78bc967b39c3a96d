/** Numbers behind the pictures of lives, as comma-separated values: lives, layers, temperatures, tip strain. */

import type {LifeResult, TemperatureBin, Treatment, TreatmentLife} from "../../engine/life/types.ts";
import {type TipAlong, tipAlongRows} from "../charts/tipAlong.ts";
import {csvText} from "../csv.ts";
import {control, mechanismRows} from "../lives.ts";

const yesNo = (value: boolean): string => (value ? "yes" : "no");

/** One row a mechanism of a treatment. A life that outlasts the horizon is marked as censored: the true one is longer. */
export function livesCsv(result: LifeResult): string {
  const base = control(result);
  const rows = result.treatments.flatMap(t =>
    mechanismRows(t, base).map(({mechanism, where, life, governs}) => [
      t.treatment.name,
      mechanism,
      where,
      life.years,
      life.passes,
      life.standardAxles,
      yesNo(life.censored),
      yesNo(governs),
    ]),
  );
  return csvText(
    ["treatment", "mechanism", "layer", "life_years", "passes", "standard_axles", "censored", "governs"],
    rows,
  );
}

/** One row a layer of each treatment, from the surface down. Moduli are the least and the largest over temperature. */
export function layersCsv(treatments: readonly Treatment[]): string {
  const rows = treatments.flatMap(({name, section}) => {
    let top = 0;
    return section.layers.map(({name: layer, role, material, thickness}) => {
      const moduli = material.modulus.map(p => p.modulus / 1e6);
      const row = [
        name,
        layer,
        role,
        material.name,
        top * 1e3,
        thickness * 1e3,
        Math.min(...moduli),
        Math.max(...moduli),
        material.poisson,
        material.source,
      ];
      top += thickness;
      return row;
    });
  });
  return csvText(
    [
      "treatment",
      "layer",
      "role",
      "material",
      "top_mm",
      "thickness_mm",
      "least_modulus_MPa",
      "largest_modulus_MPa",
      "poisson",
      "source",
    ],
    rows,
  );
}

/** One row a point of a curve: tip strain against the length of one crack. */
export function tipStrainCsv(treatments: readonly TreatmentLife[]): string {
  const rows = treatments.flatMap(({treatment, tipStrain}) =>
    tipStrain.flatMap(({front, cause, label, length, strain}) =>
      Array.from(length, (c, i) => [treatment.name, front, cause, label, c * 1e3, strain[i]! * 1e6]),
    ),
  );
  return csvText(["treatment", "front", "cause", "curve", "crack_length_mm", "tip_strain_microstrain"], rows);
}

/** One row a temperature bin of the overlay. */
export function binsCsv(bins: readonly TemperatureBin[]): string {
  return csvText(
    ["temperature_C", "share_of_passes_percent"],
    bins.map(b => [b.temperature, 100 * b.share]),
  );
}

/** Strains of a crack tip while an axle rolls over. */
export function tipAlongCsv(along: TipAlong): string {
  return csvText(["axle_m", "opening_microstrain", "shear_microstrain", "tip_strain_microstrain"], tipAlongRows(along));
}

/** The numbers behind the charts of the laboratory, as CSV. Units are in the headers. */
import type {Calibration, FatigueResult, Specimen} from "../../../engine/laboratory/index.ts";
import {type Cell, tableText} from "../../../schema/laboratory/index.ts";

function csv(header: readonly string[], rows: readonly (readonly Cell[])[]): string {
  const all = [header, ...rows].map((cells, i) => ({row: i + 1, cells}));
  return tableText({name: null, delimiter: ",", rows: all, comments: 0});
}

export function fatigueCsv({materials, probability}: FatigueResult): string {
  const points = materials.flatMap(m =>
    m.points.map(p => [m.material, p.name, p.strain * 1e6, p.cycles, p.runOut ? "yes" : "no", p.setAside]),
  );
  const bands = materials.flatMap(m => {
    const band = m.bands.find(b => b.probability === probability);
    return [...(band?.strains.keys() ?? [])].map(i => [
      m.material,
      "line",
      band!.strains[i] * 1e6,
      band!.cycles[i],
      null,
      null,
      band!.confidenceLow[i],
      band!.confidenceHigh[i],
      band!.predictionLow[i],
      band!.predictionHigh[i],
    ]);
  });
  const header = ["material", "specimen", "strain amplitude [µε]", "cycles", "run-out", "set aside"];
  const edges = ["line from", "line to", "one more specimen from", "one more specimen to"];
  return csv([...header, ...edges], [...points, ...bands]);
}

export function comparisonCsv({comparisons}: FatigueResult): string {
  return csv(
    ["material", "over", "strain amplitude [µε]", "ratio of lives", "from", "to", "extrapolated"],
    comparisons.flatMap(c =>
      [...c.strains.keys()].map(i => [
        c.material,
        c.reference,
        c.strains[i] * 1e6,
        c.ratio[i],
        c.low[i],
        c.high[i],
        c.extrapolated[i] ? "yes" : "no",
      ]),
    ),
  );
}

export function historyCsv(specimens: readonly Specimen[]): string {
  return csv(
    ["specimen", "cycle", "stiffness modulus [MPa]"],
    specimens.flatMap(({name, history}) =>
      history ? [...history.cycles.keys()].map(i => [name, history.cycles[i], history.modulus[i] / 1e6]) : [],
    ),
  );
}

/** Fronts as they were read and as they were fitted. */
export function frontsCsv({request, reduced, cases, fronts}: Calibration): string {
  const read = request.tests.flatMap((test, k) =>
    (["lower", "upper"] as const).flatMap(which => {
      const front = reduced[k][which];
      return [...front.passes.keys()].map(i => [test.name, which, "read", front.passes[i], front.length[i] * 1e3]);
    }),
  );
  const fitted = fronts.flatMap((front, k) =>
    (["lower", "upper"] as const).flatMap(which =>
      [...front.passes.keys()].map(i => [cases[k].test.name, which, "fitted", front.passes[i], front[which][i] * 1e3]),
    ),
  );
  return csv(["beam", "front", "source", "passes", "length [mm]"], [...read, ...fitted]);
}

export function predictionCsv({predictions}: Calibration): string {
  return csv(
    ["beam", "broken after [passes]", "broken before [passes]", "predicted [passes]", "from", "to"],
    predictions.map(p => [p.name, p.observed.after, p.observed.before, p.life.middle, p.life.low, p.life.high]),
  );
}

export function residualCsv({fronts, cases}: Calibration): string {
  return csv(
    ["beam", "front", "passes", "fitted length [mm]", "residual over its standard deviation"],
    fronts.flatMap((f, k) => f.residuals.map(r => [cases[k].test.name, r.front, r.passes, r.fitted * 1e3, r.standard])),
  );
}

export function lawCsv({estimates}: Calibration): string {
  return csv(
    ["material", "tip strain [µε]", "growth [mm/cycle]", "from", "to"],
    estimates.flatMap(({material, curve}) =>
      [...curve.strain.keys()].map(i => [
        material,
        curve.strain[i] * 1e6,
        curve.rate[i] * 1e3,
        curve.low[i] * 1e3,
        curve.high[i] * 1e3,
      ]),
    ),
  );
}

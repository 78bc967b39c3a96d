/** Names come from documents, and those from anybody: none is a formula in a spreadsheet. */
import {parse} from "csv-parse/sync";
import {describe, expect, test} from "vitest";
import type {RiskResult} from "../../../src/engine/uncertainty/index.ts";
import {csvText} from "../../../src/report/csv.ts";
import * as data from "../../../src/report/data/index.ts";
import {
  BEAM,
  COMPARISON,
  COSTS,
  EVIL,
  evil,
  FATIGUE,
  LAWS,
  PREDICTION,
  RISK,
  SEARCH,
  SPECIMENS,
} from "./dataFixture.ts";

describe("no name is taken for a formula", () => {
  const one = evil();
  const bad = one.treatments[0]!;
  const risk = {
    samples: [{lives: [{years: 5, censored: false, mechanism: "reflection by traffic"}]}],
    treatments: RISK,
  } as unknown as RiskResult;
  const {layers} = bad.treatment.section;
  const texts: Record<string, string> = {
    lives: data.livesCsv(one),
    layers: data.layersCsv(one.treatments.map(t => t.treatment)),
    fronts: data.frontsCsv(bad.histories[0]!, bad.treatment),
    tipStrain: data.tipStrainCsv(one.treatments),
    equivalence: data.equivalenceCsv(bad)!,
    depths: data.depthTemperaturesCsv(bad.temperatures!.atDepth, layers, [0, 1]),
    costs: data.costsCsv(COSTS),
    risk: data.riskCsv(risk),
    fan: data.fanCsv(RISK),
    survival: data.survivalCsv([{name: EVIL, years: [3]}]),
    swings: data.swingsCsv([{name: EVIL, low: 1, high: 2, share: 1}], {quantity: "life_years", base: 1.5}),
    specimens: data.specimensCsv(FATIGUE),
    fatigueLines: data.fatigueLinesCsv(FATIGUE, 0.9),
    comparison: data.comparisonCsv(COMPARISON),
    histories: data.historiesCsv(SPECIMENS),
    beam: data.beamCsv(BEAM),
    predictions: data.predictionsCsv(PREDICTION),
    laws: data.growthLawsCsv(LAWS),
    search: data.searchCsv(SEARCH),
  };
  for (const [name, text] of Object.entries(texts))
    test(name, () => {
      const cells = (parse(text) as string[][]).flat();
      expect(cells.some(c => c.startsWith("'"))).toBe(name !== "depths"); // its names stand within headings
      for (const cell of cells)
        if (/^[=+\-@\t\r\n]/.test(cell)) expect(Number.isFinite(Number(cell)), JSON.stringify(cell)).toBe(true);
      expect(text.endsWith("\r\n")).toBe(true);
    });

  test("numbers stay numbers, negative ones too; what is not known is empty", () => {
    expect(
      csvText(
        ["a", "-b"],
        [
          [-1.5, "-1.5"],
          [-0, "@x"],
          [null, Number.NaN],
          [1e21, "plain"],
        ],
      ),
    ).toBe("a,'-b\r\n-1.5,'-1.5\r\n0,'@x\r\n,\r\n1e+21,plain\r\n");
    expect(csvText(["a"], [['=1,"2"']])).toBe('a\r\n"\'=1,""2"""\r\n');
    expect(csvText(["a"], [["\r=1"], ["\n=1"], ["\t=1"]])).toBe('a\r\n"\'\r=1"\r\n"\'\n=1"\r\n\'\t=1\r\n');
  });
});

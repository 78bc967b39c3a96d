/** A deflection bowl for a terminal: the answer first, warnings last. */

import {
  BOWL_JUDGEMENT,
  type BowlCase,
  bowlAnswer,
  bowlWarningTexts,
  combinationRows,
  type Factor,
  layerRows,
  sensorRows,
  solutionRows,
  testText,
} from "./bowl.ts";
import {percent} from "./format.ts";
import {bulleted, paints, table, text, wrapped} from "./laboratoryTerminal.ts";
import type {TerminalOptions} from "./terminalText.ts";

export function bowlTable(bowl: BowlCase, options: TerminalOptions): string {
  const {width, bold, dim} = paints(options);
  const paper = {width, dim};
  const {result} = bowl;
  const {headline, details} = bowlAnswer(bowl);
  const layers = layerRows(bowl).map(r => [r.name, r.thickness, r.modulus, r.interval, r.remark]);
  const sensors = sensorRows(result).map(r => [
    r.offset,
    r.measured,
    r.fitted,
    r.difference,
    r.scaled,
    r.surfaceModulus,
  ]);
  const products = combinationRows(result).map(r => `${r.factors.map(productText).join(" · ")}: ${r.known}`);
  const solutions = solutionRows(result);
  const range = percent(result.test.probability);
  return text([
    ...wrapped([bowl.name], width).map(bold),
    ...wrapped([headline, ...details], width),
    "",
    ...table(["Layer", "mm", "E MPa", range, ""], layers, paper),
    ...wrapped([testText(bowl)], width),
    "",
    ...table(["Sensor mm", "measured µm", "fitted µm", "off by %", "in σ", "E₀ MPa"], sensors, paper),
    ...(products.length > 0 ? ["", dim("Determined each for itself"), ...wrapped(products, width)] : []),
    "",
    ...table(
      ["Fits within the noise", ...result.layers.map(l => l.name), "off by %"],
      solutions.map(r => [r.name, ...r.moduli, r.rms]),
      paper,
    ),
    ...bulleted(bowlWarningTexts(result), width),
    "",
    ...wrapped([BOWL_JUDGEMENT], width),
  ]);
}

/** (granular base)^−0.36 */
function productText({name, power}: Factor): string {
  const base = /\s/.test(name) && power !== "" ? `(${name})` : name;
  return power === "" ? base : `${base}^${power}`;
}

import {randomStream} from "../../src/engine/statistics/index.ts";
import {type FitOptions, fitMasterCurve, type MasterCurve, modulusNorm} from "../../src/engine/viscoelastic/index.ts";
import type {Compare} from "../table.ts";
import {DEGREE, FREQUENCIES, MPA, readings, sigmoid, TEMPERATURES, twoSprings} from "./curves.ts";

interface Page {
  readonly compare: Compare;
  readonly heading: (text: string) => void;
}

/** Exact readings give back what made them. */
export function recovery({compare, heading}: Page): void {
  heading("Fit of exact readings: parameters that made them");
  const drawn = randomStream(11);
  const draw = (low: number, high: number): number => low + (high - low) * drawn.uniform();
  const made = (model: FitOptions["model"]): MasterCurve["model"] =>
    model === "sigmoid"
      ? {kind: "sigmoid", lowest: draw(7, 8.5), span: draw(2, 3.5), location: draw(-1.5, 0), slope: draw(0.35, 0.75)}
      : {
          kind: "2S2P1D",
          staticModulus: 10 ** draw(6.5, 8.2),
          glassyModulus: 10 ** draw(10.3, 10.65),
          delta: draw(1.8, 2.5),
          k: draw(0.16, 0.22),
          h: draw(0.5, 0.65),
          beta: model === "2S2P1D" ? 10 ** draw(2, 3) : Infinity,
          time: 10 ** draw(-3, 0),
        };
  for (const model of ["sigmoid", "2S2P1D", "Huet-Sayegh"] as const)
    for (const shift of ["WLF", "Arrhenius"] as const) {
      let worst = 0;
      for (let k = 0; k < 10; k++) {
        const c2 = draw(100, 220);
        const own = shift === "WLF" ? {c1: c2 * draw(0.09, 0.15), c2} : {activationEnergy: draw(1.6e5, 2.4e5)};
        const curve = {model: made(model), shift: {kind: shift, ...own}, referenceTemperature: 15, measured: null};
        const fit = fitMasterCurve(readings(curve as MasterCurve), {model, shift, referenceTemperature: 15});
        for (const part of ["model", "shift"] as const)
          for (const [key, value] of Object.entries(curve[part])) {
            if (typeof value !== "number" || value === Infinity) continue;
            worst = Math.max(worst, Math.abs((fit.curve[part] as unknown as Record<string, number>)[key] / value - 1));
          }
      }
      compare({
        name: `${model} with ${shift}, 36 readings of each of ten drawn curves: worst relative error of any parameter`,
        source: "the parameters drawn",
        standing: "derived",
        unit: "–",
        expected: 0,
        computed: worst,
        tolerance: 1e-5,
        absolute: true,
      });
    }
  heading("Twelve exact readings: 0, 15, 30 °C at 0.1, 1, 10, 25 Hz");
  for (const [model, curve] of [
    ["sigmoid", sigmoid],
    ["2S2P1D", twoSprings],
  ] as const) {
    const few = readings(curve, [0, 15, 30], [0.1, 1, 10, 25]);
    const fit = fitMasterCurve(few, {model, shift: "WLF", referenceTemperature: 15});
    compare({
      name: `${model}: |E*| at 40 °C, 0.1 Hz, beyond the readings`,
      source: "the curve that made them",
      standing: "derived",
      unit: "MPa",
      expected: modulusNorm(curve, 40, 0.1) / MPA,
      computed: modulusNorm(fit.curve, 40, 0.1) / MPA,
      tolerance: 1e-6,
    });
  }
}

/** Readings with scatter give the curve within it. */
export function scatter({compare, heading}: Page): void {
  heading("Fit of readings with 3 % and 1° of scatter, 20 series: the curve against the one without scatter");
  const grids: readonly [string, number[], number[], number][] = [
    ["36 readings, 6 temperatures", TEMPERATURES, FREQUENCIES, 0.02],
    ["12 readings, 4 temperatures", [0, 10, 20, 30], [1, 5, 10], 0.03],
    ["12 readings, 3 temperatures", [0, 15, 30], [0.1, 1, 10, 25], 0.03],
    ["12 readings, 2 temperatures", [10, 25], FREQUENCIES, 0.03],
  ];
  for (const model of ["sigmoid", "2S2P1D", "Huet-Sayegh"] as const)
    for (const [name, temperatures, frequencies, tolerance] of grids) {
      const curve: MasterCurve =
        model === "sigmoid"
          ? sigmoid
          : model === "2S2P1D"
            ? twoSprings
            : {...twoSprings, model: {...twoSprings.model, beta: Infinity}};
      const clean = readings(curve, temperatures, frequencies);
      let squares = 0;
      for (let seed = 1; seed <= 20; seed++) {
        const {normal} = randomStream(seed);
        const points = clean.map(point => ({
          ...point,
          modulus: point.modulus * Math.exp(0.03 * normal()),
          phase: Math.max(0, (point.phase ?? 0) + DEGREE * normal()),
        }));
        const fit = fitMasterCurve(points, {model, shift: "WLF", referenceTemperature: 15});
        for (const {temperature, frequency, modulus} of clean)
          squares += Math.log(modulusNorm(fit.curve, temperature, frequency) / modulus) ** 2;
      }
      compare({
        name: `${model}, ${name}: root mean square of ln|E*|`,
        source: "at most the scatter, 0.03; with p parameters and n readings of the modulus about 0.03·√(p/n)",
        standing: "derived",
        unit: "–",
        expected: 0,
        computed: Math.sqrt(squares / (20 * clean.length)),
        tolerance,
        absolute: true,
      });
    }
}

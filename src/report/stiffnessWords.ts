/** The words and numbers of a master curve, for page and terminal alike. */

import type {StiffnessSource} from "../engine/section/types.ts";
import type {MasterCurve} from "../engine/viscoelastic/types.ts";
import {celsius, degrees, figures, hertz, megapascals, percent} from "./format.ts";

type Shown = Pick<StiffnessSource, "origin" | "file" | "curve" | "fit" | "points" | "prony">;

/** Where a curve comes from, in a sentence. */
export function originText({origin, file, points}: Pick<Shown, "origin" | "file" | "points">): string {
  switch (origin) {
    case "tests":
      return `Fitted to ${points.length} readings of ${file}.`;
    case "parameters":
      return "The parameters of the curve were given; no test stands beside them.";
    case "estimate":
      return "Estimated from binder, gradation and volumes of the mix by a predictive equation. Nobody measured it: a modulus may be off by a factor of two.";
  }
}

/** The same in a word or two, for a table. */
export function originWord({origin, file}: Pick<Shown, "origin" | "file">): string {
  return {
    tests: `master curve, fitted to ${file}`,
    parameters: "master curve, given",
    estimate: "master curve, estimated",
  }[origin];
}

/** What the curve misses a reading by, to a tenth; "–" where there is no phase. */
export function residualTexts(fit: NonNullable<Shown["fit"]>, reading: number): {modulus: string; phase: string} {
  const {lgModulus, phase} = fit.residuals[reading]!;
  const tenth = (value: number): string => value.toFixed(1).replace("-", "−");
  return {
    modulus: `${tenth(100 * (10 ** lgModulus - 1))}\u00a0%`,
    phase: phase === null ? "–" : `${tenth((phase * 180) / Math.PI)}°`,
  };
}

/** Name and value of everything that makes a curve. */
export function curveRows(shown: Shown): [string, string][] {
  const {curve, fit, prony, points} = shown;
  return [
    ...modelRows(curve),
    ...shiftRows(curve),
    ["Reference temperature", celsius(curve.referenceTemperature)],
    ...(fit ? fitRows(fit, points.length) : []),
    ...measuredRows(curve),
    ["Prony series", `${prony.terms.length} terms, off E* by ${percent(prony.residual.rms)} rms`],
  ];
}

function modelRows({model}: MasterCurve): [string, string][] {
  if (model.kind === "sigmoid")
    return [
      ["Model", "sigmoid, lg |E*| = δ + α/(1 + exp(β − γ·lg f))"],
      ["δ, |E*| in MPa", figures(model.lowest - 6, 4)],
      ["α", figures(model.span, 4)],
      ["β", figures(model.location, 4)],
      ["γ", figures(model.slope, 4)],
    ];
  return [
    ["Model", model.beta === Infinity ? "Huet-Sayegh" : "2S2P1D"],
    ["Static modulus E₀₀", megapascals(model.staticModulus)],
    ["Glassy modulus E₀", megapascals(model.glassyModulus)],
    ["δ", figures(model.delta, 4)],
    ["k", figures(model.k, 4)],
    ["h", figures(model.h, 4)],
    ...(model.beta === Infinity ? [] : ([["β", figures(model.beta, 4)]] satisfies [string, string][])),
    ["τ", `${figures(model.time)}\u00a0s`],
  ];
}

function shiftRows({shift}: MasterCurve): [string, string][] {
  switch (shift.kind) {
    case "WLF":
      return [["Shift", `WLF, C₁ = ${figures(shift.c1, 4)}, C₂ = ${figures(shift.c2, 4)}\u00a0K`]];
    case "Arrhenius":
      return [["Shift", `Arrhenius, activation energy ${figures(shift.activationEnergy / 1e3)}\u00a0kJ/mol`]];
    case "viscosity":
      return [
        [
          "Shift",
          `viscosity of the binder, A = ${figures(shift.intercept, 5)}, VTS = ${figures(shift.susceptibility, 5)}, c = ${figures(shift.factor, 4)}`,
        ],
      ];
  }
}

function fitRows(fit: NonNullable<Shown["fit"]>, readings: number): [string, string][] {
  const phase = fit.rmsPhase === null ? "" : `, ${degrees(fit.rmsPhase)} of phase`;
  return [
    ["Residual, root mean square", `${percent(fit.rmsModulus)} of |E*|${phase}, over ${readings} readings`],
    ["R² of lg |E*|", figures(fit.determination, 4)],
    ...(fit.errorRatio === null
      ? []
      : ([["Sₑ/S_y of lg |E*|", figures(fit.errorRatio, 2)]] satisfies [string, string][])),
  ];
}

function measuredRows({measured}: MasterCurve): [string, string][] {
  if (measured === null) return [["Measured", "nothing"]];
  const [cold, warm] = measured.temperature.map(celsius);
  const [slow, fast] = measured.reducedFrequency.map(hertz);
  return [["Measured", `${cold} to ${warm}; reduced frequencies ${slow} to ${fast}`]];
}

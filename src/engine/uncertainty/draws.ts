import {InputError} from "../errors.ts";
import {type Change, type LifeModel, noChange} from "../life/index.ts";
import type {UncertainInput} from "./types.ts";

/** Whether each of its values needs sections to be solved anew. */
export function isStructural({effect}: UncertainInput): boolean {
  return effect.kind === "field" || effect.kind === "relaxation";
}

/** How many values an input has. */
export function sizeOf(input: UncertainInput): number {
  return "joint" in input ? input.members.length : 1;
}

/**
 * What values of inputs, in their order, change in a model; those that need sections solved anew are not among them. A law's values are added to
 * ln A in mm and µε and to n:
 *
 *   c = A·10⁻³·10^(6n) in SI, so c'/c = exp(Δ ln A)·10^(6Δn)
 *
 * @throws InputError "domain" for a structural input
 */
export function changeOf(model: LifeModel, inputs: readonly UncertainInput[], values: ArrayLike<number>): Change {
  const change = noChange(model);
  const laws = change.laws.map(law => ({...law}));
  const fatigueStrains = [...change.fatigueStrains];
  let {passes, loads, growth, temperatures} = change;
  let rates = 1;
  let at = 0;
  for (const input of inputs) {
    const {effect, name} = input;
    const first = values[at];
    const second = sizeOf(input) > 1 ? values[at + 1] : 0;
    at += sizeOf(input);
    switch (effect.kind) {
      case "law": {
        const m = model.materials.indexOf(effect.material);
        if (m < 0) break; // its layers are in no treatment
        laws[m].coefficient *= Math.exp(first) * 1e6 ** second;
        laws[m].exponent += second;
        break;
      }
      case "fatigue": {
        const m = model.materials.indexOf(effect.material);
        if (m >= 0) fatigueStrains[m] *= first;
        break;
      }
      case "passes":
        passes *= first;
        break;
      case "loads":
        loads *= first;
        break;
      case "growth":
        growth += first;
        break;
      case "temperatures":
        temperatures *= first;
        break;
      case "rates":
        rates *= first;
        break;
      case "relaxation":
      case "field":
        throw new InputError("domain", `input ${name}`, effect.kind, "one that needs no section solved anew");
    }
  }
  return {
    laws: laws.map(law => ({...law, coefficient: rates * law.coefficient})),
    fatigueStrains,
    passes,
    loads,
    growth,
    temperatures,
  };
}

/** Largest change of an exponent that values bring. */
export function exponentSpan(inputs: readonly UncertainInput[], values: ArrayLike<number>): number {
  const changes = new Map<string, number>();
  let at = 0;
  for (const input of inputs) {
    const {effect} = input;
    if (effect.kind === "law" && sizeOf(input) > 1)
      changes.set(effect.material, (changes.get(effect.material) ?? 0) + values[at + 1]);
    at += sizeOf(input);
  }
  return Math.max(0, ...[...changes.values()].map(Math.abs));
}

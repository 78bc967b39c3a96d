/** Numbers of a study that are varied together: fields of the document by their paths, and a few that stand for many fields. */
import type {WeatherRecord} from "../engine/climate/types.ts";
import type {Study} from "../engine/life/types.ts";
import {type DocumentPath, type Fault, foundText} from "./fault.ts";
import {nearest} from "./nearest.ts";
import type {ReadOutcome} from "./read.ts";
import type {Edit, Variations} from "./variations.ts";

/** Inputs that no single field holds. */
export const specialInputs = {
  traffic: {unit: "–", base: 1, words: "traffic", label: "traffic, factor on the passes of all loads"},
  loads: {unit: "–", base: 1, words: "loads", label: "factor on all loads, at the same contact area"},
  temperature: {unit: "K", base: 0, words: "temperature", label: "added to all temperatures of the record, K"},
} as const;

type SpecialInput = keyof typeof specialInputs;

export interface VariedInput {
  readonly name: string; // as asked for
  readonly unit: string; // as written in the document
  readonly words: string; // for a sentence
  readonly label: string; // for an axis
  readonly base: number; // value in the study as it is
  readonly place: {readonly kind: "field"; readonly path: DocumentPath} | {readonly kind: SpecialInput};
}

export type FoundInput =
  | {readonly kind: "input"; readonly input: VariedInput}
  | {readonly kind: "none"; readonly problem: string; readonly suggestion: string | null};

/** The input that a path or a special name means; it must be a number. */
export function findInput(variations: Variations, name: string): FoundInput {
  const special = specialInputs[name as SpecialInput];
  if (special !== undefined) return specialInput(variations, name as SpecialInput);
  const found = variations.find(name);
  if (found.kind === "none") {
    const meant = nearest(name, Object.keys(specialInputs));
    const suggestion = found.suggestion ?? (meant === null ? null : `did you mean ${meant}?`);
    return {...found, suggestion};
  }
  const {path, value} = found;
  // Names may be numbers by mistake, and 25e-6 is a number as well: only what YAML reads as one is.
  if (typeof value !== "number" || !Number.isFinite(value))
    return {kind: "none", problem: `${name} is ${foundText(value)}, not a number`, suggestion: insideOf(value)};
  const key = String(path.at(-1));
  const [unit, words] = [unitOf(key), wordsOf(name, path)];
  const label = unit === "–" ? words : `${words}, ${unit}`;
  return {kind: "input", input: {name, unit, words, label, base: value, place: {kind: "field", path}}};
}

function specialInput({base}: Variations, kind: SpecialInput): FoundInput {
  const study = base.kind === "study" ? base.study : null;
  const without = (problem: string): FoundInput => ({kind: "none", problem, suggestion: null});
  if (kind === "temperature" && study && !study.weather)
    return without("the study has no temperature record to add to");
  if (kind !== "temperature" && study && !study.traffic.classes.some(c => c.passesPerYear > 0))
    return without("the study has no traffic");
  return {kind: "input", input: {name: kind, ...specialInputs[kind], place: {kind}}};
}

function insideOf(value: unknown): string | null {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return null;
  const numbers = Object.entries(value).flatMap(([key, v]) => (typeof v === "number" ? [key] : []));
  return numbers.length > 0 ? `numbers in it: ${numbers.join(", ")}` : null;
}

/** Units as they end the names of fields. */
const UNITS: readonly (readonly [ending: string, unit: string])[] = [
  ["_MPa_per_mm", "MPa/mm"],
  ["_W_per_m2K", "W/(m²·K)"],
  ["_W_per_mK", "W/(m·K)"],
  ["_J_per_kgK", "J/(kg·K)"],
  ["_kg_per_m3", "kg/m³"],
  ["_km_per_h", "km/h"],
  ["_mm_per_cycle", "mm/cycle"],
  ["_kN_per_m", "kN/m"],
  ["_per_year", "1/year"],
  ["_per_C", "1/K"],
  ["_microstrain", "µε"],
  ["_percent", "%"],
  ["_years", "years"],
  ["_GPa", "GPa"],
  ["_MPa", "MPa"],
  ["_kN", "kN"],
  ["_mm", "mm"],
  ["_Hz", "Hz"],
  ["_m", "m"],
  ["_C", "°C"],
  ["_K", "K"],
  ["_s", "s"],
];

function unitOf(key: string): string {
  return UNITS.find(([ending]) => key.endsWith(ending))?.[1] ?? "–";
}

/** section.layers.overlay.thickness_mm → overlay thickness */
function wordsOf(name: string, path: DocumentPath): string {
  const key = String(path.at(-1));
  const ending = UNITS.find(([e]) => key.endsWith(e))?.[0] ?? "";
  const own = key.slice(0, key.length - ending.length).replaceAll("_", " ");
  const above = name.slice(0, name.length - key.length - 1);
  const parent = path.length > 1 ? String(path.at(-2)) : "";
  // An entry of a list goes by the name it was asked for; by a mere number the list is named too.
  const asked = above.split(".").slice(-2);
  const entry = /^\d+$/.test(asked.at(-1) ?? "") ? asked.join(" ") : (asked.at(-1) ?? parent);
  const of = typeof path.at(-2) === "number" ? entry : parent;
  return of === "" ? own : `${of.replaceAll("_", " ")} ${own}`;
}

/** An input and the value that it gets. */
export interface Setting {
  readonly input: VariedInput;
  readonly value: number; // in the input's unit
}

/**
 * The study with these inputs; faults as if the values were written in the document.
 *
 * @param more  further values; they count where both name the same
 */
export function variedStudy(
  variations: Variations,
  settings: readonly Setting[],
  more: readonly Edit[] = [],
): ReadOutcome {
  const edits = [...fieldEdits(settings), ...more];
  const given = (kind: SpecialInput): number =>
    settings.find(({input}) => input.place.kind === kind)?.value ?? specialInputs[kind].base;
  const factors = [given("traffic"), given("loads")];
  const faults = (["traffic", "loads", "temperature"] as const).flatMap(kind => specialFault(kind, given(kind)));
  const kelvin = given("temperature");
  const read = variations.vary(edits, kelvin === 0 ? undefined : record => warmer(record, kelvin));
  if (faults.length > 0)
    return {kind: "faults", faults: [...faults, ...(read.kind === "faults" ? read.faults : [])], warnings: []};
  return read.kind === "study" ? {...read, study: withTraffic(read.study, factors[0], factors[1])} : read;
}

/** How uncertain the study is with these inputs. */
export function variedPlan({varyWithUncertainty}: Variations, settings: readonly Setting[]): ReadOutcome {
  return varyWithUncertainty(fieldEdits(settings));
}

function fieldEdits(settings: readonly Setting[]): Edit[] {
  return settings.flatMap(({input, value}) => (input.place.kind === "field" ? [{path: input.place.path, value}] : []));
}

/** Warmest and coldest change of a climate [K]. */
const MOST_KELVIN = 30;

function specialFault(kind: SpecialInput, value: number): Fault[] {
  const [good, accepted] =
    kind === "temperature"
      ? [Math.abs(value) <= MOST_KELVIN, `from -${MOST_KELVIN} to ${MOST_KELVIN} K`]
      : [value > 0 && value <= 1000, "a factor above 0, at most 1000"];
  if (good) return [];
  const problem = "outside the range that makes sense for this input";
  return [
    {path: kind, line: null, column: null, problem, found: String(value), accepted, suggestion: null, quote: null},
  ];
}

function withTraffic(study: Study, passes: number, load: number): Study {
  if (passes === 1 && load === 1) return study;
  const classes = study.traffic.classes.map(c => ({
    ...c,
    passesPerYear: c.passesPerYear * passes,
    wheels: c.wheels.map(w => ({...w, load: w.load * load})),
  }));
  return {...study, traffic: {...study.traffic, classes}};
}

/** The same weather so much warmer, the humidity with it; the label says so. */
function warmer(record: WeatherRecord, kelvin: number): WeatherRecord {
  return {
    ...record,
    temperature: record.temperature.map(t => t + kelvin),
    dewPoint: record.dewPoint?.map(t => t + kelvin) ?? null,
    label: `${record.label}, ${kelvin > 0 ? "+" : "−"}${Math.abs(kelvin)} K`,
  };
}

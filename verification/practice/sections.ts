/** Two plain sections with constant moduli, for facts of the trade. */
import {readFileSync} from "node:fs";
import {parse} from "csv-parse/sync";
import type {WeatherRecord} from "../../src/engine/climate/index.ts";
import type {Study} from "../../src/engine/life/index.ts";
import type {Layer, LayerRole, Material, Section} from "../../src/engine/section/index.ts";
import type {LoadClass} from "../../src/engine/traffic/index.ts";

interface Elastic {
  readonly modulus: number; // [Pa]
  readonly relaxed?: number; // [Pa]
  readonly poisson: number;
  readonly expansion: number; // [1/K]
  readonly growth?: number; // A [mm/cycle, µε]
}

function layer(name: string, role: LayerRole, thickness: number, e: Elastic): Layer {
  const material: Material = {
    name,
    modulus: [{temperature: 15, modulus: e.modulus}],
    relaxationModulus: e.relaxed ?? e.modulus,
    seasonalRelaxationModulus: e.relaxed ?? e.modulus,
    masterCurve: null,
    poisson: e.poisson,
    expansion: e.expansion,
    conductivity: 1.4,
    density: 2300,
    heatCapacity: 920,
    growth: e.growth
      ? {
          coefficient: e.growth * 1e-3 * 1e24,
          exponent: 4,
          zoneLength: 0.01,
          referenceModulus: null,
          stiffnessExponent: 0,
        }
      : null,
    fatigue: null,
    source: "typical values",
  };
  return {name, role, thickness, material};
}

/** At the same strain an interlayer's crack grows so many times slower than the overlay's. */
const OVERLAY_GROWTH = 7e-16; // A [mm/cycle, µε]

const asphalt: Elastic = {modulus: 3.5e9, relaxed: 7e8, poisson: 0.35, expansion: 25e-6, growth: OVERLAY_GROWTH};

export interface Interlayer {
  readonly thickness: number; // [m]
  readonly added: boolean; // on top of the overlay's thickness, or within it
  readonly toughness: number; // how many times slower its crack grows than the overlay's [–]
}

function overlay(thickness: number, interlayer: Interlayer | null): Layer[] {
  if (!interlayer) return [layer("overlay", "overlay", thickness, asphalt)];
  const growth = OVERLAY_GROWTH / interlayer.toughness;
  const soft: Elastic = {modulus: 4e8, relaxed: 1e7, poisson: 0.4, expansion: 25e-6, growth};
  return [
    layer("overlay", "overlay", interlayer.added ? thickness : thickness - interlayer.thickness, asphalt),
    layer("interlayer", "interlayer", interlayer.thickness, soft),
  ];
}

/** Overlay on a cracked cemented base without load transfer: 150 mm of 3 GPa on soft ground when weak, else 200 mm of 9 GPa. */
export function road(thickness: number, weak: boolean, interlayer: Interlayer | null): Section {
  return {
    layers: [
      ...overlay(thickness, interlayer),
      layer("base", "jointed", weak ? 0.15 : 0.2, {modulus: weak ? 3e9 : 9e9, poisson: 0.2, expansion: 10e-6}),
      layer("subgrade", "foundation", 1.5, {modulus: weak ? 6e7 : 9e7, poisson: 0.4, expansion: 0}),
    ],
    joint: {
      spacing: 4,
      width: 0.5e-3,
      unbondedStrip: 0,
      transfer: {kind: "spring", stiffness: 0},
      facesTouch: false,
      cutDepth: 0.3,
    },
    slabFriction: Number.POSITIVE_INFINITY,
    base: {kind: "rigid"},
    crackInterlock: 0,
    shearWeight: 1,
  };
}

/** Overlay on jointed concrete with good load transfer. */
export function stiffApron(interlayer: Interlayer | null, crackInterlock: number, shearWeight: number): Section {
  return {
    layers: [
      ...overlay(0.12, interlayer),
      layer("slab", "jointed", 0.3, {modulus: 30e9, poisson: 0.17, expansion: 10e-6}),
      layer("foundation", "foundation", 2, {modulus: 1e8, poisson: 0.4, expansion: 0}),
    ],
    joint: {
      spacing: 5,
      width: 8e-3,
      unbondedStrip: 0,
      transfer: {kind: "efficiency", efficiency: 0.7},
      facesTouch: false,
      cutDepth: 0.3,
    },
    slabFriction: 1e8,
    base: {kind: "rigid"},
    crackInterlock,
    shearWeight,
  };
}

/** One tyre on a square patch. */
export function singleWheel(load: number, pressure: number, wander: number): LoadClass {
  const side = Math.sqrt(load / pressure);
  return {
    name: "single wheel",
    wheels: [{x: 0, y: 0, load, length: side, width: side}],
    passesPerYear: 1e5,
    growth: 0,
    group: null,
    wander: {kind: "normal", deviation: wander},
  };
}

/** Hourly air temperature, sun and wind of a typical year. Source: examples/climate/README.md. */
export function typicalYear(): WeatherRecord {
  const text = readFileSync(new URL("../../examples/climate/greensboro_tmy3.csv", import.meta.url), "utf8");
  const rows: Record<string, string>[] = parse(text, {columns: true});
  const column = (name: string): Float64Array => Float64Array.from(rows, row => Number(row[name]));
  return {
    kind: "air",
    temperature: column("tair_C"),
    solar: column("ghi"),
    wind: column("wind_ms"),
    dewPoint: null,
    cloud: null,
    startHour: 1,
    startDay: 0,
    label: "typical year",
  };
}

export function study(sections: readonly Section[], traffic: LoadClass | null, weather: WeatherRecord | null): Study {
  const none: LoadClass = {...singleWheel(40e3, 0.7e6, 0), passesPerYear: 0};
  return {
    name: "practice",
    treatments: sections.map((section, k) => ({name: `treatment ${k}`, description: "", section})),
    traffic: {classes: traffic ? [traffic] : [], standardAxle: traffic ?? none, calendar: {hours: null, months: null}},
    weather,
    exchange: {absorptivity: 0.9, emissivity: 0.92, filmCoefficient: 15},
    bins: [{temperature: 15, share: 1}],
    neutralTemperature: null,
    analysisPeriod: 20,
    accuracy: 0.02, // facts of the trade are loose; a coarser mesh will do
    costs: null,
  };
}

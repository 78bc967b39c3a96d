import {readFileSync} from "node:fs";
import {parse} from "csv-parse/sync";
import type {SurfaceExchange, WeatherRecord} from "../../../src/engine/climate/index.ts";
import type {Layer, LayerRole, Material, Section} from "../../../src/engine/section/index.ts";

export const ASPHALT = {conductivity: 1.4, density: 2350, heatCapacity: 920};
export const CONCRETE = {conductivity: 1.75, density: 2400, heatCapacity: 960};
export const SOIL = {conductivity: 1.5, density: 1900, heatCapacity: 1100};

export const EXCHANGE: SurfaceExchange = {absorptivity: 0.9, emissivity: 0.93, filmCoefficient: 20};

/** Only what conducts heat matters here. */
function layer(role: LayerRole, thickness: number, thermal: typeof ASPHALT): Layer {
  const material: Material = {
    name: role,
    modulus: [{temperature: 20, modulus: 5e9}],
    relaxationModulus: 1e9,
    seasonalRelaxationModulus: 1e9,
    masterCurve: null,
    poisson: 0.35,
    expansion: 2e-5,
    ...thermal,
    growth: null,
    fatigue: null,
    source: "test",
  };
  return {name: role, role, material, thickness};
}

export function sectionOf(layers: readonly (readonly [LayerRole, number, typeof ASPHALT])[]): Section {
  return {
    layers: layers.map(([role, thickness, thermal]) => layer(role, thickness, thermal)),
    joint: {
      spacing: 5,
      width: 0.01,
      unbondedStrip: 0,
      transfer: {kind: "spring", stiffness: 0},
      facesTouch: false,
      cutDepth: 0.3,
    },
    slabFriction: 0,
    base: {kind: "rigid"},
    crackInterlock: 0,
    shearWeight: 1,
  };
}

/** 80 mm of asphalt on a 25 mm interlayer on 200 mm of concrete. */
export const OVERLAID = sectionOf([
  ["overlay", 0.08, ASPHALT],
  ["interlayer", 0.025, ASPHALT],
  ["jointed", 0.2, CONCRETE],
  ["foundation", 0.5, SOIL],
]);

export function recordOf(temperature: Float64Array, more: Partial<WeatherRecord> = {}): WeatherRecord {
  const rest = {solar: null, wind: null, dewPoint: null, cloud: null, startHour: 0, startDay: 0, label: "test"};
  return {kind: "air", temperature, ...rest, ...more};
}

/** The example record: a typical year made of real months. Dew point, which it has, is left out unless asked for. */
export function greensboro({dewPoint = false} = {}): WeatherRecord {
  const file = new URL("../../../examples/climate/greensboro_tmy3.csv", import.meta.url);
  const rows: Record<string, string>[] = parse(readFileSync(file), {columns: true});
  const column = (name: string) => Float64Array.from(rows, row => Number(row[name]));
  return {
    kind: "air",
    temperature: column("tair_C"),
    solar: column("ghi"),
    wind: column("wind_ms"),
    dewPoint: dewPoint ? column("tdew_C") : null,
    cloud: null,
    startHour: 1,
    startDay: 0,
    label: "TMY3 723170 Greensboro",
  };
}

/** An invented life result: shapes that look like an overlay's, from closed forms; no number in it was computed by the engine. */

import type {PavementTemperatures, TemperatureAtDepth} from "../../../src/engine/climate/types.ts";
import type {
  CrackHistory,
  Life,
  LifeResult,
  Scenario,
  TipStrainCurve,
  Treatment,
  TreatmentLife,
} from "../../../src/engine/life/types.ts";
import type {Layer, Material, Section} from "../../../src/engine/section/types.ts";
import type {LoadClass} from "../../../src/engine/traffic/types.ts";

export interface FixtureOptions {
  readonly thermal?: boolean; // default true
  readonly ordinary?: boolean; // default true
  readonly censored?: boolean; // every life open at 40 years
  readonly treatments?: number; // default 2
  readonly lives?: readonly (readonly [traffic: number, thermal: number, together: number])[];
  readonly fatigue?: number; // years of underside fatigue, default 41
  readonly name?: string;
}

const ASPHALT: Material = {
  name: "AC 16, 50/70",
  modulus: [-10, 0, 10, 20, 30, 40].map((temperature, i) => ({
    temperature,
    modulus: [21e9, 16e9, 10.4e9, 5.5e9, 2.4e9, 1.1e9][i]!,
  })),
  relaxationModulus: 1.1e9,
  seasonalRelaxationModulus: 1.1e9,
  masterCurve: null,
  poisson: 0.35,
  expansion: 2.2e-5,
  conductivity: 1.6,
  density: 2400,
  heatCapacity: 920,
  growth: {coefficient: 2.4e7, exponent: 4, zoneLength: 0.01, referenceModulus: 5.5e9, stiffnessExponent: 1.2},
  fatigue: {strainAtMillion: 1.15e-4, exponent: 5, referenceModulus: null, stiffnessExponent: 0},
  source: "invented for this test, typical of a dense binder course",
};
const TOUGH: Material = {
  ...ASPHALT,
  name: "Polymer-rich sand asphalt",
  modulus: ASPHALT.modulus.map(p => ({temperature: p.temperature, modulus: p.modulus / 8})),
  relaxationModulus: 12e6,
  seasonalRelaxationModulus: 12e6,
  poisson: 0.4,
  growth: {coefficient: 9e4, exponent: 4, zoneLength: 0.005, referenceModulus: null, stiffnessExponent: 0},
  source: "invented for this test",
};
const BOUND: Material = {
  ...ASPHALT,
  name: "Cement-bound gravel",
  modulus: [{temperature: 20, modulus: 9e9}],
  relaxationModulus: 7e9,
  seasonalRelaxationModulus: 7e9,
  poisson: 0.2,
  expansion: 1e-5,
  growth: null,
  fatigue: null,
  source: "invented for this test",
};
const SOIL: Material = {
  ...BOUND,
  name: "Sandy silt",
  modulus: [{temperature: 20, modulus: 9e7}],
  relaxationModulus: 9e7,
  seasonalRelaxationModulus: 9e7,
  poisson: 0.4,
};

function layer(name: string, role: Layer["role"], material: Material, thickness: number): Layer {
  return {name, role, material, thickness};
}

export function section(interlayer: boolean): Section {
  const overlay = interlayer
    ? [
        layer("Wearing course", "overlay", ASPHALT, 0.04),
        layer("Binder course", "overlay", ASPHALT, 0.03),
        layer("Interlayer", "interlayer", TOUGH, 0.01),
      ]
    : [layer("Wearing course", "overlay", ASPHALT, 0.04), layer("Binder course", "overlay", ASPHALT, 0.04)];
  return {
    layers: [...overlay, layer("Cracked base", "jointed", BOUND, 0.2), layer("Subgrade", "foundation", SOIL, 5)],
    joint: {
      spacing: 5,
      width: 0.001,
      unbondedStrip: 0.02,
      transfer: {kind: "efficiency", efficiency: 0.45},
      facesTouch: true,
      cutDepth: 0.3,
    },
    slabFriction: 2e7,
    base: {kind: "rigid"},
    crackInterlock: 0,
    shearWeight: 1,
  };
}

const AXLE: LoadClass = {
  name: "10 t single axle",
  wheels: [-1, 1].map(side => ({x: 0, y: side * 0.9, load: 50e3, length: 0.25, width: 0.28})),
  passesPerYear: 84_000,
  growth: 0.015,
  group: null,
  wander: {kind: "normal", deviation: 0.2},
};
const TRIDEM: LoadClass = {
  ...AXLE,
  name: "Tridem semi-trailer",
  wheels: [0, 1.3, 2.6].flatMap(x => [-1, 1].map(side => ({x, y: side * 1, load: 36e3, length: 0.22, width: 0.22}))),
  passesPerYear: 31_500,
};

function life(years: number, censored = false): Life {
  return {years, passes: years * 1.15e5 * 1.08, standardAxles: years * 0.92e5 * 1.08, censored};
}

function history(scenario: Scenario, s: Section, years: number, censored: boolean): CrackHistory {
  const steps = 60;
  const sum = (role: string) => s.layers.filter(l => l.role === role).reduce((t, l) => t + l.thickness, 0);
  const [overlay, inter] = [sum("overlay"), sum("interlayer")];
  const delay = inter > 0 ? 0.35 : 0; // share of the life before the overlay starts to crack
  const reach = censored ? 0.5 : 1; // share of the way made when the integration ends
  const t = Float64Array.from({length: steps + 1}, (_, i) => (i / steps) * years);
  const share = Float64Array.from(t, x => reach * (x / years));
  const grown = (x: number, start: number, power: number) => Math.max(0, (x - start) / (1 - start)) ** power;
  const upper = scenario === "thermal" ? 0.4 : 0.25;
  const end = life(years, censored);
  return {
    scenario,
    years: t,
    passes: t.map(x => x * 1.24e5),
    interlayer: share.map(x => inter * Math.min(1, grown(x, 0, 1.5) * 1.3)),
    underside: share.map(x => overlay * (1 - upper) * grown(x, delay, 1.7)),
    surface: share.map(x => overlay * upper * grown(x, 0.3, 2.4)),
    failed: !censored,
    life: end,
    milestones: [0.25, 0.5, 0.75].map(fraction => {
      const at = years * (0.45 + 0.5 * fraction);
      return {fraction, years: censored ? Infinity : at, passes: censored ? Infinity : at * 1.24e5};
    }),
    worstFront: "lower",
  };
}

function curves(s: Section, thermal: boolean): TipStrainCurve[] {
  const inter = s.layers.some(l => l.role === "interlayer");
  const make = (
    front: TipStrainCurve["front"],
    cause: TipStrainCurve["cause"],
    label: string,
    start: number,
    rise: number,
  ): TipStrainCurve => {
    const length = Float64Array.from({length: 15}, (_, i) => ((front === "interlayer" ? 0.009 : 0.066) * i) / 14);
    return {front, cause, label, length, strain: length.map(c => start * 1e-6 * (1 + rise * (c / 0.07)))};
  };
  const fronts: [TipStrainCurve["front"], number][] = inter
    ? [
        ["interlayer", 1900],
        ["underside", 150],
        ["surface", 60],
      ]
    : [
        ["underside", 310],
        ["surface", 70],
      ];
  return fronts.flatMap(([front, start]) => [
    make(front, "traffic", "single, 5 °C", start * 0.6, 0.8),
    make(front, "traffic", "single, 30 °C", start, 0.6),
    make(front, "traffic", "tridem, 30 °C", start * 0.85, 0.7),
    ...(thermal ? [make(front, "thermal", "10 K day", start * (inter ? 0.3 : 0.55), -0.3)] : []),
  ]);
}

/** A year of hours: a season, a day and weather from three incommensurate sines. */
function year(mean: number, season: number, day: number, weather: number): Float64Array {
  return Float64Array.from({length: 8760}, (_, h) => {
    const d = h / 24;
    const swing = 0.65 + 0.35 * Math.sin(d * 1.37);
    return (
      mean -
      season * Math.cos((2 * Math.PI * (d - 20)) / 365) -
      day * swing * Math.cos((2 * Math.PI * (h - 3)) / 24) +
      weather * (Math.sin(d * 0.71) + 0.6 * Math.sin(d * 0.293 + 1))
    );
  });
}

/** Temperatures at depth: the shown ones of the overlay's courses and the jointed layer, and an envelope that narrows. */
function depths({section: {layers}}: Treatment): Pick<PavementTemperatures, "atDepth" | "envelope"> {
  const atDepth: TemperatureAtDepth[] = [{depth: 0, layer: 0, place: "surface", temperature: year(17.5, 12, 10, 3)}];
  let top = 0;
  layers.forEach(({role, thickness}, layer) => {
    if (role === "overlay" || role === "jointed")
      for (const [place, depth] of [
        ["middle", top + thickness / 2],
        ["bottom", top + thickness],
      ] as const)
        atDepth.push({depth, layer, place, temperature: year(17, 12 - 4 * depth, 10 * Math.exp(-7 * depth), 3)});
    top += thickness;
  });
  const depth = Float64Array.from({length: 41}, (_, i) => (i / 40) ** 1.5);
  const half = depth.map(z => 8 + 20 * Math.exp(-5 * z));
  const envelope = {depth, lowest: half.map(h => 16 - h), mean: depth.map(() => 17), highest: half.map(h => 19 + h)};
  return {atDepth, envelope};
}

function treatmentLife(index: number, options: FixtureOptions): TreatmentLife {
  const {thermal = true, ordinary = true, censored = false} = options;
  const inter = index > 0;
  const s = section(inter);
  const treatment: Treatment = {
    name: inter ? `Interlayer 10 mm${index > 1 ? `, variant ${index}` : ""}` : "Overlay 80 mm",
    description: inter
      ? "The lowest 10 mm of the overlay replaced by a crack-resistant interlayer."
      : "Two courses straight on the cracked base.",
    section: s,
  };
  const lives = options.lives ?? [
    [7.4, 21, 6.2],
    [18.6, 412, 17.4],
  ];
  const [traffic, cold, both] = lives[Math.min(index, lives.length - 1)]!;
  const scenarios: [Scenario, number][] = thermal
    ? [
        ["traffic", traffic],
        ["thermal", cold],
        ["together", both],
      ]
    : [["traffic", traffic]];
  const histories = scenarios.map(([scenario, y]) => history(scenario, s, censored ? 40 : y, censored));
  const fatigueYears = censored ? 40 : (options.fatigue ?? 41);
  const fatigue = ordinary
    ? ([
        {
          mechanism: "underside fatigue",
          layer: s.layers[1]!.name,
          depth: 0.08,
          strain: 6.8e-5,
          life: life(fatigueYears, censored),
        },
        {
          mechanism: "near-surface fatigue",
          layer: s.layers[0]!.name,
          depth: 0.01,
          strain: 3.1e-5,
          life: life(censored ? 40 : 1900, censored),
        },
      ] as const)
    : [];
  const main = histories.at(-1)!;
  const fatigueGoverns = ordinary && !censored && fatigueYears < main.life.years;
  const mechanism = fatigueGoverns
    ? "underside fatigue"
    : thermal
      ? "reflection, both together"
      : "reflection by traffic";
  const base = lives[0]!;
  return {
    treatment,
    temperatures: thermal
      ? {
          surface: year(17.5, 12, 10, 3),
          overlayMean: year(17, 11.5, 6, 2.6),
          slabMean: year(16.8, 11, 2.4, 2),
          slabGradient: year(0, 2, 20, 2),
          halfWayOverlay: year(17, 11.5, 6.5, 2.6),
          ...depths(treatment),
          layerMean: treatment.section.layers.map((_, j) => year(17, 11.5 / (1 + j), 6.5 / (1 + j), 2.6)),
        }
      : null,
    equivalence: null,
    bins: [
      {temperature: 3.2, share: 0.25},
      {temperature: 11.5, share: 0.25},
      {temperature: 19.8, share: 0.25},
      {temperature: 32.4, share: 0.25},
    ],
    transfer: {spring: 1.34e8, efficiency: 0.45, tested: []},
    jointMovement: {free: 1.55e-3, computed: 1.21e-3, perDegree: 3.9e-5},
    histories,
    ordinary: fatigue,
    governing: {mechanism, life: fatigueGoverns ? fatigue[0]!.life : main.life},
    tipStrain: curves(s, thermal),
    thermalCycles: thermal
      ? {
          front: inter ? "interlayer" : "underside",
          range: Float64Array.from({length: 300}, (_, i) => (inter ? 900e-6 : 180e-6) * ((i + 1) / 300)),
          perYear: Float64Array.from({length: 300}, (_, i) => 14 * Math.exp(-(((i - 60) / 70) ** 2)) + 0.05),
        }
      : null,
    ratioToControl:
      index === 0 || censored
        ? {}
        : {
            traffic: traffic / base[0],
            thermal: cold / base[1],
            together: both / base[2],
            governing: (fatigueGoverns ? fatigueYears : both) / Math.min(fatigueYears, base[2]),
          },
    warnings: inter ? ["The interlayer’s growth law was scaled from its fatigue line."] : [],
  };
}

export function fixture(options: FixtureOptions = {}): LifeResult {
  const {thermal = true, treatments = 2} = options;
  const all = Array.from({length: treatments}, (_, i) => treatmentLife(i, options));
  return {
    study: {
      name: options.name ?? "County road 214, km 3.2 to 7.9",
      treatments: all.map(t => t.treatment),
      traffic: {
        classes: [AXLE, TRIDEM],
        standardAxle: {...AXLE, name: "80 kN single axle"},
        calendar: {hours: null, months: null},
      },
      weather: thermal
        ? {
            kind: "air",
            temperature: year(14.5, 10.5, 5.5, 3),
            solar: new Float64Array(8760),
            wind: null,
            dewPoint: null,
            cloud: null,
            startHour: 0,
            startDay: 0,
            label: "invented year of hours, for tests only",
          }
        : null,
      exchange: {absorptivity: 0.9, emissivity: 0.92, filmCoefficient: 18},
      bins: {kind: "derive", count: 4},
      neutralTemperature: null,
      analysisPeriod: 20,
      accuracy: 0.01,
      costs: null,
    },
    treatments: all,
  };
}

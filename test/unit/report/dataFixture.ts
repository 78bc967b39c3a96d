/** Invented results of every kind, few numbers each, whose names a spreadsheet would take for formulas. */
import type {CashFlow, CostResult} from "../../../src/engine/cost/index.ts";
import type {BeamPrediction, LifeComparison, MaterialFatigue, Specimen} from "../../../src/engine/laboratory/index.ts";
import type {LifeResult, TrafficEquivalence, TreatmentLife} from "../../../src/engine/life/types.ts";
import type {TreatmentRisk} from "../../../src/engine/uncertainty/index.ts";
import type {MasterCurve} from "../../../src/engine/viscoelastic/index.ts";
import type {BeamPicture, CurveView, LawCurve} from "../../../src/report/charts/index.ts";
import type {SearchCase} from "../../../src/report/searched.ts";
import {fixture} from "./fixture.ts";

/** Begins as a formula does. */
export const EVIL = '=cmd|"x",1';

/** The invented result with names that a spreadsheet would compute. */
export function evil(): LifeResult {
  const result = fixture();
  const renamed = (t: TreatmentLife): TreatmentLife => ({
    ...t,
    treatment: {
      ...t.treatment,
      name: EVIL,
      section: {
        ...t.treatment.section,
        layers: t.treatment.section.layers.map(l => ({
          ...l,
          name: `@${l.name}`,
          material: {...l.material, name: `+${l.material.name}`, source: `\t${l.material.source}`},
        })),
      },
    },
    tipStrain: t.tipStrain.map(c => ({...c, label: `-${c.label}`})),
    ordinary: t.ordinary.map(o => ({...o, layer: `\r${o.layer}`})),
    equivalence: EQUIVALENCE,
  });
  return {
    ...result,
    treatments: result.treatments.map(renamed),
  };
}

const EQUIVALENCE: TrafficEquivalence = {
  reference: "80 kN single axle",
  classes: [
    {
      loadClass: EVIL,
      group: "-group",
      load: 80_000,
      passesPerYear: 1000,
      passesToFailure: Infinity,
      factor: 1,
      fourthPower: 1,
      share: 1,
      passesPerCoverage: 2,
    },
  ],
  exponents: [],
};

const flow = (kind: CashFlow["kind"], years: number, amount: number): CashFlow => ({kind, years, amount});
export const COSTS = {
  costs: {currency: "€", discountRate: 0.05, period: 20},
  treatments: [{name: EVIL, flows: [flow("first", 0, 20), flow("renewal", 10, 30), flow("residual", 20, -5)]}],
} as unknown as CostResult;

export const RISK = [
  {
    name: EVIL,
    fan: {
      years: [0, 10],
      probabilities: [0.1, 0.5, 0.9],
      depths: [
        [0, 0.1],
        [0, 0.25],
        [0, 0.6],
      ].map(d => Float64Array.from(d)),
    },
  },
] as unknown as TreatmentRisk[];

export const FATIGUE = [
  {
    material: EVIL,
    points: [
      {specimen: 0, name: "-1", strain: 1e-4, cycles: 1e6, runOut: true, setAside: null},
      {specimen: 1, name: "b", strain: 2e-4, cycles: 3e4, runOut: false, setAside: "+slipped"},
    ],
    bands: [0.9, 0.95].map(probability => ({
      probability,
      strains: Float64Array.of(1e-4),
      cycles: Float64Array.of(1e6),
      confidenceLow: Float64Array.of(8e5),
      confidenceHigh: Float64Array.of(1.2e6),
      predictionLow: Float64Array.of(5e5),
      predictionHigh: Float64Array.of(2e6),
    })),
  },
] as unknown as MaterialFatigue[];

export const COMPARISON = [
  {
    material: EVIL,
    reference: "@other",
    strains: Float64Array.of(1e-4),
    ratio: Float64Array.of(3),
    low: Float64Array.of(2),
    high: Float64Array.of(4),
    extrapolated: [true],
  },
] as unknown as LifeComparison[];

export const SPECIMENS = [
  {
    name: EVIL,
    material: "+m",
    history: {initialModulus: 8e9, cycles: Float64Array.of(100, 1e5), modulus: Float64Array.of(8e9, 4e9)},
  },
  {name: "without", material: "m", history: null},
] as unknown as Specimen[];

export const BEAM = {
  test: {name: EVIL},
  reduced: {
    lower: {
      passes: Float64Array.of(1000, 2000),
      length: Float64Array.of(0.01, 0.02),
      difference: Float64Array.of(0.004, Number.NaN),
      smooth: Float64Array.of(0.011, 0.019),
    },
    upper: {
      passes: new Float64Array(),
      length: new Float64Array(),
      difference: new Float64Array(),
      smooth: new Float64Array(),
    },
  },
  fitted: {passes: Float64Array.of(0), lower: Float64Array.of(0.001), upper: Float64Array.of(0.002)},
  prediction: null,
} as unknown as BeamPicture;

export const PREDICTION = [
  {name: EVIL, observed: {after: 5, before: null}, life: {low: 1, middle: 2, high: Infinity}, within: false},
] as unknown as BeamPrediction[];

export const LAWS: (LawCurve & {material: string})[] = [
  {
    material: EVIL,
    strain: Float64Array.of(1e-4, 1e-3),
    rate: Float64Array.of(1e-9, 1e-5),
    low: Float64Array.of(5e-10, 5e-6),
    high: Float64Array.of(2e-9, 2e-5),
    met: [5e-4, 2e-3],
  },
];

/** At the reference lg|E*| = δ + α/(1 + exp(β − γ·lg f)), in Pa. */
const CURVE: MasterCurve = {
  model: {kind: "sigmoid", lowest: 7, span: 3, location: 0, slope: 0.5},
  shift: {kind: "WLF", c1: 10, c2: 100},
  referenceTemperature: 15,
  measured: null,
};
export const VIEW: CurveView = {
  curve: CURVE,
  points: [{temperature: 15, frequency: 10, modulus: 5e9, phase: null}],
  prony: {equilibrium: 1e7, terms: []} as unknown as CurveView["prony"],
};

export const SEARCH: SearchCase = {
  study: "s",
  layer: "overlay",
  isLaid: true,
  steps: [40],
  target: 10,
  accuracy: 0.01,
  treatments: [{name: EVIL, found: {known: [], least: null, best: 0, falls: []}}],
  outcomes: new Map([
    [
      0,
      {
        treatments: [
          {
            name: EVIL,
            overlay: 0.04,
            lives: {"reflection by traffic": {years: 5, censored: false}},
            presentWorth: null,
          },
        ],
        warnings: [],
      },
    ],
  ]),
  sampling: null,
  prices: null,
  constant: [],
};

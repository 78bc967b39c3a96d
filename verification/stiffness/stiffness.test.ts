import {test} from "vitest";
import {
  estimatedCurve,
  fitMasterCurve,
  loadingFrequency,
  type MasterCurve,
  modulusNorm,
  phaseAngle,
  pronyModulus,
  pronySeries,
  pronyThrough,
  type RelaxationSeries,
  relaxationModulus,
  relaxationModulusAt,
  shiftFactor,
} from "../../src/engine/viscoelastic/index.ts";
import {verificationTable} from "../table.ts";
import {DEGREE, MPA, readings, sigmoid, twoSprings} from "./curves.ts";
import {recovery, scatter} from "./fits.ts";

const {compare, between, heading, page} = verificationTable(
  "stiffness",
  "Stiffness of asphalt",
  "Modulus and phase over temperature and frequency, relaxation over time, and the fit of a master curve to readings. Plain " +
    "arithmetic is allowed 1e-8, an interconversion what the spacing of its relaxation times costs, a fit to scattered " +
    "readings their scatter.",
);

test("models", () => {
  heading("Modulus of the models at their reference temperature");
  const lg: readonly [number, number][] = [
    [1e-4, 367.17056846],
    [1e-2, 1259.09959864],
    [1, 5265.50501394],
    [10, 9251.33966074],
    [1e3, 18336.62525511],
    [1e6, 25804.12437295],
  ];
  for (const [frequency, expected] of lg)
    compare({
      name: `sigmoid δ 2.1 (MPa), α 2.35, β −0.8, γ 0.55 at ${frequency} Hz`,
      source: "arithmetic by an independent computation",
      standing: "derived",
      unit: "MPa",
      expected,
      computed: modulusNorm(sigmoid, 15, frequency) / MPA,
      tolerance: 1e-8,
    });
  const complex: readonly [number, number, number][] = [
    [0.01, 1600.72465, 41.191155],
    [0.1, 4192.11132, 32.720608],
    [1, 8514.30703, 22.894132],
    [10, 13593.64398, 15.08509],
    [100, 18496.73932, 10.170386],
  ];
  for (const [frequency, modulus, phase] of complex) {
    const name = `2S2P1D E₀₀ 40, E₀ 38000 MPa, δ 2, k 0.18, h 0.55, β 250, τ 0.08 s at ${frequency} Hz`;
    const common = {source: "arithmetic by an independent computation", standing: "derived"} as const;
    compare({
      ...common,
      name: `${name}: |E*|`,
      unit: "MPa",
      expected: modulus,
      computed: modulusNorm(twoSprings, 15, frequency) / MPA,
      tolerance: 1e-8,
    });
    compare({
      ...common,
      name: `${name}: φ`,
      unit: "°",
      expected: phase,
      computed: phaseAngle(twoSprings, 15, frequency) / DEGREE,
      tolerance: 1e-6,
      absolute: true,
    });
  }
});

test("shift", () => {
  heading("Shift lg a_T, reference 15 °C");
  // The reference values take R = 8.314 J/(mol·K); the engine takes all of its digits.
  const activationEnergy = 2e5 * (8.31446261815324 / 8.314);
  const arrhenius: MasterCurve = {...sigmoid, shift: {kind: "Arrhenius", activationEnergy}};
  const rows: readonly [number, number, number][] = [
    [0, 1.96551724, 1.99102043],
    [10, 0.61290323, 0.64023454],
    [20, -0.57575758, -0.61839471],
    [30, -1.62857143, -1.79398724],
    [40, -2.56756757, -2.89449801],
  ];
  const common = {source: "arithmetic by an independent computation", standing: "derived", unit: "–"} as const;
  for (const [temperature, wlf, energy] of rows) {
    compare({
      ...common,
      name: `WLF C₁ 19, C₂ 160 K at ${temperature} °C`,
      expected: wlf,
      computed: shiftFactor(sigmoid, temperature),
      tolerance: 1e-8,
      absolute: true,
    });
    compare({
      ...common,
      name: `Arrhenius 200 kJ/mol with R = 8.314 at ${temperature} °C`,
      expected: energy,
      computed: shiftFactor(arrhenius, temperature),
      tolerance: 1e-8,
      absolute: true,
    });
  }
});

test("phase by the slope", () => {
  heading("Phase of a sigmoid by the slope of its curve: the sigmoid through exact moduli of 2S2P1D, φ in comparison");
  const points = readings(twoSprings).map(point => ({...point, phase: null}));
  const {curve} = fitMasterCurve(points, {model: "sigmoid", shift: "WLF", referenceTemperature: 15});
  for (const [temperature, frequency] of [
    [0, 10],
    [10, 10],
    [20, 10],
    [30, 10],
    [30, 1],
  ])
    compare({
      name: `${temperature} °C, ${frequency} Hz`,
      source: "2S2P1D, whose phase belongs to its modulus (Booij & Thoone 1982 call the slope an approximation)",
      standing: "derived",
      unit: "°",
      expected: phaseAngle(twoSprings, temperature, frequency) / DEGREE,
      computed: phaseAngle(curve, temperature, frequency) / DEGREE,
      tolerance: 3,
      absolute: true,
    });
});

/** Relative moduli of three mixes at 20 °C, instantaneous modulus [MPa]; relaxation times 1e-5 to 1e3 s. */
const PUBLISHED: readonly {readonly instantaneous: number; readonly sum: number; readonly parts: readonly number[]}[] =
  [
    {
      instantaneous: 1550,
      sum: 0.98627,
      parts: [0.31288, 0.20212, 0.21377, 0.14498, 0.06803, 0.02679, 0.01078, 0.00428, 0.00264],
    },
    {
      instantaneous: 1250,
      sum: 0.99546,
      parts: [0.42854, 0.18515, 0.1764, 0.11444, 0.05524, 0.02179, 0.00858, 0.00328, 0.00204],
    },
    {
      instantaneous: 2450,
      sum: 0.99755,
      parts: [0.34127, 0.202, 0.21428, 0.14543, 0.06354, 0.02084, 0.00674, 0.00224, 0.00121],
    },
  ];

function publishedSeries({instantaneous, sum, parts}: (typeof PUBLISHED)[number]): RelaxationSeries {
  return {
    equilibriumModulus: (1 - sum) * instantaneous * MPA,
    terms: parts.map((part, i) => ({time: 10 ** (i - 5), modulus: part * instantaneous * MPA})),
  };
}

test("published series", () => {
  heading("Three published Prony series: there and back");
  const source = "Advances in Civil Engineering 2022, 9405338, table 2";
  PUBLISHED.forEach((mix, i) => {
    const series = publishedSeries(mix);
    const common = {source, standing: "read"} as const;
    compare({
      ...common,
      name: `mix ${i + 1}: instantaneous modulus`,
      unit: "MPa",
      expected: mix.instantaneous,
      computed: relaxationModulus(series, 0) / MPA,
      tolerance: 1e-4,
    });
    compare({
      ...common,
      name: `mix ${i + 1}: modulus at rest over instantaneous`,
      unit: "–",
      expected: 1 - mix.sum,
      computed: relaxationModulus(series, 1e9) / relaxationModulus(series, 0),
      tolerance: 1e-3,
    });
    // E' and E'' by the analytical terms, four readings a decade; fitted again with twice as many relaxation times.
    const readingsOf = Array.from({length: 53}, (_, k) => {
      const omega = 10 ** (-5 + k / 4);
      return {omega, ...pronyModulus(series, omega)};
    });
    const times = Array.from({length: 25}, (_, k) => 10 ** (-7 + k / 2));
    const again = pronyThrough(readingsOf, times);
    const worst = Math.max(
      ...[-6, -4, -2, 0, 1, 2, 4].map(lg =>
        Math.abs(relaxationModulus(again, 10 ** lg) / relaxationModulus(series, 10 ** lg) - 1),
      ),
    );
    compare({
      name: `mix ${i + 1}: E(t) after series → E′, E″ → series, worst difference from 1e-6 to 1e4 s`,
      source: "the series itself",
      standing: "derived",
      unit: "–",
      expected: 0,
      computed: worst,
      tolerance: 1e-6,
      absolute: true,
    });
  });
});

test("relaxation", () => {
  heading("Relaxation from the complex modulus: standard linear solid, E(t) = E_∞ + E₁·e^(−t/τ)");
  // With δ = 0, h = 1 and no dashpot the model is a spring beside a Maxwell element of time τ.
  const solid = (time: number): MasterCurve => ({
    ...twoSprings,
    model: {
      kind: "2S2P1D",
      staticModulus: 100 * MPA,
      glassyModulus: 1100 * MPA,
      delta: 0,
      k: 0.1,
      h: 1,
      beta: Infinity,
      time,
    },
  });
  for (const [time, where, tolerance] of [
    [1, "a relaxation time of the series", 1e-6],
    [10 ** 0.25, "half way between two (the worst there is; asphalt has no single time)", 0.2],
  ] as const) {
    const series = pronySeries(solid(time));
    for (const t of [0.1, 1, 3])
      compare({
        name: `τ ${time === 1 ? 1 : "10^¼"} s, ${where}: E(${t} τ)`,
        source: "closed form (textbook)",
        standing: "derived",
        unit: "MPa",
        expected: 100 + 1000 * Math.exp(-t),
        computed: relaxationModulus(series, t * time) / MPA,
        tolerance,
      });
  }
  heading("Relaxation of a spring and a parabolic element in series: E(t)/E₀ = e^(t/τ)·erfc(√(t/τ)) for h = ½");
  const model = {...twoSprings.model, staticModulus: 0, glassyModulus: 1, delta: 0, h: 0.5, beta: Infinity, time: 1};
  const series = pronySeries({model});
  // erfc(½), erfc(1), erfc(1.5), erfc(2)
  for (const [root, erfc] of [
    [0.5, 0.4795001222],
    [1, 0.1572992071],
    [1.5, 0.0338948535],
    [2, 0.004677734981],
  ])
    compare({
      name: `t/τ = ${root ** 2}`,
      source: "Mittag-Leffler function of order ½; erfc from Abramowitz & Stegun 1964, table 7.1",
      standing: "derived",
      unit: "–",
      expected: Math.exp(root * root) * erfc,
      computed: relaxationModulus(series, root * root),
      tolerance: 2e-4,
    });
});

test("interconversion", () => {
  heading("Prony series of a master curve against the curve, over 18 decades of frequency");
  const worstOf = (curve: MasterCurve): number => {
    const series = pronySeries(curve);
    const off = Array.from({length: 73}, (_, k) => {
      const frequency = 10 ** (-9 + k / 4);
      const {storage, loss} = pronyModulus(series, 2 * Math.PI * frequency);
      return Math.abs(Math.hypot(storage, loss) / modulusNorm(curve, 15, frequency) - 1);
    });
    return Math.max(...off);
  };
  const {model} = twoSprings;
  const cases: readonly [string, MasterCurve, number][] = [
    ["2S2P1D", twoSprings, 0.002],
    ["Huet-Sayegh", {...twoSprings, model: {...model, beta: Infinity}}, 0.002],
    ["2S2P1D that flows, E₀₀ = 0", {...twoSprings, model: {...model, staticModulus: 0}}, 0.002],
    ["sigmoid, whose phase is an approximation", sigmoid, 0.01],
  ];
  for (const [name, curve, tolerance] of cases)
    compare({
      name: `${name}: worst difference of |E*|`,
      source: "the curve itself",
      standing: "derived",
      unit: "–",
      expected: 0,
      computed: worstOf(curve),
      tolerance,
      absolute: true,
    });
  heading("Time-temperature superposition: E(t) at a temperature is E(t/a_T) at the reference");
  const series = pronySeries(twoSprings);
  compare({
    name: "2S2P1D, 3600 s at 0 °C against 3600/10^1.96551724 = 38.98 s at 15 °C",
    source: "definition",
    standing: "derived",
    unit: "MPa",
    expected: relaxationModulus(series, 3600 / 10 ** 1.9655172413793103) / MPA,
    computed: relaxationModulusAt(twoSprings, series, {time: 3600, temperature: 0}) / MPA,
    tolerance: 1e-8,
  });
});

test("recovery", () => recovery({compare, heading}));

test("scatter", () => scatter({compare, heading}));

test("wheels and composition", () => {
  heading("Loading frequency of a wheel, lg t = 0.0005·d − 0.2 − 0.94·lg v, f = 1/(2πt)");
  for (const [speed, depth, expected] of [
    [60, 0.1, 10.550725],
    [80, 0.05, 14.64619],
    [10, 0.2, 1.745099],
  ])
    compare({
      name: `${speed} km/h, depth ${1000 * depth} mm`,
      source: "Brown 1973, arithmetic by an independent computation",
      standing: "memory",
      unit: "Hz",
      expected,
      computed: loadingFrequency({speed: speed / 3.6, depth}),
      tolerance: 1e-5,
    });
  heading(
    "Estimate from composition: plausible stiffness at 20 °C, 5 Hz (A and VTS from penetration and softening point)",
  );
  // UK design stiffness: dense macadam with 125 pen bitumen 2.5 GPa, with 50 pen bitumen 4.7 GPa.
  for (const [penetration, softeningPoint, design] of [
    [125, 43, 2500],
    [50, 52, 4700],
  ]) {
    const {curve} = estimatedCurve({
      retained19: 0.02,
      retained9_5: 0.25,
      retained4_75: 0.45,
      passing0_075: 0.06,
      airVoids: 0.06,
      effectiveBinder: 0.1,
      binder: {kind: "penetration", penetration: penetration * 1e-4, softeningPoint},
      referenceTemperature: 20,
    });
    between({
      name: `dense asphalt, penetration ${penetration}, softening point ${softeningPoint} °C: within a factor of two of ${design} MPa`,
      source: "UK design values of dense macadam (memory); the equation from memory as well",
      standing: "memory",
      unit: "MPa",
      low: design / 2,
      high: 2 * design,
      computed: modulusNorm(curve, 20, 5) / MPA,
    });
  }
});

page();

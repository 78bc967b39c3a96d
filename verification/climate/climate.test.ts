import {test} from "vitest";
import {
  type ConductingLayer,
  conductingBody,
  conductionGrid,
  finishStep,
  interpolationAt,
  pavementTemperatures,
  type Resolution,
  STAGE,
  STANDARD_RESOLUTION,
  startStep,
  surfaceTemperature,
  temperaturesOf,
} from "../../src/engine/climate/index.ts";
import type {Layer, LayerRole, Section} from "../../src/engine/section/index.ts";
import {verificationTable} from "../table.ts";
import {relationTests} from "./relations.ts";

const table = verificationTable(
  "climate",
  "Temperatures in the pavement",
  "Transient conduction and its surface against exact solutions. Amplitudes are allowed 1 % and lags 0.1 h: an error of " +
    "1 % in a temperature range is 4 % in a life with the fourth power, well within what weather records are worth. At the end the heat balance on a real year is held against published relations " +
    "for pavement temperature.",
);
const {compare, heading, page} = table;

const DAY = 86_400; // [s]
const ASPHALT = {name: "asphalt", conductivity: 1.4, density: 2350, heatCapacity: 920};
const CONCRETE = {name: "concrete", conductivity: 1.75, density: 2400, heatCapacity: 960};
type Solid = typeof ASPHALT;

/** Depths of the measuring points [m]; each is an interface of the grid. The last is the bottom. */
const DEPTHS = [0.05, 0.1, 0.2, 0.4, 3];

interface Wave {
  readonly amplitude: number;
  readonly lag: number; // [s]
}

interface Numerics {
  readonly step: number; // [s]
  readonly resolution: Resolution;
}

const AS_USED: Numerics = {step: 1800, resolution: STANDARD_RESOLUTION};

/** Responses at the surface and at DEPTHS to an effective temperature sin ωt, by projection on the 60th period. */
function periodicResponse(solid: Solid, film: number, omega: number, {step, resolution}: Numerics): Wave[] {
  const layers = DEPTHS.map((depth, i): ConductingLayer => ({...solid, thickness: depth - (DEPTHS[i - 1] ?? 0)}));
  const grid = conductionGrid(layers, resolution);
  const body = conductingBody(grid, step, 0);
  const points = DEPTHS.slice(0, -1).map(depth => interpolationAt(grid, depth));
  const period = (2 * Math.PI) / omega;
  const steps = Math.round(period / step);
  const sine = new Float64Array(DEPTHS.length);
  const cosine = new Float64Array(DEPTHS.length);
  const surface = new Float64Array(4).fill(film);
  for (let k = 0; k < 60 * steps; k++) {
    const forcing = (part: number) => Math.sin((2 * Math.PI * (k + part)) / steps);
    surface[0] = forcing(0);
    surface[2] = forcing(STAGE);
    startStep(body, surface);
    surface[0] = forcing(1);
    finishStep(body, surface);
    if (k < 59 * steps) continue;
    const T = temperaturesOf(body);
    const values = [surfaceTemperature(grid, T[0], surface[0], film)];
    for (const {cell, weight} of points) values.push((1 - weight) * T[cell] + weight * T[cell + 1]);
    values.forEach((value, i) => {
      sine[i] += (2 / steps) * value * Math.sin((2 * Math.PI * (k + 1)) / steps);
      cosine[i] += (2 / steps) * value * Math.cos((2 * Math.PI * (k + 1)) / steps);
    });
  }
  return Array.from(sine, (s, i) => ({
    amplitude: Math.hypot(s, cosine[i]),
    lag: ((Math.atan2(-cosine[i], s) + 2 * Math.PI) % (2 * Math.PI)) / omega,
  }));
}

/** Amplitude and lag [h] at 0, 0.05, 0.1, 0.2, 0.4 m of a half-space under a daily wave of unit amplitude. */
const HALF_SPACE: readonly {readonly solid: Solid; readonly film: number; readonly rows: readonly number[][]}[] = [
  {
    solid: ASPHALT,
    film: Infinity,
    rows: [
      [0.687514, 1.431144],
      [0.472676, 2.862288],
      [0.223423, 5.724575],
      [0.049918, 11.44915],
    ],
  },
  {
    solid: ASPHALT,
    film: 15,
    rows: [
      [0.544164, 1.491318],
      [0.374121, 2.922462],
      [0.257213, 4.353606],
      [0.121579, 7.215893],
      [0.027163, 12.940468],
    ],
  },
  {
    solid: ASPHALT,
    film: 25,
    rows: [
      [0.675514, 1.09782],
      [0.464425, 2.528964],
      [0.319299, 3.960107],
      [0.150925, 6.822395],
      [0.03372, 12.54697],
    ],
  },
  {
    solid: CONCRETE,
    film: Infinity,
    rows: [
      [0.70755, 1.321422],
      [0.500626, 2.642845],
      [0.250627, 5.285689],
      [0.062814, 10.571379],
    ],
  },
  {
    solid: CONCRETE,
    film: 15,
    rows: [
      [0.505231, 1.604564],
      [0.357476, 2.925986],
      [0.252932, 4.247409],
      [0.126624, 6.890254],
      [0.031735, 12.175943],
    ],
  },
  {
    solid: CONCRETE,
    film: 25,
    rows: [
      [0.640474, 1.204746],
      [0.453167, 2.526168],
      [0.320638, 3.84759],
      [0.16052, 6.490435],
      [0.040231, 11.776125],
    ],
  },
];

test("daily wave in a half-space", () => {
  heading("Daily wave in a half-space: grid and step as the engine uses them, exact forcing");
  const source = "Carslaw & Jaeger 1959, section 2.6 (surface given) and 2.8 (through a film), evaluated independently";
  for (const {solid, film, rows} of HALF_SPACE) {
    const waves = periodicResponse(solid, film, (2 * Math.PI) / DAY, AS_USED).slice(film === Infinity ? 1 : 0);
    const depths = film === Infinity ? DEPTHS : [0, ...DEPTHS];
    rows.forEach(([amplitude, lag], i) => {
      const where = film === Infinity ? "surface given" : `film ${film} W/(m²·K)`;
      const name = `${solid.name}, ${where}, depth ${depths[i]} m`;
      compare({
        name: `${name}: amplitude`,
        source,
        standing: "derived",
        unit: "–",
        expected: amplitude,
        computed: waves[i].amplitude,
        tolerance: 0.01,
      });
      compare({
        name: `${name}: lag`,
        source,
        standing: "derived",
        unit: "h",
        expected: lag,
        computed: waves[i].lag / 3600,
        tolerance: 0.1,
        absolute: true,
      });
    });
  }
});

test("order of convergence", () => {
  heading("Order of convergence: asphalt, film 25 W/(m²·K), depth 0.1 m, cells and step halved together");
  // Exact response e^{−(1+i)Cz}/(1 + (1+i)Ck/h): Carslaw & Jaeger, as a complex number.
  const omega = (2 * Math.PI) / DAY;
  const C = Math.sqrt((omega * ASPHALT.density * ASPHALT.heatCapacity) / (2 * ASPHALT.conductivity));
  const b = (C * ASPHALT.conductivity) / 25;
  const amplitude = Math.exp(-C * 0.1) / Math.hypot(1 + b, b);
  const phase = C * 0.1 + Math.atan(b / (1 + b));
  const errors = [2, 4, 8].map(m => {
    const numerics = {step: 3600 / m, resolution: {surfaceCell: 0.005 / m, growth: 0.12 / m}};
    const wave = periodicResponse(ASPHALT, 25, omega, numerics)[2];
    const real = wave.amplitude * Math.cos(wave.lag * omega) - amplitude * Math.cos(phase);
    const imaginary = wave.amplitude * Math.sin(wave.lag * omega) - amplitude * Math.sin(phase);
    return Math.hypot(real, imaginary) / amplitude;
  });
  const steps = ["2.5 mm, 30 min", "1.25 mm, 15 min", "0.625 mm, 7.5 min"];
  steps.slice(1).forEach((finer, i) => {
    compare({
      name: `order of the complex error from ${steps[i]} to ${finer}`,
      source: "Taylor expansion of scheme and grid: second order",
      standing: "derived",
      unit: "–",
      expected: 2,
      computed: Math.log2(errors[i] / errors[i + 1]),
      tolerance: 0.1,
      absolute: true,
    });
  });
  compare({
    name: "complex error over amplitude at 2.5 mm, 30 min",
    source: "Carslaw & Jaeger 1959, section 2.8",
    standing: "derived",
    unit: "–",
    expected: 0,
    computed: errors[0],
    tolerance: 0.002,
    absolute: true,
  });
});

test("step of the surface", () => {
  heading("Surface of a deep solid raised by 1 K: T = erfc(x/(2√(αt)))");
  // erf from Abramowitz & Stegun 1964, Table 7.1, at η = x/(2√(αt)).
  const table = [
    [0.25, 0.2763263902],
    [0.5, 0.5204998778],
    [1, 0.8427007929],
    [1.5, 0.9661051465],
  ];
  const diffusivity = ASPHALT.conductivity / (ASPHALT.density * ASPHALT.heatCapacity);
  const time = 3 * 3600;
  const depths = table.map(([eta]) => 2 * eta * Math.sqrt(diffusivity * time));
  const ends = [...depths, 2];
  const grid = conductionGrid(ends.map((end, i) => ({...ASPHALT, thickness: end - (ends[i - 1] ?? 0)})));
  const body = conductingBody(grid, 300, 0);
  const hot = new Float64Array([1, Infinity, 1, Infinity]);
  for (let t = 0; t < time; t += 300) {
    startStep(body, hot);
    finishStep(body, hot);
  }
  const T = temperaturesOf(body);
  table.forEach(([eta, erf], i) => {
    const {cell, weight} = interpolationAt(grid, depths[i]);
    compare({
      name: `after 3 h, steps of 5 min, x/(2√(αt)) = ${eta}`,
      source: "Abramowitz & Stegun 1964, Table 7.1 (erf), recomputed",
      standing: "derived",
      unit: "K",
      expected: 1 - erf,
      computed: (1 - weight) * T[cell] + weight * T[cell + 1],
      tolerance: 0.002,
      absolute: true,
    });
  });
});

test("Barber's surface", () => {
  heading("Barber's pavement: k = 0.7 BTU/(ft·h·°F), s = 0.22 BTU/(lb·°F), w = 140 lb/ft³, wind 10 mph");
  // h = 1.3 + 0.62·10^0.75 = 4.7865 BTU/(ft²·h·°F); units by 1 BTU = 1055.056 J, 1 ft = 0.3048 m, 1 lb = 0.45359237 kg.
  const btu = 1055.056;
  const solid: Solid = {
    name: "Barber's",
    conductivity: (0.7 * btu) / (0.3048 * 3600 * (5 / 9)),
    density: (140 * 0.45359237) / 0.3048 ** 3,
    heatCapacity: (0.22 * btu) / (0.45359237 * (5 / 9)),
  };
  const film = ((1.3 + 0.62 * 10 ** 0.75) * btu) / (0.3048 ** 2 * 3600 * (5 / 9));
  const omega = 0.262 / 3600; // as printed, for 2π/24 h
  const period = (2 * Math.PI) / omega;
  const [wave] = periodicResponse(solid, film, omega, {...AS_USED, step: period / 48});
  const source =
    "Barber 1957, Highway Res. Board Bull. 168: H/√((H+C)²+C²) and atan(C/(H+C)), H = 6.83788, C = 2.40083";
  const common = {
    source,
    standing: "derived",
    expected: 0.716341014,
    computed: wave.amplitude,
    tolerance: 0.01,
  } as const;
  compare({...common, name: "surface over air amplitude", unit: "–"});
  compare({...common, name: "lag", unit: "rad", expected: 0.2542431139, computed: wave.lag * omega, tolerance: 0.02});
});

test("the whole way from an hourly record", () => {
  heading("The whole way: an hourly record of one day, repeated; 100 mm overlay, value half way down");
  const solid = {...ASPHALT, modulus: [{temperature: 20, modulus: 5e9}], relaxationModulus: 1e9, poisson: 0.35};
  const curve = {seasonalRelaxationModulus: 1e9, masterCurve: null};
  const material = {...solid, ...curve, expansion: 2e-5, growth: null, fatigue: null, source: "verification"};
  const layer = (role: LayerRole, thickness: number): Layer => ({name: role, role, material, thickness});
  const section: Section = {
    layers: [layer("overlay", 0.1), layer("jointed", 0.2), layer("foundation", 0.5)],
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
  const sine = Float64Array.from({length: 24}, (_, i) => Math.sin((Math.PI * i) / 12));
  const cases = [
    {kind: "surface", film: 25, sun: false, name: "surface given", amplitude: 0.687514, lag: 1.431144},
    {kind: "air", film: 25, sun: false, name: "film 25 W/(m²·K)", amplitude: 0.464425, lag: 2.528964},
    {
      kind: "air",
      film: 25,
      sun: true,
      name: "heat balance, no radiation taken in or out",
      amplitude: 0.464425,
      lag: 2.528964,
    },
  ] as const;
  for (const {kind, film, sun, name, amplitude, lag} of cases) {
    const record = {
      kind,
      temperature: sine,
      solar: sun ? new Float64Array(24).fill(500) : null,
      wind: null,
      dewPoint: null,
      cloud: null,
      startHour: 0,
      startDay: 0,
      label: "sine",
    };
    const exchange = {absorptivity: sun ? 0 : 0.9, emissivity: sun ? 1e-12 : 0.9, filmCoefficient: film};
    const {halfWayOverlay} = pavementTemperatures(section, record, exchange);
    const s = halfWayOverlay.reduce((sum, x, i) => sum + (x * sine[i]) / 12, 0);
    const c = halfWayOverlay.reduce((sum, x, i) => sum + (x * Math.cos((Math.PI * i) / 12)) / 12, 0);
    const common = {source: "Carslaw & Jaeger 1959, as above", standing: "derived"} as const;
    compare({
      ...common,
      name: `${name}, depth 0.05 m: amplitude`,
      unit: "–",
      expected: amplitude,
      computed: Math.hypot(s, c),
      tolerance: 0.01,
    });
    compare({
      ...common,
      name: `${name}, depth 0.05 m: lag`,
      unit: "h",
      expected: lag,
      computed: (Math.atan2(-c, s) * 12) / Math.PI,
      tolerance: 0.1,
      absolute: true,
    });
  }
});

relationTests(table);
page();

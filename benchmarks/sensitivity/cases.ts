/** What is changed in the example studies, one thing at a time. */
import type {Document} from "yaml";
import type {Study} from "../../src/engine/life/index.ts";
import type {Layer, Material} from "../../src/engine/section/index.ts";
import {standardAxleEquivalence} from "../../src/engine/traffic/index.ts";

export interface Case {
  readonly name: string;
  readonly document?: (document: Document) => void;
  readonly study?: (study: Study) => Study;
}

export interface CaseGroup {
  readonly title: string;
  readonly cases: readonly Case[];
}

const set =
  (...edits: readonly (readonly [path: string, value: unknown])[]) =>
  (document: Document): void => {
    for (const [path, value] of edits) {
      const steps = path.split("/").map(step => (/^\d+$/.test(step) ? Number(step) : step));
      if (value === undefined) document.deleteIn(steps);
      else document.setIn(steps, value);
    }
  };

type Change = (layer: Layer) => Partial<Material>;

const withMaterials =
  (change: Change) =>
  (study: Study): Study => ({
    ...study,
    treatments: study.treatments.map(t => ({
      ...t,
      section: {
        ...t.section,
        layers: t.section.layers.map(l => ({...l, material: {...l.material, ...change(l)}})),
      },
    })),
  });

/** Wheel moduli of the overlay's materials times a factor. */
const stiffer = (factor: number) =>
  withMaterials(({role, material}) =>
    role === "overlay" || role === "interlayer"
      ? {modulus: material.modulus.map(p => ({...p, modulus: p.modulus * factor}))}
      : {},
  );

const relaxed = (wanted: Layer["role"], factor: number) =>
  withMaterials(({role, material}) =>
    role === wanted
      ? {
          relaxationModulus: material.relaxationModulus * factor,
          seasonalRelaxationModulus: material.seasonalRelaxationModulus * factor,
        }
      : {},
  );

const foundation = (factor: number) =>
  withMaterials(({role, material}) =>
    role === "foundation" ? {modulus: material.modulus.map(p => ({...p, modulus: p.modulus * factor}))} : {},
  );

const warmer =
  (kelvin: number) =>
  (study: Study): Study =>
    study.weather
      ? {
          ...study,
          weather: {
            ...study.weather,
            temperature: study.weather.temperature.map(t => t + kelvin),
            dewPoint: study.weather.dewPoint?.map(t => t + kelvin) ?? null,
          },
        }
      : study;

const heavier =
  (factor: number) =>
  (study: Study): Study => ({
    ...study,
    traffic: {
      ...study.traffic,
      classes: study.traffic.classes.map(c => ({...c, wheels: c.wheels.map(w => ({...w, load: factor * w.load}))})),
    },
  });

const wandering =
  (deviation: number) =>
  (study: Study): Study => ({
    ...study,
    traffic: {
      ...study.traffic,
      classes: study.traffic.classes.map(c => ({...c, wander: {kind: "normal", deviation} as const})),
    },
  });

/** The same traffic as standard axles that the fourth-power law makes of it. */
function asStandardAxles(study: Study): Study {
  const {classes, standardAxle} = study.traffic;
  const passes = classes.reduce((sum, c) => sum + c.passesPerYear * standardAxleEquivalence(c, standardAxle), 0);
  const {growth, wander} = classes[0];
  const one = {...standardAxle, name: "standard axles", passesPerYear: passes, growth, wander};
  return {...study, traffic: {...study.traffic, classes: [one]}};
}

const columns = (hourly: Record<string, unknown>) => ["climate/hourly/columns", hourly] as const;
const TIMES = {date: "date", time: "time", temperature: "tair_C"};
const NIGHTS = Array.from({length: 24}, (_, h) => (h >= 22 || h < 6 ? 12.5 : 0));

const stiffness: CaseGroup = {
  title: "Stiffness of the asphalt",
  cases: [
    {name: "half the speed", document: document => scale(document, "traffic/speed_km_per_h", 0.5)},
    {name: "twice the speed", document: document => scale(document, "traffic/speed_km_per_h", 2)},
    {name: "wheel moduli of overlay and interlayer − 20 %", study: stiffer(0.8)},
    {name: "wheel moduli of overlay and interlayer + 20 %", study: stiffer(1.2)},
    {name: "overlay relaxes to three times as much", study: relaxed("overlay", 3)},
    {name: "interlayer relaxes to three times as much", study: relaxed("interlayer", 3)},
    {name: "temperature loads for 1 h in a day", document: set(["thermal_loading/daily_loading_time_h", 1])},
    {name: "temperature loads at 0 °C", document: set(["thermal_loading/temperature_C", 0])},
  ],
};

function scale(document: Document, path: string, factor: number): void {
  const steps = path.split("/");
  document.setIn(steps, factor * Number(document.getIn(steps)));
}

const climate: CaseGroup = {
  title: "Temperature",
  cases: [
    {
      name: "without dew point",
      document: set(columns({...TIMES, solar_W_per_m2: "ghi", wind_m_per_s: "wind_ms"})),
    },
    {name: "without sun, wind and dew point: by the air alone", document: set(columns(TIMES))},
    {name: "absorptivity 0.8 (0.9)", document: set(["surface", {absorptivity: 0.8}])},
    {name: "a climate 2 K warmer", study: warmer(2)},
    {name: "12 temperature bins (6)", document: set(["temperature_bins", {count: 12}])},
  ],
};

const traffic: CaseGroup = {
  title: "Traffic",
  cases: [
    {name: "all loads + 10 %", study: heavier(1.1)},
    {name: "all loads − 10 %", study: heavier(0.9)},
    {name: "wander of 150 mm", study: wandering(0.15)},
    {name: "wander of 350 mm", study: wandering(0.35)},
    {name: "all passes at night, 22 to 6 h", document: set(["traffic/by_hour_percent", NIGHTS])},
    {name: "all hours alike", document: set(["traffic/by_hour_percent", undefined])},
    {name: "as standard axles by the fourth-power law", study: asStandardAxles},
  ],
};

const condition: CaseGroup = {
  title: "Condition of the pavement",
  cases: [
    {name: "foundation − 30 %", study: foundation(0.7)},
    {name: "foundation + 30 %", study: foundation(1.3)},
    {name: "bond breaker, 250 mm on each side", document: set(["section/joint/unbonded_strip_mm", 250])},
    {
      name: "overlay not bonded to what lies below it",
      document: set(["section/layers/0/bond_below", "none"], ["treatments/1/changes/interlayer/bond_below", "none"]),
    },
    {
      name: "crack faces interlock, 50 MPa/mm",
      document: set(["section/crack_interlock_MPa_per_mm", 50]),
    },
    {name: "shear counts half", document: set(["section/shear_weight", 0.5])},
  ],
};

const fixedPressure: Case = {
  name: "spectra at fixed pressure in the place of fixed area",
  document: set(...[0, 1, 2].map(k => [`traffic/spectra/${k}/contact`, "fixed pressure"] as const)),
};

export const GROUPS: Readonly<Record<string, readonly CaseGroup[]>> = {
  "county-road.yaml": [stiffness, climate, {...traffic, cases: [...traffic.cases, fixedPressure]}, condition],
  "apron.yaml": [
    stiffness,
    climate,
    {
      ...traffic,
      cases: [
        ...traffic.cases.slice(0, 2),
        {name: "wander of 500 mm (773)", study: wandering(0.5)},
        {name: "wander of 1546 mm, as on a runway", study: wandering(1.546)},
        traffic.cases[4],
      ],
    },
    condition,
  ],
};

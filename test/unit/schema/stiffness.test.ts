import {readFileSync} from "node:fs";
import {describe, expect, test} from "vitest";
import {INVENTED_CURVES} from "../../../examples/stiffness/invent.ts";
import {modulusAt} from "../../../src/engine/section/index.ts";
import {loadingFrequency, modulusNorm, relaxationModulusAt} from "../../../src/engine/viscoelastic/index.ts";
import {type ReadOutcome, readStudy} from "../../../src/schema/index.ts";
import {csv, goodText, spoiled} from "./good-study.ts";

const year = csv();
const exampleText = readFileSync(new URL("../../../examples/stiffness/dense-asphalt.csv", import.meta.url), "utf8");

const tableLines = /modulus_by_temperature:\n( {6}- .*\n)+/.exec(goodText)![0];
const relaxed = "    relaxation_modulus_MPa: 700\n";
const traffic = "traffic:\n";
const tests = "master_curve: {tests: {file: stiff.csv}}\n";
const sigmoid =
  "sigmoid: {lowest_lg_MPa: 2.1, span: 2.35, location: -0.8, slope: 0.55}, shift: {WLF: {c1: 19, c2_K: 160}}, reference_temperature_C: 15";

/** The good study with a master curve in the place of the overlay's table. */
const curved = (curve: string, ...more: readonly (readonly [string, string])[]) =>
  spoiled([tableLines, curve], [traffic, `${traffic}  speed_km_per_h: 60\n`], ...more);

function read(text: string, table = exampleText): ReadOutcome {
  return readStudy(text, {fileName: "study.yaml", readCsv: path => (path === "stiff.csv" ? table : year)});
}

function good(text: string, table?: string) {
  const outcome = read(text, table);
  if (outcome.kind === "faults") throw new Error(JSON.stringify(outcome.faults, null, 1));
  return outcome;
}

function faults(text: string, table?: string) {
  const outcome = read(text, table);
  if (outcome.kind !== "faults") throw new Error("no fault was found");
  return outcome.faults;
}

const materialOf = (text: string, table?: string, layer = 0) =>
  good(text, table).study.treatments[0].section.layers[layer].material;

describe("moduli of a master curve", () => {
  test("given parameters: |E*| at the layer's frequency, sampled every degree", () => {
    const {modulus, masterCurve, name} = materialOf(curved(`master_curve: {parameters: {${sigmoid}}}\n`));
    expect(name).toBe("asphalt");
    expect(masterCurve).toMatchObject({origin: "parameters", file: null, fit: null, points: [], factor: 1});
    expect(masterCurve!.speed).toBeCloseTo(60 / 3.6, 12);
    // Middle of 80 mm at 60 km/h: lg t = 0.0005·40 − 0.2 − 0.94·lg 60, f = 1/(2πt), by hand
    const frequency = 10 ** -(0.02 - 0.2 - 0.94 * Math.log10(60)) / (2 * Math.PI);
    expect(masterCurve!.loadingFrequency).toBeCloseTo(frequency, 9);
    expect(modulus.map(p => p.temperature)).toEqual(Array.from({length: 121}, (_, k) => k - 40));
    // At 15 °C: lg E = 2.1 + 2.35/(1 + exp(−0.8 − 0.55·lg f)) in MPa
    const lg = 2.1 + 2.35 / (1 + Math.exp(-0.8 - 0.55 * Math.log10(frequency)));
    expect(modulus[55].modulus).toBeCloseTo(10 ** (lg + 6), -2);
  });

  test("between the degrees ln E is linear to a thousandth", () => {
    for (const [name, curve] of Object.entries(INVENTED_CURVES)) {
      const table = readFileSync(new URL(`../../../examples/stiffness/${name}.csv`, import.meta.url), "utf8");
      const material = materialOf(curved(tests, [relaxed, ""]), table);
      const {curve: fitted, loadingFrequency: f} = material.masterCurve!;
      expect(fitted.model.kind).toBe(curve.model.kind);
      for (let t = -39.5; t < 80; t++) {
        const ratio = modulusAt(material, t) / modulusNorm(fitted, t, f);
        expect(Math.abs(ratio - 1), `${name} at ${t} °C`).toBeLessThan(1e-3);
      }
    }
  });

  test("tests: fitted, with points in SI, and the modulus that is true within the scatter", () => {
    const {masterCurve, modulus} = materialOf(curved(tests, [relaxed, ""]));
    expect(masterCurve).toMatchObject({origin: "tests", file: "stiff.csv"});
    expect(masterCurve!.points).toHaveLength(36);
    expect(masterCurve!.points[0]).toMatchObject({temperature: -10, frequency: 0.1});
    expect(masterCurve!.points[0].modulus).toBeGreaterThan(1e9);
    expect(masterCurve!.points[0].phase).toBeLessThan(Math.PI / 4);
    const truth = modulusNorm(INVENTED_CURVES["dense-asphalt"], 15, masterCurve!.loadingFrequency);
    expect(modulus[55].modulus / truth).toBeCloseTo(1, 1.5); // 2 % of scatter over thirty readings
  });

  test("model and shift: 2S2P1D with phase, sigmoid without, or as asked for", () => {
    const kind = (text: string, table?: string) => materialOf(text, table).masterCurve!.curve;
    const bare = exampleText.replaceAll(/,[^,\n]*$/gm, "");
    expect(kind(curved(tests)).model.kind).toBe("2S2P1D");
    expect(kind(curved(tests), bare).model.kind).toBe("sigmoid");
    const asked =
      "master_curve: {tests: {file: stiff.csv, model: Huet-Sayegh, shift: Arrhenius, reference_temperature_C: 20}}\n";
    const curve = kind(curved(asked));
    expect(curve).toMatchObject({model: {beta: Infinity}, shift: {kind: "Arrhenius"}, referenceTemperature: 20});
  });

  test("columns may be named otherwise, and other columns may stand beside", () => {
    const lines = exampleText.split("\n").filter(line => line !== "");
    const table = ["no,T,f,E,phi", ...lines.slice(1).map((line, i) => `${i},${line}`)].join("\r\n");
    const named =
      "master_curve: {tests: {file: stiff.csv, columns: {temperature_C: T, frequency_Hz: f, modulus_MPa: E, phase_deg: phi}}}\n";
    expect(materialOf(curved(named), table).masterCurve!.points).toHaveLength(36);
    const semicolons = exampleText.replaceAll(",", ";");
    expect(materialOf(curved(tests), semicolons).masterCurve!.points).toHaveLength(36);
  });

  test("relaxation moduli follow from the curve, at the times and the temperature of thermal loading", () => {
    const text = curved(tests, [relaxed, ""]);
    const at = (hours: number, temperature: number, {curve, prony} = materialOf(text).masterCurve!) =>
      relaxationModulusAt(curve, prony, {time: 3600 * hours, temperature});
    const mean = good(text).study.weather!.temperature.reduce((sum, t) => sum + t / 8760, 0);
    const own = materialOf(text);
    expect(own.relaxationModulus).toBe(own.masterCurve!.relaxation!.daily.modulus);
    expect(own.relaxationModulus).toBeCloseTo(at(6, mean), 3);
    expect(own.seasonalRelaxationModulus).toBeCloseTo(at(2000, mean), 3);
    const set = `${text}thermal_loading: {daily_loading_time_h: 3, seasonal_loading_time_h: 1000, temperature_C: -5}\n`;
    expect(materialOf(set).relaxationModulus).toBe(at(3, -5));
    expect(materialOf(set).seasonalRelaxationModulus).toBe(at(1000, -5));
    expect(good(set).warnings).toEqual([]);
  });

  test("a relaxation modulus that is given counts, for both", () => {
    const own = materialOf(curved(tests));
    expect([own.relaxationModulus, own.seasonalRelaxationModulus]).toEqual([7e8, 7e8]);
    expect(own.masterCurve!.relaxation).toBeNull();
  });

  test("estimated from the mix, and said so", () => {
    const mix =
      "retained_19_mm_percent: 0, retained_9_5_mm_percent: 25, retained_4_75_mm_percent: 45, passing_0_075_mm_percent: 6, air_voids_percent: 5, effective_binder_percent: 11";
    const byTests = `master_curve: {estimate: {binder: {penetration_tenth_mm: 60, softening_point_C: 51}, ${mix}}}\n`;
    const byLine = `master_curve: {estimate: {binder: {viscosity_A: 10.98, viscosity_VTS: -3.68}, ${mix}}}\n`;
    for (const curve of [byTests, byLine]) {
      const own = materialOf(curved(curve, [relaxed, ""]));
      expect(own.masterCurve).toMatchObject({origin: "estimate", curve: {measured: null, referenceTemperature: 15}});
      expect(modulusAt(own, 15)).toBeGreaterThan(1e9); // a dense mix of 60 pen binder: some GPa
      expect(modulusAt(own, 15)).toBeLessThan(2e10);
    }
  });

  test("a treated jointed layer of asphalt: all moduli of its curve times the factor, told with it", () => {
    const cracked = curved(
      tests,
      [relaxed, ""],
      ["material: cemented", "material: asphalt"],
      [
        "  - name: with interlayer\n    changes:\n",
        "  - name: with interlayer\n    changes:\n      jointed_modulus_factor: 0.4\n",
      ],
    );
    const [plain, treated] = good(cracked).study.treatments.map(
      t => t.section.layers.find(l => l.role === "jointed")!.material,
    );
    expect(treated.name).toBe("asphalt × 0.4");
    expect(treated.masterCurve!.factor).toBe(0.4);
    // The same depth, so the same frequency: only the factor differs.
    expect(treated.masterCurve!.loadingFrequency).toBe(plain.masterCurve!.loadingFrequency);
    expect(modulusAt(treated, 15) / modulusAt(plain, 15)).toBeCloseTo(0.4, 12);
    expect(treated.relaxationModulus / plain.relaxationModulus).toBeCloseTo(0.4, 12);
    expect(treated.masterCurve!.relaxation!.seasonal.modulus).toBe(treated.seasonalRelaxationModulus);
  });

  test("frequency by depth, layer by layer of one material; or one for all", () => {
    const layers: readonly [string, string] = [
      "{name: overlay, role: overlay, material: asphalt, thickness_mm: 80}",
      "{name: wearing, role: overlay, material: asphalt, thickness_mm: 40}\n    - {name: binder, role: overlay, material: asphalt, thickness_mm: 60}",
    ];
    const text = curved(tests, layers);
    const [upper, lower] = [materialOf(text), materialOf(text, undefined, 1)];
    expect(upper.name).toBe(lower.name);
    const speed = 60 / 3.6;
    expect(upper.masterCurve!.loadingFrequency).toBe(loadingFrequency({speed, depth: 0.02}));
    expect(lower.masterCurve!.loadingFrequency).toBeCloseTo(loadingFrequency({speed, depth: 0.07}), 12);
    expect(modulusAt(lower, 20)).toBeLessThan(modulusAt(upper, 20));
    const one = text.replace("speed_km_per_h: 60", "loading_frequency_Hz: 10");
    expect(materialOf(one).masterCurve).toMatchObject({loadingFrequency: 10, speed: null});
    expect(materialOf(one).modulus).toEqual(materialOf(one, undefined, 1).modulus);
  });
});

describe("faults of the document", () => {
  const one = (text: string, table?: string) => {
    const found = faults(text, table);
    expect(found).toHaveLength(1);
    return found[0];
  };
  const at = "materials.asphalt.master_curve";

  test("no speed", () => {
    const fault = one(spoiled([tableLines, tests]));
    expect(fault).toMatchObject({path: "traffic.speed_km_per_h", problem: expect.stringContaining("asphalt")});
  });
  test("no speed is needed where no layer uses the curve", () => {
    const spare = `  spare: {kind: asphalt, master_curve: {tests: {file: stiff.csv}}, poisson: 0.35, expansion_per_C: 25e-6}\nsection:\n`;
    expect(good(spoiled(["section:\n", spare])).warnings).toMatchObject([{path: "materials.spare"}]);
  });
  test("speed and frequency", () => {
    const text = curved(tests, ["speed_km_per_h: 60\n", "speed_km_per_h: 60\n  loading_frequency_Hz: 10\n"]);
    expect(one(text)).toMatchObject({path: "traffic.loading_frequency_Hz", problem: expect.stringContaining("twice")});
  });
  test("a speed or a depth for which the loading time is not known", () => {
    const at = (speed: number) => curved(tests, ["speed_km_per_h: 60", `speed_km_per_h: ${speed}`]);
    expect(good(at(200)).kind).toBe("study");
    expect(one(at(201))).toMatchObject({
      path: "traffic.speed_km_per_h",
      accepted: expect.stringMatching(/^1 to 200 km\/h .*loading_frequency_Hz/),
    });
    const deep = curved(tests, ["thickness_mm: 80}", "thickness_mm: 2100}"]);
    expect(faults(deep)[0]).toMatchObject({path: "treatments[0]", problem: expect.stringContaining("of overlay")});
  });
  test("curve and table", () => {
    const text = curved(`${tests}    ${tableLines}`);
    expect(one(text)).toMatchObject({path: at, problem: expect.stringContaining("twice")});
  });
  test("neither tests nor parameters nor an estimate; and two of them", () => {
    expect(one(curved("master_curve: {}\n"))).toMatchObject({path: at});
    const both = `master_curve: {tests: {file: stiff.csv}, parameters: {${sigmoid}}}\n`;
    expect(one(curved(both))).toMatchObject({path: at, found: "tests and parameters"});
  });
  test("no shift, two shifts", () => {
    const none = sigmoid.replace("{WLF: {c1: 19, c2_K: 160}}", "{}");
    expect(one(curved(`master_curve: {parameters: {${none}}}\n`))).toMatchObject({path: `${at}.parameters.shift`});
  });
  test("parameters that contradict one another", () => {
    const springs =
      "2S2P1D: {static_modulus_MPa: 50000, glassy_modulus_MPa: 30000, delta: 2, k: 0.6, h: 0.5, beta: 200, time_s: 0.01}";
    const found = faults(
      curved(
        `master_curve: {parameters: {${springs}, shift: {Arrhenius: {activation_energy_kJ_per_mol: 200}}, reference_temperature_C: 15}}\n`,
      ),
    );
    expect(found.map(f => f.path)).toEqual([
      `${at}.parameters["2S2P1D"].k`.replace('["2S2P1D"]', ".2S2P1D"),
      `${at}.parameters.2S2P1D.static_modulus_MPa`,
    ]);
  });
  test("a shift with its pole within the winter", () => {
    const near = sigmoid.replace("c2_K: 160", "c2_K: 50");
    expect(faults(curved(`master_curve: {parameters: {${near}}}\n`))).toMatchObject([
      {path: `${at}.parameters`, accepted: expect.stringContaining("pole")},
    ]);
  });
  test("a binder by half", () => {
    const mix =
      "retained_19_mm_percent: 0, retained_9_5_mm_percent: 25, retained_4_75_mm_percent: 45, passing_0_075_mm_percent: 6, air_voids_percent: 5, effective_binder_percent: 11";
    const text = curved(`master_curve: {estimate: {binder: {penetration_tenth_mm: 60}, ${mix}}}\n`);
    expect(one(text)).toMatchObject({path: `${at}.estimate.binder`, accepted: expect.stringContaining("softening")});
  });
  test("bins beyond a curve's temperatures", () => {
    const text = `${curved(tests)}temperature_bins: [{temperature_C: -45, share_percent: 50}, {temperature_C: 20, share_percent: 50}]\n`;
    expect(one(text)).toMatchObject({path: "temperature_bins[0].temperature_C"});
  });
  test("seasons shorter than days", () => {
    const text = `${curved(tests, [relaxed, ""])}thermal_loading: {daily_loading_time_h: 20, seasonal_loading_time_h: 10}\n`;
    expect(faults(text)).toMatchObject([{path: "thermal_loading.seasonal_loading_time_h"}]);
  });
  test("thermal loading without effect", () => {
    expect(good(`${goodText}thermal_loading: {daily_loading_time_h: 8}\n`).warnings).toMatchObject([
      {path: "thermal_loading", problem: expect.stringContaining("no effect")},
    ]);
  });
});

describe("faults of the file", () => {
  const lines = exampleText.trimEnd().split("\n");
  /** The example with some lines replaced, numbered as in the file. */
  const changed = (replacements: Readonly<Record<number, string>>) =>
    lines.map((line, i) => replacements[i + 1] ?? line).join("\n");
  const at = "materials.asphalt.master_curve.tests";
  const found = (table: string) => faults(curved(tests), table);

  test("every bad row with its line, all at once", () => {
    const table = changed({
      2: "-10,0.1,n/a,18",
      5: "-10,0,14000,10",
      9: "5,0.3,-6000,20",
      10: "5,1,8000,95",
      12: ",10,12000,12",
      20: "500,3,6000,20",
    });
    expect(found(table).map(f => [f.path, f.problem])).toEqual([
      [`${at}.columns.temperature_C`, "no value in line 12 of the file"],
      [`${at}.columns.temperature_C`, "impossible values in line 20 of the file"],
      [`${at}.columns.frequency_Hz`, "impossible values in line 5 of the file"],
      [`${at}.columns.modulus_MPa`, "not a number in line 2 of the file"],
      [`${at}.columns.phase_deg`, "impossible values in line 10 of the file"],
    ]);
    const negative = found(changed({9: "5,0.3,-6000,20", 11: "5,3,0,15"}));
    expect(negative).toMatchObject([
      {problem: "impossible values in lines 9 and 11 of the file", found: "-6000 in line 9"},
    ]);
  });
  test("no file, no column, no rows", () => {
    expect(found("T,f\n1,2\n").map(f => f.path)).toEqual([
      `${at}.columns.temperature_C`,
      `${at}.columns.frequency_Hz`,
      `${at}.columns.modulus_MPa`,
    ]);
    expect(found(`${lines[0]}\n`)).toMatchObject([{path: `${at}.file`, problem: expect.stringContaining("no rows")}]);
  });
  test("too few rows, one temperature", () => {
    expect(found(lines.slice(0, 6).join("\n")).map(f => f.problem)).toEqual([
      "there are too few readings for a curve",
      "how the curve shifts with temperature cannot be told from one temperature",
    ]);
    expect(found(lines.slice(0, 7).join("\n"))).toHaveLength(1);
  });
  test("999 MPa is a modulus, and a phase may be missing in some rows", () => {
    const table = changed({28: lines[27].replace(/,[^,]*,[^,]*$/, ",999,"), 3: lines[2].replace(/[^,]*$/, "")});
    const {points} = materialOf(curved(tests), table).masterCurve!;
    expect(points[26]).toMatchObject({modulus: 999e6, phase: null});
    expect(points[1].phase).toBeNull();
  });
  test("warnings: the same reading twice, a modulus that falls with frequency, phases in radians", () => {
    const warned = (table: string) => good(curved(tests), table).warnings.map(w => w.problem);
    expect(warned(exampleText)).toEqual([]);
    expect(warned(`${exampleText}${lines[1]}\n`)).toEqual([
      "temperature and frequency of an earlier row stand again in line 38 of the file",
    ]);
    const cells = lines[4].split(",");
    const lower = changed({5: [cells[0], cells[1], Number(lines[3].split(",")[2]) * 0.93, cells[3]].join(",")});
    expect(warned(lower)).toContainEqual("the modulus falls with frequency in line 5 of the file");
    const slightly = changed({5: [cells[0], cells[1], Number(lines[3].split(",")[2]) * 0.97, cells[3]].join(",")});
    expect(warned(slightly).filter(w => w.includes("falls"))).toEqual([]);
    const radians = lines.map((l, i) => (i === 0 ? l : l.replace(/[^,]*$/, p => (Number(p) / 57.3).toFixed(3))));
    expect(warned(radians.join("\n"))).toContainEqual("the phases look like radians");
  });
});

import {describe, expect, test} from "vitest";
import {readStudy} from "../../../src/schema/index.ts";
import {csv, faults, goodText, spoiled, study} from "./good-study.ts";

const spectrum = (more: string): [string, string] => ["  load_classes:", `  spectra:\n    - ${more}\n  load_classes:`];
const dual =
  "{group: single axle with dual tyres, loads: [{load_kN: 80, passes_per_year: 1000}, {load_kN: 120, passes_per_year: 200}]}";

describe("a spectrum", () => {
  test("becomes a class a load, on patches that stay", () => {
    const {classes, standardAxle} = study(spoiled(spectrum(dual))).study.traffic;
    const [, light, heavy] = classes;
    expect([light.name, heavy.name]).toEqual([
      "single axle with dual tyres 80 kN",
      "single axle with dual tyres 120 kN",
    ]);
    expect(light.wheels).toEqual(standardAxle.wheels); // 20 kN at 0.7 MPa on each of four tyres
    expect(heavy.wheels.map(w => w.load)).toEqual([30e3, 30e3, 30e3, 30e3]);
    expect(heavy.wheels[0]).toMatchObject({length: light.wheels[0].length, width: light.wheels[0].width});
    expect(light).toMatchObject({passesPerYear: 1000, growth: 0, wander: {kind: "normal", deviation: 0.25}});
  });

  test("at fixed pressure the patch grows with the load", () => {
    const {classes} = study(spoiled(spectrum(dual.replace("loads", "contact: fixed pressure, loads")))).study.traffic;
    for (const {wheels} of classes.slice(1, 3))
      expect(wheels[0].load / (wheels[0].length * wheels[0].width)).toBeCloseTo(0.7e6, 3);
  });

  test("wheels of one's own need their load and pressure", () => {
    const own =
      "{name: bus, arrangement: {axles: 1, tyres_per_side: 1, track_mm: 2000}, loads: [{load_kN: 70, passes_per_year: 10}]}";
    expect(faults(spoiled(spectrum(own)))).toMatchObject([
      {path: "traffic.spectra[0]", problem: expect.stringMatching(/tyres/)},
    ]);
    const whole = own.replace("loads", "wheel_load_kN: 35, pressure_MPa: 0.8, loads");
    expect(study(spoiled(spectrum(whole))).study.traffic.classes[1].name).toBe("bus 70 kN");
  });

  test("reads its loads from a file, and names the lines that it cannot use", () => {
    const text = spoiled(spectrum("{group: tandem axle with dual tyres, file: tandem.csv}"));
    const reading = (table: string) =>
      readStudy(text, {fileName: "s.yaml", readCsv: name => (name === "tandem.csv" ? table : csv())});
    const good = reading("load_kN,passes_per_year\n100,5000\n160,800\n");
    expect(good.kind === "study" && good.study.traffic.classes.map(c => c.passesPerYear)).toEqual([
      60000, 5000, 800, 1000,
    ]);
    const bad = reading("load_kN,passes_per_year\n100,5000\n-5,10\nx,3\n160,\n");
    expect(bad.kind === "faults" && bad.faults.map(f => f.problem)).toEqual(["not a number in line 4 of the file"]);
    const worse = reading("load_kN,passes_per_year\n100,5000\n-5,10\n160,\n");
    expect(worse.kind === "faults" && worse.faults.map(f => [f.path, f.found])).toEqual([
      ["traffic.spectra[0].columns.load_kN", "-5 in line 3"],
      ["traffic.spectra[0].columns.passes_per_year", "nothing in line 4"],
    ]);
  });

  const wrong: [what: string, spectrum: string, path: string, says: RegExp][] = [
    ["no loads", "{group: dual wheel gear}", "traffic.spectra[0]", /no loads/],
    ["loads twice", dual.replace("loads:", "file: a.csv, loads:"), "traffic.spectra[0].file", /twice/],
    ["a load twice", dual.replace("120", "80"), "traffic.spectra[0].loads[1]", /stands twice/],
    ["tonnes for a tyre", dual.replace("120", "2000"), "traffic.spectra[0].loads[1]", /a tyre would carry 500 kN/],
    [
      "two geometries",
      dual.replace("loads:", "wheels: [{x_mm: 0, y_mm: 0}], loads:"),
      "traffic.spectra[0].wheels",
      /twice/,
    ],
    ["an unknown group", dual.replace("dual tyres", "dual tires"), "traffic.spectra[0].group", /./],
    [
      "columns of no file",
      dual.replace("loads:", "columns: {load_kN: a, passes_per_year: b}, loads:"),
      "traffic.spectra[0].columns",
      /no file/,
    ],
  ];
  for (const [what, text, path, says] of wrong)
    test(`${what}: one fault`, () => {
      const found = faults(spoiled(spectrum(text)));
      expect(found.map(f => f.path)).toEqual([path]);
      expect(found[0].problem).toMatch(says);
    });
});

describe("where and when it passes", () => {
  const wander = (text: string): [string, string] => ["wander_mm: 770", text];

  test("wander by kind of pavement, even, and measured", () => {
    const of = (text: string) => study(spoiled(wander(text))).study.traffic.classes[1].wander;
    expect(of("wander: taxiway")).toEqual({kind: "normal", deviation: 0.773});
    expect(of("wander: {uniform_mm: 600}")).toEqual({kind: "uniform", width: 0.6});
    const cells = "[{from_mm: -300, to_mm: 0, share_percent: 40}, {from_mm: 0, to_mm: 200, share_percent: 60}]";
    expect(of(`wander: {histogram: ${cells}}`)).toEqual({
      kind: "histogram",
      edges: [-0.3, 0, 0.2],
      shares: [0.4, 0.6],
    });
  });

  test("wander that is none", () => {
    const of = (text: string) => faults(spoiled(wander(text))).map(f => [f.path, f.problem]);
    expect(of("growth_percent: 0")).toEqual([["traffic.load_classes[0]", "how far the passes wander is not given"]]);
    expect(of("wander_mm: 770\n      wander: road")).toEqual([
      ["traffic.load_classes[0].wander", "the wander is given twice"],
    ]);
    const gap = "[{from_mm: -300, to_mm: -10, share_percent: 40}, {from_mm: 0, to_mm: 0, share_percent: 50}]";
    expect(of(`wander: {histogram: ${gap}}`)).toEqual([
      ["traffic.load_classes[0].wander.histogram[1].to_mm", "the cell has no width"],
      ["traffic.load_classes[0].wander.histogram", "the shares of the histogram do not add up to all passes"],
    ]);
  });

  test("shares of lane, hours and months", () => {
    const hours = Array.from({length: 24}, () => 4.17).join(", "); // 100.08: rounding
    const months = "[10, 10, 10, 10, 10, 10, 10, 10, 5, 5, 5, 5]";
    const text = spoiled([
      "  load_classes:",
      `  design_lane: {direction_percent: 50, lane_percent: 80}\n  by_hour_percent: [${hours}]\n  by_month_percent: ${months}\n  load_classes:`,
    ]);
    const {classes, calendar} = study(text).study.traffic;
    expect(classes[0].passesPerYear).toBe(0.5 * 0.8 * 60000);
    expect(calendar.hours![5]).toBeCloseTo(1 / 24, 15);
    expect(calendar.months![0]).toBe(0.1);
    const off = text.replace(months, "[1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1]").replace(hours, hours.slice(6));
    expect(faults(off).map(f => [f.path, f.problem])).toEqual([
      ["traffic.by_hour_percent", "24 shares are needed"],
      ["traffic.by_month_percent", "the shares do not add up to all passes"],
    ]);
    const undated = text.replace("timestamp: when}", "solar_W_per_m2: t}\n    start_hour: 0");
    expect(faults(undated).map(f => f.path)).toContain("traffic.by_month_percent");
  });

  test("gears by name", () => {
    const text = goodText.replace("wheels: [{x_mm: 0, y_mm: 0}, {x_mm: 0, y_mm: 1400}]", "group: triple tandem gear");
    expect(study(text).study.traffic.classes[1].wheels).toHaveLength(6);
  });
});

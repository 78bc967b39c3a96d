/** Numbers of charts as CSV: read back by a parser of its own, held against closed forms of the invented results. */
import {parse} from "csv-parse/sync";
import {describe, expect, test} from "vitest";
import {cycleBins} from "../../../src/report/charts/index.ts";
import * as data from "../../../src/report/data/index.ts";
import {BEAM, COMPARISON, COSTS, EVIL, FATIGUE, LAWS, PREDICTION, RISK, SPECIMENS, VIEW} from "./dataFixture.ts";
import {fixture} from "./fixture.ts";

const rowsOf = (text: string): Record<string, string>[] => parse(text, {columns: true, bom: false});

const result = fixture();
const treated = result.treatments[1]!;

describe("lives and what they come from", () => {
  test("lives: a row a mechanism, with what governs and what is open", () => {
    const rows = rowsOf(data.livesCsv(result));
    expect(rows.length).toBe(10); // three of reflection and two ordinary ones, twice
    expect(rows.filter(r => r.governs === "yes").map(r => Number(r.life_years))).toEqual([6.2, 17.4]);
    expect(
      rows.find(r => r.treatment === "Interlayer 10 mm" && r.mechanism === "reflection by temperature"),
    ).toMatchObject({
      life_years: "412",
      censored: "no",
      layer: "",
    });
    expect(rowsOf(data.livesCsv(fixture({censored: true}))).every(r => r.censored === "yes")).toBe(true);
  });

  test("layers from the surface down", () => {
    const rows = rowsOf(data.layersCsv([treated.treatment]));
    expect(rows.map(r => [r.layer, Number(r.top_mm), Number(r.thickness_mm)])).toEqual([
      ["Wearing course", 0, 40],
      ["Binder course", 40, 30],
      ["Interlayer", 70, 10],
      ["Cracked base", 80, 200],
      ["Subgrade", 280, 5000],
    ]);
    expect(rows[0]).toMatchObject({least_modulus_MPa: "1100", largest_modulus_MPa: "21000", role: "overlay"});
  });

  test("tip strain, bins, classes", () => {
    const strain = rowsOf(data.tipStrainCsv([treated]));
    expect(strain.length).toBe(12 * 15);
    expect(strain[0]).toEqual({
      treatment: "Interlayer 10 mm",
      front: "interlayer",
      cause: "traffic",
      curve: "single, 5 °C",
      crack_length_mm: "0",
      tip_strain_microstrain: "1140", // 0.6·1900
    });
    expect(rowsOf(data.binsCsv(treated.bins))[0]).toEqual({temperature_C: "3.2", share_of_passes_percent: "25"});
  });

  test("temperatures: days, hours at depth, envelope", () => {
    const view = {weather: result.study.weather!, temperatures: treated.temperatures!};
    const days = rowsOf(data.temperatureCsv(view));
    expect(days.length).toBe(365);
    const first = treated.temperatures!.surface.subarray(0, 24);
    expect(Number(days[0]!.surface_lowest_C)).toBeCloseTo(Math.min(...first), 6);
    expect(Number(days[0]!.surface_highest_C)).toBeCloseTo(Math.max(...first), 6);
    expect(Number(days[0]!.surface_mean_C)).toBeCloseTo(first.reduce((a, b) => a + b) / 24, 6);
    const surfaceOnly = {...view, weather: {...view.weather, kind: "surface" as const}};
    expect(rowsOf(data.temperatureCsv(surfaceOnly))[0]!.air_mean_C).toBe("");
    const {layers} = treated.treatment.section;
    const hours = rowsOf(data.depthTemperaturesCsv(treated.temperatures!.atDepth, layers, [2, 3]));
    expect(hours.length).toBe(24);
    expect(hours[6]!.day).toBe("2.25");
    expect(Number(hours[6]!.surface_C)).toBeCloseTo(treated.temperatures!.atDepth[0]!.temperature[54]!, 6);
    expect(Object.keys(hours[0]!)[2]).toBe("middle of Wearing course, 20 mm, C");
    expect(rowsOf(data.depthTemperaturesCsv(treated.temperatures!.atDepth, layers)).length).toBe(8760);
    const envelope = rowsOf(data.envelopeCsv(treated.temperatures!));
    expect(envelope[0]).toEqual({depth_mm: "0", lowest_C: "-12", mean_C: "17", highest_C: "47"}); // 16 − 28, 19 + 28
    expect(envelope.at(-1)!.depth_mm).toBe("1000");
  });

  test("thermal cycles: all of them, and all of the damage", () => {
    const cycles = treated.thermalCycles!;
    const rows = rowsOf(data.cyclesCsv(cycleBins(cycles, 4)));
    const sum = (key: string) => rows.reduce((total, r) => total + Number(r[key]), 0);
    expect(sum("cycles_per_year")).toBeCloseTo(
      cycles.perYear.reduce((a, b) => a + b),
      5,
    );
    expect(sum("share_of_thermal_damage_percent")).toBeCloseTo(100, 5);
    expect(rows.at(-1)!.range_to_microstrain).toBe("900");
  });
});

test("costs: discounted and added up", () => {
  const rows = rowsOf(data.costsCsv(COSTS));
  // Present worth P = F/(1 + r)^t, its definition.
  const worths = [20, 30 / 1.05 ** 10, -5 / 1.05 ** 20];
  for (const [k, row] of rows.entries()) expect(Number(row.present_worth_per_m2)).toBeCloseTo(worths[k]!, 7);
  expect(Number(rows[2]!.cumulated_per_m2)).toBeCloseTo(worths[0]! + worths[1]! + worths[2]!, 7);
  expect(rows[2]).toMatchObject({payment: "residual", amount_per_m2: "-5", currency: "€"});
});

test("samples: fan, survival, swings", () => {
  expect(rowsOf(data.fanCsv(RISK))[1]).toEqual({
    treatment: `'${EVIL}`,
    years: "10",
    cracked_depth_percent_at_10_percent: "10",
    cracked_depth_percent_at_50_percent: "25",
    cracked_depth_percent_at_90_percent: "60",
  });
  const survival = rowsOf(data.survivalCsv([{name: "a", years: [8, Infinity, 2, 4]}]));
  expect(survival.map(r => [r.life_years, r.samples_that_live_longer_percent])).toEqual([
    ["2", "75"],
    ["4", "50"],
    ["8", "25"],
  ]);
  const swing = {name: "traffic", low: 5, high: 20, share: 0.4};
  expect(rowsOf(data.swingsCsv([swing], {quantity: "life_years", base: 10}))[0]).toEqual({
    input: "traffic",
    life_years_as_in_the_study: "10",
    life_years_at_low_input: "5",
    life_years_at_high_input: "20",
    share_percent: "40",
  });
});

describe("laboratory", () => {
  test("specimens and lines", () => {
    expect(
      rowsOf(data.specimensCsv(FATIGUE)).map(r => [r.strain_microstrain, r.cycles, r.run_out, r.set_aside]),
    ).toEqual([
      ["100", "1000000", "yes", ""],
      ["200", "30000", "no", "'+slipped"],
    ]);
    const lines = rowsOf(data.fatigueLinesCsv(FATIGUE, 0.95));
    expect(lines.length).toBe(1);
    expect(lines[0]).toMatchObject({
      line_low_cycles: "800000",
      specimen_high_cycles: "2000000",
      probability_percent: "95",
    });
    expect(rowsOf(data.comparisonCsv(COMPARISON))[0]).toMatchObject({ratio: "3", low: "2", extrapolated: "yes"});
    expect(rowsOf(data.historiesCsv(SPECIMENS)).map(r => [r.modulus_MPa, r.ratio_to_initial])).toEqual([
      ["8000", "1"],
      ["4000", "0.5"],
    ]);
  });

  test("beams: read with both faces, smoothed, fitted", () => {
    const rows = rowsOf(data.beamCsv(BEAM)).map(r => [
      r.front,
      r.length_is,
      r.passes,
      r.length_mm,
      r.low_mm,
      r.high_mm,
    ]);
    expect(rows).toEqual([
      ["lower", "read", "1000", "10", "8", "12"],
      ["lower", "smoothed", "1000", "11", "", ""],
      ["lower", "read", "2000", "20", "", ""], // one face only
      ["lower", "smoothed", "2000", "19", "", ""],
      ["lower", "fitted", "0", "1", "", ""],
      ["upper", "fitted", "0", "2", "", ""],
    ]);
    expect(rowsOf(data.predictionsCsv(PREDICTION))[0]).toMatchObject({
      observed_before_passes: "",
      predicted_high_passes: "Infinity",
      within: "no",
    });
    expect(rowsOf(data.growthLawsCsv(LAWS)).map(r => [r.growth_mm_per_cycle, r.met_in_beams])).toEqual([
      ["0.000001", "no"],
      ["0.01", "yes"],
    ]);
  });

  test("master curve, shift, readings", () => {
    const rows = rowsOf(data.masterCurveCsv(VIEW));
    const at = rows[40]!;
    const lg = Math.log10(Number(at.reduced_frequency_Hz));
    // Relative to the nine digits that are written.
    expect(Number(at.modulus_MPa) / 10 ** (1 + 3 / (1 + Math.exp(-0.5 * lg)))).toBeCloseTo(1, 7);
    const [storage, loss] = [Number(at.storage_MPa), Number(at.loss_MPa)];
    expect(Math.hypot(storage, loss)).toBeCloseTo(Number(at.modulus_MPa), 4);
    expect((Math.atan2(loss, storage) * 180) / Math.PI).toBeCloseTo(Number(at.phase_degrees), 5);
    const shift = rowsOf(data.shiftCsv({...VIEW, points: []}));
    expect(Number(shift.find(r => r.temperature_C === "15")!.lg_shift_factor)).toBe(0); // at the reference
    // lg a_T = −C₁(T − T_r)/(C₂ + T − T_r) = −10·35/135 at 50 °C
    expect(Number(shift.at(-1)!.lg_shift_factor)).toBeCloseTo(-350 / 135, 7);
    expect(rowsOf(data.modulusReadingsCsv(VIEW))[0]).toEqual({
      temperature_C: "15",
      frequency_Hz: "10",
      reduced_frequency_Hz: "10",
      modulus_MPa: "5000",
      phase_degrees: "",
    });
  });

  test("bowl", () => {
    const sensor = {
      offset: 0.3,
      measured: 2e-4,
      repeatError: null,
      deviation: 2e-6,
      fitted: 1.9e-4,
      surfaceModulus: 2e8,
      fittedSurfaceModulus: 2.1e8,
    };
    expect(rowsOf(data.bowlCsv([sensor]))[0]).toEqual({
      offset_mm: "300",
      measured_micrometres: "200",
      deviation_micrometres: "2",
      fitted_micrometres: "190",
      surface_modulus_MPa: "200",
      fitted_surface_modulus_MPa: "210",
    });
  });
});

import {describe, expect, test} from "vitest";
import {
  bendingConstants,
  compareLives,
  complexModulus,
  fatigueLines,
  midSpanRatio,
  type SpecimenShape,
  swingingMass,
} from "../../src/engine/laboratory/index.ts";
import {
  censoredLine,
  coefficientInterval,
  fQuantile,
  lackOfFit,
  lineAt,
  lineBand,
  profileInterval,
  straightLine,
  tQuantile,
} from "../../src/engine/statistics/index.ts";
import {type Comparison, verificationTable} from "../table.ts";
import {deflections, prismMassRatio, strainsOf, trapezoidMassRatio} from "./beamTheory.ts";
import {drawnProgrammes, ORDINARY, specimen} from "./programmes.ts";
import {E739, E739_LEVELS, motorPoints, NORRIS} from "./published.ts";

const {compare, between, heading, page} = verificationTable(
  "laboratory",
  "Bending fatigue in the laboratory",
  "Constants of bending specimens against beam theory, lines and bands against published examples.",
);

type Common = Pick<Comparison, "source" | "standing" | "unit" | "tolerance">;

/** Rows [name, expected, computed] that share everything else. */
function compareAll(common: Common & {absolute?: boolean}, rows: readonly (readonly [string, number, number])[]): void {
  for (const [name, expected, computed] of rows) compare({...common, name, expected, computed});
}

const trapezoid = (B: number, b: number, h: number, e: number): SpecimenShape => ({
  kind: "trapezoid",
  baseWidth: B / 1000,
  topWidth: b / 1000,
  height: h / 1000,
  thickness: e / 1000,
});

describe("two-point bending", () => {
  // B, b, h, e [mm]; height above the clamp [mm], K [1/mm], γ [1/mm]: closed forms worked out by another program.
  const rows = [
    [56, 25, 250, 25, 48.387097, 7.712388576e-4, 25.09577742],
    [70, 25, 250, 25, 111.111111, 8.993523601e-4, 14.82548323],
    [60, 25, 250, 25, 71.428571, 8.033016344e-4, 21.34049826],
    [90, 30, 360, 30, 180, 5.51873281e-4, 18.12010174],
    [56, 25, 250, 50, 48.387097, 7.712388576e-4, 12.54788871],
  ] as const;

  test("constants of the usual trapezoids", () => {
    heading("Trapezoids clamped at the wide end, EN 12697-24 annex A");
    const source = "beam theory, worked out by another program";
    for (const [B, b, h, e, height, K, gamma] of rows) {
      const constants = bendingConstants(trapezoid(B, b, h, e));
      const name = `${B}/${b}/${h}/${e} mm`;
      const common = {source, standing: "derived", tolerance: 1e-8} as const;
      compareAll({...common, unit: "mm"}, [
        [`${name}: most strained above the clamp`, height, 1000 * constants.criticalHeight!],
      ]);
      compareAll({...common, unit: "1/mm"}, [
        [`${name}: strain per displacement`, K, constants.strainPerDisplacement / 1000],
        [`${name}: form factor γ`, gamma, constants.stiffnessFactor / 1000],
      ]);
    }
    const K = bendingConstants(trapezoid(56, 25, 250, 25)).strainPerDisplacement / 1000;
    compareAll({source, standing: "derived", unit: "mm", tolerance: 1e-7}, [
      ["displacement for 100 µε, 56/25/250", 0.12966152, 100e-6 / K],
      ["displacement for 150 µε, 56/25/250", 0.19449228, 150e-6 / K],
    ]);
  });

  test("against quadrature of the curvature", () => {
    heading("The same against numerical quadrature of M/(E·I), 1 N, 1 Pa");
    for (const [B, b, h, e] of rows) {
      const shape = trapezoid(B, b, h, e);
      const constants = bendingConstants(shape);
      const {displacement, largest} = strainsOf(shape);
      compareAll(
        {source: "Gauss quadrature of curvature, 40 × 5 points", standing: "derived", unit: "1/m", tolerance: 1e-10},
        [
          [`${B}/${b}/${h}/${e} mm: strain per displacement`, largest / displacement, constants.strainPerDisplacement],
          [`${B}/${b}/${h}/${e} mm: form factor γ`, displacement, constants.stiffnessFactor],
          [`${B}/${b}/${h}/${e} mm: stress per force, 1/m²`, largest, constants.stressPerForce],
        ],
      );
    }
  });

  test("swinging mass", () => {
    heading("Swinging mass μ over the specimen's mass");
    const masses = {specimen: 1, movingParts: 0};
    const rayleigh = "Rayleigh's method with the static deflection, quadrature";
    // The standard has one number for all sizes; the two usual ones lie on either side of it.
    for (const B of [56, 70])
      compare({
        name: `trapezoid ${B}/25/250: 0.135`,
        source: rayleigh,
        standing: "derived",
        unit: "–",
        expected: trapezoidMassRatio(trapezoid(B, 25, 250, 25)),
        computed: swingingMass(trapezoid(B, 25, 250, 25), masses),
        tolerance: 0.08,
      });
    const prism: SpecimenShape = {kind: "prism", outerSpan: 0.357, innerSpan: 0.119, height: 0.05, width: 0.06};
    compare({
      name: "prism in thirds",
      source: rayleigh,
      standing: "derived",
      unit: "–",
      expected: prismMassRatio(prism),
      computed: swingingMass(prism, masses),
      tolerance: 0.003, // the standard's sine is not quite the static deflection
    });
  });

  test("modulus of a mass and a spring with loss", () => {
    heading("Complex modulus from force, displacement and lag, with inertia");
    // F = (E*/γ − μω²)·z worked backwards: |E*| 12 GPa, phase 20°, 25 Hz, 0.6 kg specimen, 0.2 kg of the head.
    const shape = trapezoid(56, 25, 250, 25);
    const mass = swingingMass(shape, {specimen: 0.6, movingParts: 0.2});
    const phase = (20 * Math.PI) / 180;
    const omega = 50 * Math.PI;
    const gamma = 25095.77742; // [1/m], of the table above
    const displacement = 1e-4;
    const real = ((12e9 * Math.cos(phase)) / gamma - 0.281 * omega * omega) * displacement;
    const imaginary = ((12e9 * Math.sin(phase)) / gamma) * displacement;
    const reading = {
      force: Math.hypot(real, imaginary),
      displacement,
      phaseLag: Math.atan2(imaginary, real),
      frequency: 25,
    };
    const computed = complexModulus(shape, reading, mass);
    const common = {source: "equation of motion worked backwards", standing: "derived", tolerance: 1e-9} as const;
    compareAll({...common, unit: "Pa"}, [["modulus", 12e9, computed.modulus]]);
    compareAll({...common, unit: "rad"}, [["phase", phase, computed.phase]]);
  });
});

test("four-point bending", () => {
  heading("Prisms on four clamps, EN 12697-24 annex D");
  const shape: SpecimenShape = {kind: "prism", outerSpan: 0.357, innerSpan: 0.119, height: 0.05, width: 0.06};
  const constants = bendingConstants(shape);
  const static_ = deflections(shape);
  const common = {standing: "derived", tolerance: 1e-9} as const;
  const theory = "beam theory: 108·h/(23·L²) in thirds";
  compareAll({...common, source: theory, unit: "1/mm"}, [
    ["357 by 50 mm: strain per deflection", 1.8421690927e-3, constants.strainPerDisplacement / 1000],
  ]);
  compareAll({...common, source: "0.357/(b·h²) of ASTM D7460, from memory", unit: "1/m²"}, [
    ["357 by 60 by 50 mm: stress per force", 0.357 / (0.06 * 0.05 ** 2), constants.stressPerForce],
  ]);
  compareAll({...common, source: "23/20: beam theory", unit: "–"}, [
    ["mid-span over inner clamp", 1.15, midSpanRatio(shape)],
  ]);
  compareAll({...common, source: "quadrature of the curvature, 1 N, 1 Pa", unit: "1/m"}, [
    ["form factor γ", static_.midSpan, constants.stiffnessFactor],
  ]);
});

describe("regression", () => {
  test("example of ASTM E739", () => {
    heading("ASTM E739, strain-life of 4340 steel: as printed");
    const x = E739.map(([strain]) => Math.log10(strain));
    const y = E739.map(([, cycles]) => Math.log10(cycles));
    const line = straightLine(x, y);
    const a = coefficientInterval(line, "intercept", 0.95);
    const b = coefficientInterval(line, "slope", 0.95);
    const fit = lackOfFit(line, x, y, E739_LEVELS)!;
    const t = tQuantile(0.975, 7);
    const f = fQuantile(0.95, 2, 7);
    const printed = {
      source: "ASTM E739, 8.3.1",
      standing: "memory",
      unit: "–",
      tolerance: 5e-5,
      absolute: true,
    } as const;
    compareAll(printed, [
      ["A", -0.24474, line.intercept],
      ["B", -1.45144, line.slope],
      ["sum of squares", 0.07837, line.residualSquares],
      ["variance", 0.011195, line.sigma ** 2],
      ["standard deviation", 0.1058, line.sigma],
      ["t(0.95; 7), two-sided", 2.3646, t],
      ["F(0.95; 2, 7)", 4.7374, f],
    ]);
    // The standard works with factors already rounded: B, lower is −1.605456 and printed −1.6054.
    compareAll({...printed, tolerance: 1e-4}, [
      ["A, lower 95 %", -0.6435, a.low],
      ["A, upper 95 %", 0.154, a.high],
      ["B, lower 95 %", -1.6054, b.low],
      ["B, upper 95 %", -1.2974, b.high],
    ]);
    compareAll({...printed, tolerance: 0.05}, [["replication, %", 55.6, 100 * fit.replication]]);
    heading("The same, worked out again by another program");
    const again = {source: "worked out by another program", standing: "derived", unit: "–", tolerance: 1e-9} as const;
    compareAll(again, [
      ["A", -0.2447377331464, line.intercept],
      ["B", -1.4514398961475, line.slope],
      ["mean x", -2.5317162135339, line.meanX],
      ["mean y", 3.4298961849002, line.meanY],
      ["Sxx", 2.6389169587987, line.sumXX],
      ["sum of squares", 0.0783665528, line.residualSquares],
      ["variance", 0.0111952218274, line.sigma ** 2],
      ["standard deviation", 0.1058074752908, line.sigma],
      ["t(0.95; 7), two-sided", 2.3646242516, t],
      ["F(0.95; 2, 7)", 4.7374141278, f],
      ["A, lower 95 %", -0.643481363795, a.low],
      ["A, upper 95 %", 0.154005897502, a.high],
      ["B, lower 95 %", -1.605455821323, b.low],
      ["B, upper 95 %", -1.297423971672, b.high],
    ]);
    compareAll({...again, tolerance: 2e-5}, [["lack of fit, F", 3.6171, fit.f]]);
    const bands = [
      [0.01, 2.658142059128, 2.505990661298, 2.810293456999],
      [0.002, 3.672655009652, 3.559031545822, 3.786278473482],
      [0.0006, 4.4315820814, 4.255711855442, 4.607452307358],
    ] as const;
    for (const [strain, centre, low, high] of bands) {
      const at = Math.log10(strain);
      const band = lineBand(line, at, 0.95, "simultaneous");
      compareAll(again, [
        [`lg N at ${strain}`, centre, lineAt(line, at)],
        [`lg N at ${strain}, band below`, low, band.low],
        [`lg N at ${strain}, band above`, high, band.high],
      ]);
    }
  });

  test("Norris", () => {
    heading("NIST StRD Norris, certified");
    const line = straightLine(
      NORRIS.map(([, x]) => x),
      NORRIS.map(([y]) => y),
    );
    const source = "itl.nist.gov/div898/strd/lls/data/LINKS/DATA/Norris.dat";
    compareAll({source, standing: "read", unit: "–", tolerance: 1e-10}, [
      ["B0", -0.262323073774029, line.intercept],
      ["standard deviation of B0", 0.232818234301152, line.interceptError],
      ["B1", 1.00211681802045, line.slope],
      ["standard deviation of B1", 0.429796848199937e-3, line.slopeError],
      ["residual standard deviation", 0.884796396144373, line.sigma],
      ["R²", 0.999993745883712, line.determination],
      ["sum of squares, regression", 4255954.13232369, line.regressionSquares],
      ["sum of squares, residual", 26.6173985294224, line.residualSquares],
      ["mean square, residual", 0.782864662630069, line.sigma ** 2],
      ["F", 5436385.54079785, line.f],
    ]);
  });

  test("run-outs: motor insulation", () => {
    heading("Censored observations: insulation of motors, 17 failed of 40");
    const points = motorPoints();
    const line = censoredLine(points);
    const printed = {
      source: "Schmee & Hahn 1979, maximum likelihood",
      standing: "memory",
      unit: "–",
      tolerance: 5e-4,
    } as const;
    compareAll({...printed, absolute: true}, [
      ["intercept", -6.019, line.intercept],
      ["slope", 4.311, line.slope],
      ["σ", 0.259, line.likelihoodSigma],
    ]);
    // mpmath 1.3, 40 digits: root of the gradient, inverse of the matrix of second derivatives.
    const wider = line.effective / line.degrees;
    const again = {source: "mpmath, 40 digits", standing: "derived", unit: "–", tolerance: 1e-9} as const;
    compareAll(again, [
      ["intercept", -6.019249642708516, line.intercept],
      ["slope", 4.311247143046706, line.slope],
      ["σ", 0.2591827087510661, line.likelihoodSigma],
      ["log-likelihood", -12.96545514794245, line.logLikelihood],
      ["variance of the slope, not widened", 0.1906782584208, line.slopeVariance / wider],
      ["variance of ln σ", 0.03336915224352, line.logSigmaVariance],
    ]);
    // The bound is ours, n_σ·ln(1 + t²/ν); where the profile meets it: scipy 1.17, Nelder–Mead and Brent.
    const profile = {
      source: "scipy, the same bound on the profile",
      standing: "derived",
      unit: "–",
      tolerance: 1e-8,
    } as const;
    const slope = profileInterval(points, line, {kind: "slope"}, 0.9)!;
    const inverse = profileInterval(points, line, {kind: "inverse", y: 4}, 0.9)!;
    const value = profileInterval(points, line, {kind: "value", x: 2.3}, 0.9)!;
    compareAll(profile, [
      ["slope, lower 90 %", 3.5515816784689727, slope.low],
      ["slope, upper 90 %", 5.215979128678756, slope.high],
      ["x of 10,000 h, lower 90 %", 2.2842654198529484, inverse.low],
      ["x of 10,000 h, upper 90 %", 2.361548094386881, inverse.high],
      ["lg hours at x = 2.3, lower 90 %", 3.76987585413133, value.low],
      ["lg hours at x = 2.3, upper 90 %", 4.078460025159972, value.high],
    ]);
  });
});

describe("fatigue lines", () => {
  test("identities of EN 12697-24", () => {
    heading("EN 12697-24 annex A on a drawn programme: its formulas, written out");
    const [programme] = drawnProgrammes(ORDINARY, 1, 11);
    const {standard, likelihood} = fatigueLines(programme)[0];
    const line = standard!;
    const x = programme.specimens.map(one =>
      one.amplitude.kind === "strain" ? Math.log10(one.amplitude.strain) : NaN,
    );
    const y = programme.specimens.map(one => Math.log10(one.cycles!));
    const n = x.length;
    const mean = (values: number[]): number => values.reduce((sum, value) => sum + value, 0) / n;
    const deviation = (values: number[]): number =>
      Math.sqrt(values.reduce((sum, value) => sum + (value - mean(values)) ** 2, 0) / (n - 1));
    const products = x.map((value, i) => (value - mean(x)) * (y[i] - mean(y)));
    const r = (mean(products) * n) / (n - 1) / deviation(x) / deviation(y);
    const sN = deviation(y) * Math.sqrt(((1 - r * r) * (n - 1)) / (n - 2));
    const A1 = (r * deviation(y)) / deviation(x);
    const A0 = mean(y) - A1 * mean(x);
    const lg6 = (6 - A0) / A1;
    const S0 = sN * Math.sqrt(1 / n + (lg6 - mean(x)) ** 2 / ((n - 1) * deviation(x) ** 2));
    const b = 1 / A1;
    const common = {source: "EN 12697-24 annex A", standing: "memory", unit: "–", tolerance: 1e-10} as const;
    compareAll(common, [
      ["r", r, line.correlation],
      ["s_N", sN, line.sigma],
      ["b = 1/A₁", b, line.exponent],
      ["ε₆", 10 ** lg6, line.strainAtMillion!],
      ["S₀", S0, line.millionError!],
      ["Δε₆", 0.5 * 10 ** lg6 * (10 ** (-2 * b * S0) - 10 ** (2 * b * S0)), line.strainError!],
    ]);
    compareAll({...common, source: "least squares, nothing being censored", standing: "derived"}, [
      ["ε₆ by likelihood", line.strainAtMillion!, likelihood!.strainAtMillion!],
      ["σ by likelihood", line.sigma, likelihood!.sigma],
    ]);
  });

  test("a published line comes back", () => {
    heading("Lines N = 10⁶·(ε₆/ε)⁵ of French practice, three points each");
    // ε₆ of semi-coarse asphalt concrete and of high-modulus asphalt at 10 °C, 25 Hz, from memory.
    const lineOf = (material: string, six: number) =>
      [80, 100, 130].map(strain =>
        specimen(`${material} ${strain}`, strain * 1e-6, 1e6 * (six / strain) ** 5, {material}),
      );
    const [concrete, high] = fatigueLines({name: "", specimens: [...lineOf("100", 100), ...lineOf("130", 130)]});
    const source = "N = 10⁶·(ε₆/ε)⁵";
    const common = {source, standing: "memory", tolerance: 1e-10} as const;
    compareAll({...common, unit: "µε"}, [
      ["ε₆ = 100: ε₆", 100, 1e6 * concrete.standard!.strainAtMillion!],
      ["ε₆ = 130: ε₆", 130, 1e6 * high.standard!.strainAtMillion!],
    ]);
    compareAll({...common, unit: "–"}, [["ε₆ = 100: −1/b", 5, -1 / concrete.standard!.exponent]]);
    compareAll({...common, tolerance: 1e-9, unit: "cycles"}, [
      ["ε₆ = 100: life at 130 µε", 269329.0743, 10 ** lineAt(concrete.line!, Math.log10(130e-6))],
      ["ε₆ = 100: life at 80 µε", 3051757.8125, 10 ** lineAt(concrete.line!, Math.log10(80e-6))],
    ]);
    const {ratio} = compareLives(high, concrete, 0.9);
    compareAll({...common, unit: "–"}, [["ratio of lives, 130 to 100: 1.3⁵", 1.3 ** 5, ratio[20]]]);
  });

  test("intervals cover the truth as often as they say", () => {
    heading("200 drawn programmes of 18, tests stopped at 3·10⁶ cycles: how often 90 % intervals hold the truth");
    const truth = {...ORDINARY, levels: [8e-5, 1e-4, 1.3e-4], stop: 3e6};
    const programmes = drawnProgrammes(truth, 200, 2024);
    const intervals = programmes.map(programme => fatigueLines(programme)[0].likelihood!.intervals[0]);
    const share = (holds: (one: (typeof intervals)[number]) => boolean): number =>
      (100 * intervals.filter(holds).length) / intervals.length;
    const runOuts = programmes.flatMap(programme => programme.specimens).filter(one => one.runOut).length;
    const common = {source: "the law they were drawn from", standing: "derived", unit: "%"} as const;
    // ±5 points are 2.4 standard errors of a share of 90 % among 200.
    between({
      ...common,
      name: "ε₆, line by likelihood",
      low: 85,
      high: 95,
      computed: share(
        ({strainAtMillion: i}) => i !== null && i.low <= truth.strainAtMillion && truth.strainAtMillion <= i.high,
      ),
    });
    between({
      ...common,
      name: "k, line by likelihood",
      low: 85,
      high: 95,
      computed: share(({k}) => k.low <= truth.k && truth.k <= k.high),
    });
    expect(runOuts / programmes.length).toBeGreaterThan(2); // half of the lowest level: 80 µε gives 3.05·10⁶
  });
});

page();

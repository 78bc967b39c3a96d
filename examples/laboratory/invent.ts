/**
 * An invented programme of wheel-tracked beams: what a laboratory would have read if the growth laws were known. Shows how
 * the fit of growth laws is called, and serves to try whether its intervals hold.
 */
import {
  type BeamCase,
  type BeamChoices,
  type BeamEffects,
  type BeamReading,
  type BeamScatter,
  type BeamTest,
  beamCycles,
  beamHistory,
  type CrackReading,
  type LawAtStrain,
  type LawOrigin,
  monotoneCurve,
  REFERENCE_STRAIN,
  solveBeam,
} from "../../src/engine/laboratory/index.ts";
import {randomStream} from "../../src/engine/statistics/index.ts";

/** What is true in the invented laboratory. */
export interface Truth {
  readonly laws: Readonly<Record<string, LawAtStrain>>; // by material
  readonly scatter: BeamScatter;
  readonly pivots: Readonly<Record<string, number>>; // strains at which a beam's own exponent leaves the rate, by material [–]
  readonly readingError: number; // standard deviation of one face's reading, rounding apart [m]
  readonly rounding: number; // of every length to a multiple of this [m]
  readonly readings: number; // looks at a beam that does not break before
}

/** Invented: no laboratory measured these numbers. The orders of size are those of bituminous mixes at 20 °C. */
export const INVENTED: Truth = {
  laws: {
    "dense asphalt": {logRate: -16.9, exponent: 4},
    "stiff binder course": {logRate: -16.2, exponent: 4.4},
    "soft interlayer": {logRate: -23, exponent: 4},
  },
  scatter: {beam: 0.25, upper: 0.3, exponent: 0.1, lower: 4e-4, surface: 4e-4},
  pivots: {"dense asphalt": 470e-6, "stiff binder course": 340e-6, "soft interlayer": 3300e-6},
  readingError: 0.5e-3,
  rounding: 0.5e-3,
  readings: 12,
};

/** Invented too. */
const ELASTIC = {
  "dense asphalt": {modulus: 3500e6, poisson: 0.35, zone: 0.01},
  "stiff binder course": {modulus: 6500e6, poisson: 0.33, zone: 0.011},
  "soft interlayer": {modulus: 350e6, poisson: 0.4, zone: 0.005},
} as const;

export const CHOICES: BeamChoices = {
  plane: "stress",
  zoneLength: Object.fromEntries(Object.entries(ELASTIC).map(([name, {zone}]) => [name, zone])),
  interlock: 0,
  accuracy: 0.02,
};

export const ORIGINS: Readonly<Record<string, LawOrigin>> = Object.fromEntries(
  Object.keys(ELASTIC).map(name => [name, {kind: "fitted"} as const]),
);

/** Eight beams: two overlays, each with and without an interlayer, at two loads. */
export function inventedTests(): BeamTest[] {
  const course = (material: keyof typeof ELASTIC, thickness: number) => {
    const {modulus, poisson} = ELASTIC[material];
    return {material, thickness, modulus, poisson};
  };
  return (
    [
      ["dense asphalt", [2000, 3000]],
      ["stiff binder course", [2500, 3700]],
    ] as const
  ).flatMap(([material, loads]) =>
    loads.flatMap(load =>
      [false, true].map(
        (above): BeamTest => ({
          name: `${material[0].toUpperCase()}${load / 100} ${above ? "interlayer" : "plain"}`,
          overlay: course(material, above ? 0.04 : 0.05),
          interlayer: above ? course("soft interlayer", 0.012) : null,
          base: {thickness: 0.04, modulus: 10e9, poisson: 0.2, gap: 0.008},
          length: 0.6,
          width: 0.1,
          foundation: {kind: "stiffness", stiffness: 100e6},
          wheel: {load, length: 0.03, width: 0.08},
          travel: {from: -0.25, to: 0.25},
          speed: 0.5,
          temperature: 20,
          detection: 2e-3,
          readingError: 0.7e-3, // as stated by the laboratory, which cannot know its own any better
          readings: [],
          setAside: null,
        }),
      ),
    ),
  );
}

/** The beams solved, without readings. @param accuracy of the solutions, relative [–] */
export function inventedCases(accuracy: number = CHOICES.accuracy): BeamCase[] {
  return inventedTests().map(test => {
    if (test.foundation.kind !== "stiffness") throw new Error(`${test.name}: springs are given`);
    const solution = solveBeam(test, test.foundation.stiffness, {...CHOICES, accuracy});
    return {test, solution, cycles: beamCycles(solution, 1)};
  });
}

/**
 * Readings of every beam. A test is planned to last as long as the laws alone say that the beam does, so that about half of
 * the beams break before.
 *
 * @param seed a whole number; each gives another programme
 */
export function inventBeams(cases: readonly BeamCase[], truth: Truth, seed: number): BeamCase[] {
  const {normal} = randomStream(seed);
  return cases.map(one => {
    const {beam, upper, exponent} = truth.scatter;
    const own = {clock: beam * normal(), upper: upper * normal(), exponent: exponent * normal()};
    const planned = Math.min(FARTHEST, historyOf(one, truth, LIKE_THE_LAWS).passes.at(-1) ?? FARTHEST);
    const history = historyOf(one, truth, own);
    const end = history.broken ? (history.passes.at(-1) ?? 0) : Infinity;
    const fronts = history.fronts.map((f, k) => monotoneCurve(history.passes, f, history.growth[k]));
    const t = one.solution.interlayerThickness;
    const {detection} = one.test;
    const face = (length: number): CrackReading => {
      const read = Math.round((length + truth.readingError * normal()) / truth.rounding) * truth.rounding;
      return read < detection ? {kind: "not visible"} : {kind: "length", length: read};
    };
    const readings: BeamReading[] = [];
    for (let k = 1; k <= truth.readings; k++) {
      const passes = Math.max(1, Math.round(planned * (k / truth.readings) ** OFTENER_AT_FIRST));
      if (passes >= end) {
        readings.push({passes, lower: [{kind: "through"}], upper: [], stopped: false});
        break;
      }
      const [within, above, surface] = fronts.map(f => f.value(passes));
      // Read up to the highest tip; both faces see the same crack, which wanders about its law.
      const highest = above > detection || within >= 0.999 * t ? t + above : within;
      const low = highest + truth.scatter.lower * normal();
      const up = surface + truth.scatter.surface * normal();
      readings.push({
        passes,
        lower: [face(low), face(low)],
        upper: [face(up), face(up)],
        stopped: k === truth.readings,
      });
    }
    return {...one, test: {...one.test, readings}};
  });
}

const FARTHEST = 2e6; // passes
const OFTENER_AT_FIRST = 2.2; // most of a crack is grown early, then it waits for the other one

const LIKE_THE_LAWS: BeamEffects = {clock: 0, upper: 0, exponent: 0};

function historyOf({test, solution, cycles}: BeamCase, {laws, pivots}: Truth, effects: BeamEffects) {
  const {clock, upper, exponent} = effects;
  const lawOf = (material: string): LawAtStrain => {
    const law = laws[material];
    const stays = exponent * Math.log(pivots[material] / REFERENCE_STRAIN);
    return {logRate: law.logRate + clock - stays, exponent: law.exponent + exponent};
  };
  const own = {overlay: lawOf(test.overlay.material), interlayer: test.interlayer && lawOf(test.interlayer.material)};
  return beamHistory(solution, cycles, own, FARTHEST, Math.exp(upper));
}

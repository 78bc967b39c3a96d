/** An invented programme of bending fatigue tests: what a laboratory would have measured if the fatigue lines were known. */
import {bendingConstants, type SpecimenShape} from "../../src/engine/laboratory/index.ts";
import {type RandomStream, randomStream} from "../../src/engine/statistics/index.ts";

/** What is true of one material. */
export interface FatigueTruth {
  readonly material: string;
  readonly letter: string; // that names of its specimens begin with
  readonly shape: SpecimenShape;
  readonly modulus: number; // E, stiffness at the 100th cycle [Pa]
  readonly strainAtMillion: number; // ε₆ [–]
  readonly exponent: number; // k [–]
  readonly scatter: number; // standard deviation of lg N [–]
  readonly levels: readonly number[]; // strain amplitudes [–]
  readonly histories: number; // specimens whose stiffness is recorded, the first ones
}

const TRAPEZOID: SpecimenShape = {kind: "trapezoid", baseWidth: 0.056, topWidth: 0.025, height: 0.25, thickness: 0.025};
const LARGE_TRAPEZOID: SpecimenShape = {
  kind: "trapezoid",
  baseWidth: 0.07,
  topWidth: 0.025,
  height: 0.25,
  thickness: 0.025,
};
const PRISM: SpecimenShape = {kind: "prism", outerSpan: 0.357, innerSpan: 0.119, height: 0.05, width: 0.063};

/**
 * Invented: no laboratory measured these numbers. The orders of size are those of an asphalt concrete, a soft polymer-rich
 * mix and a stiff binder course at 10 °C and 25 Hz.
 */
export const INVENTED_LINES: readonly FatigueTruth[] = [
  {
    material: "dense asphalt",
    letter: "D",
    shape: TRAPEZOID,
    modulus: 6900e6,
    strainAtMillion: 100e-6,
    exponent: 5,
    scatter: 0.25,
    levels: [160e-6, 125e-6, 95e-6],
    histories: 0,
  },
  {
    material: "soft interlayer",
    letter: "S",
    shape: PRISM,
    modulus: 700e6,
    strainAtMillion: 1065e-6,
    exponent: 4.6,
    scatter: 0.3,
    levels: [1700e-6, 1250e-6, 900e-6],
    histories: 3,
  },
  {
    material: "stiff binder course",
    letter: "B",
    shape: LARGE_TRAPEZOID,
    modulus: 12000e6,
    strainAtMillion: 85e-6,
    exponent: 5.4,
    scatter: 0.22,
    levels: [130e-6, 100e-6, 80e-6],
    histories: 0,
  },
];

export const TEST = {temperature: 10, frequency: 25, stop: 3e6, specimensPerLevel: 6} as const; // [°C], [Hz], [cycles]

export interface InventedSpecimen {
  readonly name: string;
  readonly truth: FatigueTruth;
  readonly strain: number; // reached, near its level [–]
  readonly displacement: number; // of the head, or of mid-span [m]
  readonly modulus: number; // [Pa]
  readonly cycles: number; // to failure, or to the stop
  readonly runOut: boolean;
  readonly history: readonly {readonly cycle: number; readonly modulus: number}[] | null;
}

/** @param seed a whole number; each gives another programme */
export function inventFatigue(truths: readonly FatigueTruth[], seed: number): InventedSpecimen[] {
  const stream = randomStream(seed);
  return truths.flatMap(truth =>
    truth.levels.flatMap((level, l) =>
      Array.from({length: TEST.specimensPerLevel}, (_, k) => {
        const first = l === 0 && k < truth.histories;
        return specimen(`${truth.letter}${l * TEST.specimensPerLevel + k + 1}`, truth, level, first, stream);
      }),
    ),
  );
}

const MACHINE = 0.005; // by which a machine misses its strain, standard deviation [–]
const MIX = 0.04; // of the modulus from specimen to specimen [–]

function specimen(
  name: string,
  truth: FatigueTruth,
  level: number,
  recorded: boolean,
  {normal}: RandomStream,
): InventedSpecimen {
  const strain = level * (1 + MACHINE * normal());
  const life = 10 ** (6 + truth.exponent * Math.log10(truth.strainAtMillion / strain) + truth.scatter * normal());
  const runOut = life > TEST.stop;
  const cycles = Math.round(runOut ? TEST.stop : life);
  const modulus = truth.modulus * (1 + MIX * normal());
  const {strainPerDisplacement} = bendingConstants(truth.shape);
  return {
    name,
    truth,
    strain,
    displacement: strain / strainPerDisplacement,
    modulus,
    cycles,
    runOut,
    history: recorded ? historyOf(modulus, life, normal) : null,
  };
}

/**
 * Stiffness as it usually goes: a quick fall at first, a long even one, and a break-down. Cycle 100 has the initial modulus,
 * the life half of it.
 */
function historyOf(modulus: number, life: number, normal: () => number): {cycle: number; modulus: number}[] {
  const rows: {cycle: number; modulus: number}[] = [];
  const ratio = (n: number): number => {
    const x = n / life;
    return 1 - (0.15 * Math.log10(Math.max(n, 100) / 100)) / Math.log10(life / 100) - 0.2 * x - 0.15 * x ** 8;
  };
  for (let n = 10; n < 1.15 * life; n = Math.ceil(n * 1.06))
    rows.push({cycle: n, modulus: modulus * ratio(n) * (1 + 0.004 * normal())});
  return rows;
}

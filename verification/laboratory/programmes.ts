import type {FatigueProgramme, Specimen} from "../../src/engine/laboratory/index.ts";
import {randomStream} from "../../src/engine/statistics/index.ts";

/** A specimen of which nothing but strain and life is known. */
export function specimen(name: string, strain: number, cycles: number, more: Partial<Specimen> = {}): Specimen {
  return {
    name,
    material: "asphalt",
    shape: null,
    temperature: 10,
    frequency: 25,
    amplitude: {kind: "strain", strain},
    cycles,
    runOut: false,
    initialModulus: null,
    phase: null,
    history: null,
    setAside: null,
    ...more,
  };
}

export interface Truth {
  readonly strainAtMillion: number;
  readonly k: number;
  readonly sigma: number; // of lg N
  readonly levels: readonly number[]; // strains
  readonly perLevel: number;
  readonly stop: number; // tests are stopped here [cycles]
}

/** An ordinary programme: three levels of six, ε₆ = 100 µε, k = 5, no test stopped before its failure. */
export const ORDINARY: Truth = {
  strainAtMillion: 1e-4,
  k: 5,
  sigma: 0.25,
  levels: [9e-5, 1.1e-4, 1.4e-4],
  perLevel: 6,
  stop: Infinity,
};

/** A programme drawn from a known law, lg N = 6 + k·lg(ε₆/ε) + σ·z. */
function drawnProgramme(truth: Truth, normal: () => number): FatigueProgramme {
  const specimens = truth.levels.flatMap(strain =>
    Array.from({length: truth.perLevel}, (_, i) => {
      const cycles = 10 ** (6 + truth.k * Math.log10(truth.strainAtMillion / strain) + truth.sigma * normal());
      const runOut = cycles > truth.stop;
      return specimen(`${strain}-${i + 1}`, strain, runOut ? truth.stop : cycles, {runOut});
    }),
  );
  return {name: "drawn", specimens};
}

export function drawnProgrammes(truth: Truth, count: number, seed: number): FatigueProgramme[] {
  const {normal} = randomStream(seed);
  return Array.from({length: count}, () => drawnProgramme(truth, normal));
}

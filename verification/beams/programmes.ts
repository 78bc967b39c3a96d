/** A worker: fits the growth laws of invented programmes, seed by seed, beginning where any fit begins. */
import {parentPort, workerData} from "node:worker_threads";
import {INVENTED, inventBeams, inventedCases, ORIGINS} from "../../examples/laboratory/invent.ts";
import {fitBeams} from "../../src/engine/laboratory/index.ts";

/** One programme fitted. */
export interface Outcome {
  readonly materials: readonly string[];
  /** (Estimate − truth)/standard error, by parameter: ln rate, exponent of each material. */
  readonly scores: readonly number[];
  readonly degrees: number;
  readonly converged: boolean;
  readonly clock: number; // scatter of the beams' clocks, estimated
  readonly broken: number; // beams that broke before they were stopped
}

function outcomes({from, to}: {readonly from: number; readonly to: number}): Outcome[] {
  const cases = inventedCases();
  return Array.from({length: to - from}, (_, k): Outcome => {
    const seed = from + k;
    const programme = inventBeams(cases, INVENTED, seed);
    const fit = fitBeams(programme, {origins: ORIGINS, exponentPrior: null});
    const truth = fit.materials.flatMap(name => [INVENTED.laws[name].logRate, INVENTED.laws[name].exponent]);
    const errors = truth.map((_, i) => Math.sqrt(fit.covariance[i * (truth.length + 1)]));
    return {
      materials: fit.materials,
      scores: truth.map((t, i) => (fit.parameters[i] - t) / errors[i]),
      degrees: fit.degrees,
      converged: fit.converged,
      clock: fit.scatter.beam,
      broken: programme.filter(({test}) => !test.readings.at(-1)?.stopped).length,
    };
  });
}

parentPort?.postMessage(outcomes(workerData));

/**
 * Invented complex modulus tests: what a laboratory would have measured if the master curves were known. Writes the tables
 * anew: `node examples/stiffness/invent.ts`. A test holds them against what this would write.
 */
import {writeFileSync} from "node:fs";
import path from "node:path";
import {randomStream} from "../../src/engine/statistics/index.ts";
import {type MasterCurve, modulusNorm, phaseAngle} from "../../src/engine/viscoelastic/index.ts";

/**
 * Invented: nobody tested these mixes. At 10 Hz about 16000, 11500, 6900, 3500, 1600, 750 MPa at −10, 0, …, 40 °C for the one
 * and 2600, 1400, 700, 350, 180, 100 MPa for the other.
 */
export const INVENTED_CURVES: Readonly<Record<string, MasterCurve>> = {
  "dense-asphalt": {
    model: {
      kind: "2S2P1D",
      staticModulus: 240e6,
      glassyModulus: 25_000e6,
      delta: 2.2,
      k: 0.2,
      h: 0.58,
      beta: 250,
      time: 6.07e-3,
    },
    shift: {kind: "WLF", c1: 13.5, c2: 125},
    referenceTemperature: 15,
    measured: null,
  },
  "soft-interlayer": {
    model: {
      kind: "2S2P1D",
      staticModulus: 10e6,
      glassyModulus: 7680e6,
      delta: 2.6,
      k: 0.2,
      h: 0.52,
      beta: 150,
      time: 2.33e-4,
    },
    shift: {kind: "WLF", c1: 7.11, c2: 89.7},
    referenceTemperature: 15,
    measured: null,
  },
};

const TEMPERATURES = [-10, 5, 15, 25, 40, 55]; // [°C]
const FREQUENCIES = [0.1, 0.3, 1, 3, 10, 25]; // [Hz]
const MODULUS_SCATTER = 0.02; // standard deviation of ln|E*| [–]
const PHASE_SCATTER = 0.7; // of the phase [°]
const SEED = 3; // one of those whose readings tell all parameters

/** Texts of the tables by file name. */
export function stiffnessTables(seed = SEED): Record<string, string> {
  return Object.fromEntries(
    Object.entries(INVENTED_CURVES).map(([name, curve], k) => [`${name}.csv`, tableOf(curve, seed + k)]),
  );
}

function tableOf(curve: MasterCurve, seed: number): string {
  const random = randomStream(seed);
  const rows = TEMPERATURES.flatMap(temperature =>
    FREQUENCIES.map(frequency => {
      const modulus = modulusNorm(curve, temperature, frequency) * Math.exp(MODULUS_SCATTER * random.normal());
      const phase = (180 / Math.PI) * phaseAngle(curve, temperature, frequency) + PHASE_SCATTER * random.normal();
      return [temperature, frequency, Number((modulus / 1e6).toPrecision(4)), phase.toFixed(1)].join(",");
    }),
  );
  return `temperature_C,frequency_Hz,modulus_MPa,phase_deg\n${rows.join("\n")}\n`;
}

if (import.meta.main)
  for (const [name, text] of Object.entries(stiffnessTables()))
    writeFileSync(path.join(import.meta.dirname, name), text);

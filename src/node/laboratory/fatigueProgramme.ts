import path from "node:path";
import {InputError} from "../../engine/errors.ts";
import {bendingConstants, type FatigueProgramme, readHistory, type Specimen} from "../../engine/laboratory/index.ts";
import {
  type LaboratoryFault,
  type RefusedRow,
  type Understanding,
  type WholeProblem,
  wholeFault,
} from "../../schema/laboratory/index.ts";
import {readHistory as readHistoryFile} from "./readHistory.ts";
import {readFatigueFile} from "./readLaboratory.ts";

/** Tables of fatigue specimens with their histories, from disk: what is good is in the programme, the rest is told. */
export interface FatigueFiles {
  readonly programme: FatigueProgramme;
  readonly hashes: readonly {readonly file: string; readonly sha256: string}[];
  readonly faults: readonly LaboratoryFault[];
  readonly warnings: readonly LaboratoryFault[];
  readonly refused: readonly RefusedRow[];
  readonly understandings: readonly Understanding[];
}

/** @param onFile called before each file is read */
export async function readFatigueProgramme(
  files: readonly string[],
  name: string,
  onFile: (file: string) => void = () => {},
): Promise<FatigueFiles> {
  const specimens: Specimen[] = [];
  const hashes: {file: string; sha256: string}[] = [];
  const faults: LaboratoryFault[] = [];
  const warnings: LaboratoryFault[] = [];
  const refused: RefusedRow[] = [];
  const understandings: Understanding[] = [];
  const seen = new Map<string, string>(); // name of a specimen → its file
  for (const file of files) {
    onFile(file);
    const shown = path.basename(file);
    const outcome = await readFatigueFile(file);
    faults.push(...outcome.faults);
    warnings.push(...outcome.warnings);
    refused.push(...outcome.refused);
    if (outcome.understanding) understandings.push(outcome.understanding);
    if (outcome.hash) hashes.push({file: shown, sha256: outcome.hash});
    for (const specimen of outcome.programme.specimens) {
      const refuse = (problem: WholeProblem): void => {
        const row = outcome.origins.get(specimen.name)?.row ?? null;
        faults.push(wholeFault(shown, row, problem));
        refused.push({file: shown, row: row ?? "", name: specimen.name, reasons: [problem.problem]});
      };
      const earlier = seen.get(specimen.name);
      if (earlier !== undefined) {
        refuse({
          problem: `a specimen of this name is in ${earlier} too`,
          found: specimen.name,
          accepted: "every name once in a programme",
        });
        continue;
      }
      seen.set(specimen.name, shown);
      const history = outcome.origins.get(specimen.name)?.history ?? null;
      if (history === null) {
        specimens.push(specimen);
        continue;
      }
      onFile(history);
      const read = await withHistory(specimen, path.resolve(path.dirname(file), history));
      faults.push(...read.faults);
      if (read.hash) hashes.push({file: history, sha256: read.hash});
      if (typeof read.specimen === "object") specimens.push(read.specimen);
      else
        refuse({
          problem: `its history ${history} cannot be used: ${read.specimen}`,
          found: history,
          accepted: "a history from which initial stiffness and failure can be read",
        });
    }
  }
  return {programme: {name, specimens}, hashes, faults, warnings, refused, understandings};
}

/** A specimen with what its history says, or why that cannot be. */
async function withHistory(
  specimen: Specimen,
  file: string,
): Promise<{readonly specimen: Specimen | string; readonly faults: readonly LaboratoryFault[]; readonly hash: string}> {
  const reader = readHistory(path.basename(file));
  try {
    const stiffness = specimen.shape ? bendingConstants(specimen.shape).stiffnessFactor : null;
    const outcome = await readHistoryFile(file, (cycle, value) => {
      if (typeof value === "number") reader.add({cycle, modulus: value});
      else if (stiffness === null)
        throw new InputError(
          "domain",
          `${specimen.name}: shape`,
          "nothing",
          "one, to have a modulus from force and displacement",
        );
      else
        reader.add({cycle, modulus: (stiffness * value.force) / value.displacement, displacement: value.displacement});
    });
    if (!outcome.rows) return {specimen: "no row of it could be read", faults: outcome.faults, hash: outcome.hash};
    const history = reader.finish();
    if (specimen.cycles !== null) return {specimen: {...specimen, history}, faults: outcome.faults, hash: outcome.hash};
    const failed = history.cyclesToHalf !== null;
    if (failed && specimen.runOut)
      return {specimen: "it falls below half the initial stiffness, but the table calls it a run-out", ...outcome};
    // Never at half the stiffness: its life is longer than the record.
    return {specimen: {...specimen, history, runOut: !failed}, faults: outcome.faults, hash: outcome.hash};
  } catch (error) {
    if (error instanceof InputError) return {specimen: error.message, faults: [], hash: ""};
    throw error;
  }
}

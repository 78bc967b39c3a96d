/** Several tables of fatigue specimens, with the histories that they name, as one programme. */
import {InputError} from "../../engine/errors.ts";
import {bendingConstants, type FatigueProgramme, readHistory, type Specimen} from "../../engine/laboratory/index.ts";
import type {TableRead} from "./bytes/index.ts";
import {type FatigueOutcome, readFatigueTable, type SpecimenOrigin} from "./fatigue.ts";
import {type LaboratoryFault, type RefusedRow, type WholeProblem, wholeFault} from "./fault.ts";
import type {HistoryOutcome, HistorySink} from "./history-run.ts";
import type {Understanding} from "./understanding.ts";

/** Tables of fatigue specimens with their histories: what is good is in the programme, the rest is told. */
export interface FatigueFiles {
  readonly programme: FatigueProgramme;
  readonly origins: ReadonlyMap<string, SpecimenOrigin>; // by name of the specimen
  readonly hashes: readonly {readonly file: string; readonly sha256: string}[];
  readonly faults: readonly LaboratoryFault[];
  readonly warnings: readonly LaboratoryFault[];
  readonly refused: readonly RefusedRow[];
  readonly understandings: readonly Understanding[];
}

/** Where the files of a programme come from. */
export interface FatigueSource {
  /** A table as rows of cells. */
  table(file: string): Promise<TableRead>;
  /** The history that a table names, row by row into the sink; what the sink throws goes through. */
  history(table: string, name: string, sink: HistorySink): Promise<HistoryOutcome>;
}

/**
 * @param files  tables, as the source knows them
 * @param shown  how a file is named in messages
 * @param onFile called before each file is read
 */
export async function assembleFatigueProgramme(
  files: readonly string[],
  name: string,
  source: FatigueSource,
  {
    shown = file => file,
    onFile = () => {},
  }: {readonly shown?: (file: string) => string; readonly onFile?: ((file: string) => void) | undefined} = {},
): Promise<FatigueFiles> {
  const specimens: Specimen[] = [];
  const origins = new Map<string, SpecimenOrigin>();
  const hashes: {file: string; sha256: string}[] = [];
  const faults: LaboratoryFault[] = [];
  const warnings: LaboratoryFault[] = [];
  const refused: RefusedRow[] = [];
  const understandings: Understanding[] = [];
  const seen = new Map<string, string>(); // name of a specimen → its file
  for (const file of files) {
    onFile(file);
    const here = shown(file);
    const outcome = fatigueOutcome(await source.table(file), here.replace(/\.[^.]*$/, ""));
    faults.push(...outcome.faults);
    warnings.push(...outcome.warnings);
    refused.push(...outcome.refused);
    if (outcome.understanding) understandings.push(outcome.understanding);
    if (outcome.hash) hashes.push({file: here, sha256: outcome.hash});
    for (const specimen of outcome.programme.specimens) {
      const origin = outcome.origins.get(specimen.name)!; // every specimen has one
      const refuse = (problem: WholeProblem): void => {
        faults.push(wholeFault(here, origin.row, problem));
        refused.push({file: here, row: origin.row, name: specimen.name, reasons: [problem.problem]});
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
      seen.set(specimen.name, here);
      const {history} = origin;
      if (history === null) {
        specimens.push(specimen);
        origins.set(specimen.name, origin);
        continue;
      }
      onFile(history);
      const read = await withHistory(specimen, history, sink => source.history(file, history, sink));
      faults.push(...read.faults);
      if (read.hash) hashes.push({file: history, sha256: read.hash});
      if (typeof read.specimen === "object") {
        specimens.push(read.specimen);
        origins.set(specimen.name, origin);
      } else
        refuse({
          problem: `its history ${history} cannot be used: ${read.specimen}`,
          found: history,
          accepted: "a history from which initial stiffness and failure can be read",
        });
    }
  }
  return {programme: {name, specimens}, origins, hashes, faults, warnings, refused, understandings};
}

/** What a table of specimens says, or that it cannot be read. */
export function fatigueOutcome(read: TableRead, name: string): FatigueOutcome {
  if ("raw" in read) return readFatigueTable(read.raw, name);
  return {
    programme: {name, specimens: []},
    origins: new Map(),
    hash: "",
    refused: [],
    faults: [read.fault],
    warnings: [],
    understanding: null,
  };
}

/** A specimen with what its history says, or why that cannot be. */
async function withHistory(
  specimen: Specimen,
  name: string,
  readRows: (sink: HistorySink) => Promise<HistoryOutcome>,
): Promise<{readonly specimen: Specimen | string; readonly faults: readonly LaboratoryFault[]; readonly hash: string}> {
  const reader = readHistory(name.replace(/^.*[/\\]/, ""));
  try {
    const stiffness = specimen.shape ? bendingConstants(specimen.shape).stiffnessFactor : null;
    const outcome = await readRows((cycle, value) => {
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

/** The thread that reads laboratory files and fits lines and laws, so that the page stays free. */
import "../withoutEval.ts";
import {expose} from "comlink";
import {computeCalibration} from "../../compute/laboratory/index.ts";
import {Cancelled, InputError} from "../../engine/errors.ts";
import {fatigueResult} from "../../engine/laboratory/index.ts";
import {
  beamTables,
  calibrationRequest,
  fatigueProgramme,
  fileBeside,
  levelOf,
  lookAtLaboratoryFile,
  type ProgrammeDocument,
  readLaboratoryFile,
  readProgramme,
  tableText,
  unknownMaterials,
} from "../../schema/laboratory/index.ts";
import entry from "./laboratoryCalibration.worker.ts?worker&url";
import type {FatigueAnswer, LaboratoryComputer, LaboratoryTask} from "./laboratoryChannel.ts";

/** Of intervals when no programme says another [–]. */
const USUAL_LEVEL = 0.9;

let stop: AbortController | null = null;

const computer: LaboratoryComputer = {
  readFiles: files => Promise.all(files.map(lookAtLaboratoryFile)),
  fatigue: fatigueOf,
  readBeams: async task => {
    const reading = await beamReading(task);
    const programme = programmeOf(task);
    return {
      reading,
      unknown: programme ? unknownMaterials(programme, reading.beams) : [],
      missing: (programme?.fatigue ?? []).filter(named => namedTable(task, named) === null),
    };
  },
  beams: async (task, onProgress) => {
    stop?.abort();
    const own = new AbortController();
    stop = own;
    try {
      const programme = programmeOf(task);
      if (!programme) return {kind: "failed", message: "The programme cannot be used as it is; see its faults."};
      const {beams} = await beamReading(task);
      const {result} = await fatigueOf(task);
      const value = await computeCalibration(calibrationRequest(programme, beams, result), {
        entry,
        workers: Math.max(1, navigator.hardwareConcurrency ?? 1),
        signal: own.signal,
        onProgress,
      });
      return {kind: "done", value};
    } catch (error) {
      if (error instanceof Cancelled) return {kind: "cancelled"};
      if (error instanceof InputError) return {kind: "failed", message: error.message};
      throw error;
    } finally {
      if (stop === own) stop = null;
    }
  },
  cancel: () => stop?.abort(),
  tableCopies: async ({files, setAside}, name) => {
    const file = files.find(f => f.name === name);
    const read = file && (await readLaboratoryFile(file, setAside));
    if (!read || "fault" in read) return [];
    const stem = stemOf(name);
    return read.raw.sheets
      .map(sheet => ({name: `${sheet.name === null ? stem : `${stem} ${sheet.name}`}.csv`, text: tableText(sheet)}))
      .filter(({text}) => text !== "");
  },
};

function programmeOf({programmeText}: LaboratoryTask): ProgrammeDocument | null {
  const outcome = programmeText === null ? null : readProgramme(programmeText);
  return outcome?.kind === "programme" ? outcome.programme : null;
}

const beamReading = ({files, beams, setAside}: LaboratoryTask) =>
  beamTables(
    files.filter(({name}) => beams.includes(name)),
    setAside,
  );

/** A fatigue table as the programme names it, among those that are used. */
function namedTable({files, fatigue}: LaboratoryTask, named: string): string | null {
  const name = fileBeside(files, "", named)?.name;
  return name !== undefined && fatigue.includes(name) ? name : null;
}

/** Tables in the order of the programme, those that it does not name behind them: the first material is the reference. */
function fatigueTables(task: LaboratoryTask, programme: ProgrammeDocument | null): string[] {
  const first = (programme?.fatigue ?? []).flatMap(named => namedTable(task, named) ?? []);
  return [...new Set([...first, ...task.fatigue])];
}

async function fatigueOf(task: LaboratoryTask): Promise<FatigueAnswer> {
  const programme = programmeOf(task);
  const tables = fatigueTables(task, programme);
  const name = programme?.name ?? stemOf(tables[0] ?? "");
  const reading = await fatigueProgramme(task.files, {name, tables, setAside: task.setAside});
  if (!reading.programme.specimens.length) return {reading, result: null, problem: null};
  try {
    const level = programme ? levelOf(programme) : USUAL_LEVEL;
    return {reading, result: fatigueResult(reading.programme, level, programme?.reference), problem: null};
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return {reading, result: null, problem: error.message};
  }
}

/** A file's name without folders and ending. */
const stemOf = (name: string): string => name.replace(/^.*[/\\]/, "").replace(/\.[^.]*$/, "");

expose(computer);

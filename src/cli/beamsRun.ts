import path from "node:path";
import {
  type Calibration,
  type CalibrationRequest,
  fatigueResult,
  REFERENCE_STRAIN,
} from "../engine/laboratory/index.ts";
import {readText, softwareVersion} from "../node/index.ts";
import {computeCalibration, readBeamFiles, readFatigueProgramme} from "../node/laboratory/index.ts";
import {formatFaults} from "../schema/index.ts";
import {
  calibrationRequest,
  type LaboratoryReading,
  lawDocuments,
  levelOf,
  type ProgrammeDocument,
  type Provenance,
  readingFaultsText,
  readProgramme,
  readTogether,
  unknownMaterials,
} from "../schema/laboratory/index.ts";
import type {BeamFlags} from "./beams.ts";
import {today} from "./flags.ts";
import {toJson} from "./json.ts";
import {checkText, lawFiles, readingContext, sayReading} from "./laboratory.ts";
import {deliver, requireOutputs} from "./outputs.ts";
import {progressLine} from "./progress.ts";
import {BadInput, warningText} from "./study.ts";
import type {Terminal} from "./terminal.ts";

export async function runBeams(folder: string, flags: BeamFlags, terminal: Terminal): Promise<void> {
  requireOutputs(flags.report, flags.laws);
  const {programme, file: programmeFile} = loadProgramme(folder, flags, terminal);
  const outcome = await readBeamFiles(folder);
  const fatigueFiles = programme.fatigue.length
    ? await readFatigueProgramme(
        programme.fatigue.map(name => path.resolve(path.dirname(programmeFile), name)),
        programme.name,
        {folder: path.dirname(programmeFile), onFile: name => terminal.status(() => `Reading ${name}`)},
      )
    : null;
  terminal.clearStatus();
  const reading = readTogether(fatigueFiles ? [outcome, fatigueFiles] : [outcome]);
  if (flags.check) {
    terminal.print(checkText(reading));
    return;
  }
  const unknown = unknownMaterials(programme, outcome.beams);
  if (unknown.length)
    throw new BadInput(
      `${programmeFile} says nothing of ${unknown.join(", ")}: under materials give each an aggregate_mm or a process_zone_mm, by the name in the tables.`,
    );
  if (!outcome.beams.length) throw new BadInput(`${readingFaultsText(reading).trimEnd()}\n\nNo beam is left.`);
  sayReading(reading, terminal);
  const fatigue = fatigueFiles?.programme.specimens.length
    ? fatigueResult(fatigueFiles.programme, levelOf(programme), programme.reference)
    : null;
  const calibration = await calibrated(calibrationRequest(programme, outcome.beams, fatigue), flags, terminal);

  const report = await import("../report/index.ts");
  const hashes = [
    ...Object.entries(outcome.hashes).map(([file, sha256]) => ({file, sha256})),
    ...(fatigueFiles?.hashes ?? []),
  ];
  const provenance: Provenance = {
    software: `seamwright ${softwareVersion()}`,
    date: today(),
    ...(programme.tested_by !== undefined && {tested_by: programme.tested_by}),
    ...(programme.standard !== undefined && {standard: programme.standard}),
    files: hashes,
  };
  const outputs = lawFiles(flags.laws, lawDocuments(calibration, fatigue, provenance));
  if (flags.report !== undefined) {
    const context = await readingContext(reading, hashes);
    outputs.unshift({path: flags.report, text: report.beamsReport(programme.name, calibration, fatigue, context)});
  }
  const answer = flags.json
    ? beamsJson(calibration, reading, hashes)
    : report.beamsTable(programme.name, calibration, terminal);
  deliver(outputs, answer, terminal);
}

/** @throws BadInput with every fault; FileError */
function loadProgramme(
  folder: string,
  flags: BeamFlags,
  terminal: Terminal,
): {programme: ProgrammeDocument; file: string} {
  const workbook = /\.xlsx$/i.test(folder);
  const file = flags.programme ?? path.join(workbook ? path.dirname(folder) : folder, "programme.yaml");
  const outcome = readProgramme(readText(file));
  if (outcome.kind === "faults") throw new BadInput(formatFaults(outcome.faults, {fileName: file}).trimEnd());
  const warnings = warningText(outcome.warnings);
  if (warnings) terminal.say(`${warnings}\n`);
  return {programme: outcome.programme, file};
}

async function calibrated(request: CalibrationRequest, {workers}: BeamFlags, terminal: Terminal): Promise<Calibration> {
  const progress = progressLine(terminal);
  try {
    return await computeCalibration(request, {
      workers,
      signal: terminal.signal,
      onProgress: ({done, doing}) => progress(done, doing),
    });
  } finally {
    terminal.clearStatus();
  }
}

/** Solutions of the beams, by state and position, are left out: nobody reads them, and they are long. */
function beamsJson({cases, ...rest}: Calibration, reading: LaboratoryReading, files: Provenance["files"]): string {
  const {faults, warnings, refused} = reading;
  return toJson({
    software: `seamwright ${softwareVersion()}`,
    input: {files, faults, warnings, refused},
    units:
      "SI: m, N, Pa, m/s; temperatures in °C; strains as plain numbers. Parameters of the fit: ln of the advance per cycle [ln m] at the reference strain, then n, by material.",
    referenceStrain: REFERENCE_STRAIN,
    foundations: cases.map(({test, solution}) => ({name: test.name, foundation: solution.foundation})),
    ...rest,
  });
}

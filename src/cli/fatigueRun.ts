import path from "node:path";
import {type FatigueResult, fatigueResult} from "../engine/laboratory/index.ts";
import {type OutputFile, softwareVersion} from "../node/index.ts";
import {type FatigueFiles, readFatigueProgramme} from "../node/laboratory/index.ts";
import {lawDocuments, readingFaultsText} from "../schema/laboratory/index.ts";
import type {FatigueFlags} from "./fatigue.ts";
import {today} from "./flags.ts";
import {toJson} from "./json.ts";
import {checkText, lawFiles, readingContext, sayReading} from "./laboratory.ts";
import {deliver, requireOutputs} from "./outputs.ts";
import {BadInput} from "./study.ts";
import type {Terminal} from "./terminal.ts";

export async function runFatigue(paths: readonly string[], flags: FatigueFlags, terminal: Terminal): Promise<void> {
  requireOutputs(flags.report, flags.laws);
  const name = flags.name ?? path.basename(paths[0], path.extname(paths[0]));
  const files = await readFatigueProgramme(paths, name, {onFile: file => terminal.status(() => `Reading ${file}`)});
  terminal.clearStatus();
  if (flags.check) {
    terminal.print(checkText(files));
    return;
  }
  if (!files.programme.specimens.length)
    throw new BadInput(`${readingFaultsText(files).trimEnd()}\n\nNo specimen is left.`);
  sayReading(files, terminal);
  const result = resultOf(files, flags);
  const report = await import("../report/index.ts");
  const outputs = [...(await reportFile(report, result, files, flags)), ...lawOutputs(result, files, flags)];
  deliver(outputs, flags.json ? fatigueJson(result, files) : report.fatigueTable(result, terminal), terminal);
}

function resultOf(files: FatigueFiles, {confidence, reference}: FatigueFlags): FatigueResult {
  const materials = new Set(files.programme.specimens.map(s => s.material));
  if (reference !== undefined && !materials.has(reference))
    throw new BadInput(`There is no material ${reference}; there are ${[...materials].join(", ")}.`);
  return fatigueResult(files.programme, Number(confidence) / 100, reference);
}

function lawOutputs(result: FatigueResult, {hashes}: FatigueFiles, {laws}: FatigueFlags): OutputFile[] {
  const provenance = {software: `seamwright ${softwareVersion()}`, date: today(), files: [...hashes]};
  return lawFiles(laws, lawDocuments(null, result, provenance));
}

type Report = typeof import("../report/index.ts");

async function reportFile(
  {fatigueReport}: Report,
  result: FatigueResult,
  files: FatigueFiles,
  {report}: FatigueFlags,
): Promise<OutputFile[]> {
  if (report === undefined) return [];
  return [{path: report, text: fatigueReport(result, await readingContext(files, files.hashes))}];
}

function fatigueJson(result: FatigueResult, files: FatigueFiles): string {
  const {hashes, faults, warnings, refused} = files;
  return toJson({
    software: `seamwright ${softwareVersion()}`,
    input: {files: hashes, faults, warnings, refused},
    units: "SI: m, N, Pa, Hz; temperatures in °C; strains are amplitudes, as plain numbers; lg is to base 10.",
    ...result,
  });
}

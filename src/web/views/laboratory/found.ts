/** All that a laboratory found, with where it comes from: law files and reports are made of it. */
import type {Calibration, FatigueResult} from "../../../engine/laboratory/index.ts";
import type {LawDocument} from "../../../schema/index.ts";
import {
  type LaboratoryReading,
  lawDocuments,
  type ProgrammeDocument,
  type Provenance,
  readingWarnings,
  readTogether,
  understandingText,
} from "../../../schema/laboratory/index.ts";
import type {FittedBeams} from "../../state/laboratory.ts";
import {today} from "../../state/reports.ts";
import type {FatigueAnswer} from "../../worker/laboratoryChannel.ts";

declare const __VERSION__: string; // put in when the page is built

export interface Found {
  readonly name: string; // of the programme
  readonly calibration: Calibration | null;
  readonly fatigue: FatigueResult | null;
  readonly reading: LaboratoryReading;
  readonly hashes: Provenance["files"];
  readonly programme: ProgrammeDocument | null;
}

export function foundBy(
  fatigue: FatigueAnswer | null,
  beams: FittedBeams | null,
  programme: ProgrammeDocument | null,
): Found | null {
  const result = fatigue?.result ?? null;
  if (!result && !beams) return null;
  return {
    name: programme?.name ?? result?.programme.name ?? "Laboratory",
    calibration: beams?.calibration ?? null,
    fatigue: result,
    reading: readTogether([...(beams ? [beams.look.reading] : []), ...(fatigue ? [fatigue.reading] : [])]),
    hashes: [
      ...Object.entries(beams?.look.reading.hashes ?? {}).map(([file, sha256]) => ({file, sha256})),
      ...(fatigue?.reading.hashes ?? []),
    ],
    programme,
  };
}

export function foundLaws({calibration, fatigue, hashes, programme}: Found): LawDocument[] {
  return lawDocuments(calibration, fatigue, {
    software: `seamwright ${__VERSION__}`,
    date: today(),
    ...(programme?.tested_by !== undefined && {tested_by: programme.tested_by}),
    ...(programme?.standard !== undefined && {standard: programme.standard}),
    files: [...hashes],
  });
}

/** The report as one HTML file; what writes it is loaded only now. */
export async function reportOf({
  name,
  calibration,
  fatigue,
  reading,
  hashes,
}: Found): Promise<{readonly name: string; readonly text: string}> {
  const {beamsReport, fatigueReport} = await import("../../../report/index.ts");
  const context = {
    document,
    software: __VERSION__,
    inputHash: hashes[0]?.sha256 ?? "",
    date: today(),
    sources: {"How the files were understood": understandingText(reading)},
    warnings: readingWarnings(reading),
  };
  if (calibration) return {name: "beams.html", text: beamsReport(name, calibration, fatigue, context)};
  return {name: "fatigue.html", text: fatigueReport(fatigue!, context)}; // one of the two is there: foundBy
}

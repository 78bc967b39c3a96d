import {readEpw} from "./epw.ts";
import type {DocumentPath, Findings} from "./fault.ts";
import {readIsdLite} from "./isd-lite.ts";
import type {HourlyDocument} from "./study.ts";
import {type ReadCsv, readTable, type Table} from "./table.ts";

export const hourlyPath: DocumentPath = ["climate", "hourly"];

/** Where a fault of a column is: at its name, or at the file when the format knows its columns. */
export function columnPath(hourly: HourlyDocument, role: string): DocumentPath {
  return hourly.format === "csv" ? [...hourlyPath, "columns", role] : [...hourlyPath, "file"];
}

/** The rows of an hourly record as text by role, whatever the format. Null when there is a fault, which the findings then tell. */
export function hourlyTable(hourly: HourlyDocument, readCsv: ReadCsv, findings: Findings): Table | null {
  const before = findings.faults.length;
  checkFormatFields(hourly, findings);
  if (hourly.format === "csv") {
    if (!hourly.columns) return null;
    checkTimeColumns(hourly, findings);
    const options = {file: hourly.file, headerLine: hourly.header_line, columns: {...hourly.columns}};
    return readTable(options, hourlyPath, readCsv, findings);
  }
  if (findings.faults.length > before) return null;
  const text = readCsv(hourly.file);
  if (typeof text !== "string") {
    findings.fault([...hourlyPath, "file"], {
      problem: `the file cannot be read: ${text.problem}`,
      accepted: `a file in the format ${hourly.format}, its path relative to the study`,
    });
    return null;
  }
  return hourly.format === "epw"
    ? readEpw(text, hourlyPath, findings)
    : readIsdLite(text, hourly.utc_offset_h!, hourlyPath, findings); // needed with it: checkFormatFields
}

/** Fields that one format needs and another has no use for. */
function checkFormatFields(hourly: HourlyDocument, findings: Findings): void {
  const {format} = hourly;
  const fault = (field: string, problem: string, accepted: string) =>
    findings.fault([...hourlyPath, field], {problem, accepted});
  if (format === "csv" && !hourly.columns)
    fault(
      "columns",
      "a CSV file needs the names of its columns",
      "a map with temperature, and timestamp or date and time",
    );
  if (format !== "csv") {
    const known = `the format ${format} says so itself`;
    if (hourly.columns) fault("columns", known, "columns only with format: csv");
    if (hourly.start_hour !== undefined) fault("start_hour", known, "start_hour only with format: csv");
    if (hourly.clock === "summer_time") fault("clock", `${format} is in standard time`, "clock only with format: csv");
    if (hourly.temperature_unit !== "C") fault("temperature_unit", `${format} is in °C`, "C");
    if (hourly.temperature_is !== "air") fault("temperature_is", `${format} is of the air`, "air");
  }
  if (format === "isd-lite" && hourly.utc_offset_h === undefined)
    fault("utc_offset_h", "times of this format are in UTC", "hours that local standard time is ahead of UTC, as -5");
  if (format !== "isd-lite" && hourly.utc_offset_h !== undefined)
    fault("utc_offset_h", `times of the format ${format} are local`, "utc_offset_h only with format: isd-lite");
  if (hourly.choose_typical_year && hourly.record === "typical_year")
    fault("choose_typical_year", "the record is a typical year already", "record: continuous, of several years");
}

function checkTimeColumns(hourly: HourlyDocument, findings: Findings): void {
  const {timestamp, date, time} = hourly.columns ?? {};
  const at = [...hourlyPath, "columns"];
  if (timestamp !== undefined && (date !== undefined || time !== undefined))
    findings.fault([...at, "timestamp"], {
      problem: "the time is given twice",
      accepted: "either timestamp, or date and time",
    });
  else if ((date === undefined) !== (time === undefined))
    findings.fault([...at, date === undefined ? "date" : "time"], {
      problem: "date and time go together",
      accepted: "both columns, or timestamp",
    });
  const hasTimes = timestamp !== undefined || date !== undefined || time !== undefined;
  if (hasTimes && hourly.start_hour !== undefined)
    findings.fault([...hourlyPath, "start_hour"], {
      problem: "the first hour is told by the time columns already",
      accepted: "start_hour only for a file without them",
    });
  if (!hasTimes && hourly.start_hour === undefined)
    findings.fault([...hourlyPath, "start_hour"], {
      problem: "a file without time columns needs the hour of its first row",
      accepted: "a number from 0 to below 24, or the time columns of the file",
    });
  if (!hasTimes && (hourly.choose_typical_year || hourly.clock === "summer_time"))
    findings.fault([...hourlyPath, hourly.choose_typical_year ? "choose_typical_year" : "clock"], {
      problem: "this needs to know when each row is",
      accepted: "the time columns of the file",
    });
}

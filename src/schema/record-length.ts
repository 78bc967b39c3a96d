import type {DocumentPath, Findings} from "./fault.ts";

/** Fewer days than this cannot stand for a climate. */
const fewestDays = 28;

/** Whether so many days, leap days among them or left out, make up whole years. */
function isWholeYears(days: number): boolean {
  const years = Math.round(days / 365.25);
  return years >= 1 && days >= 365 * years && days <= 365 * years + Math.ceil(years / 4);
}

/** Tells about part days and short records; false when there is not even a day. */
export function enoughDays(hours: number, days: number, path: DocumentPath, findings: Findings): boolean {
  const at = [...path, "file"];
  if (days < 1) {
    findings.fault(at, {
      problem: "the record is shorter than a day",
      found: `${hours} hours`,
      accepted: "whole days, best a year",
    });
    return false;
  }
  if (hours % 24 !== 0)
    findings.warn(at, {
      problem: `the record does not end with a whole day; its last ${hours % 24} hours are left out`,
      found: `${hours} hours`,
      accepted: "whole days",
    });
  if (days < fewestDays)
    findings.warn(at, {
      problem: "a record this short cannot stand for a climate",
      found: `${days} days`,
      accepted: "a year",
    });
  else if (!isWholeYears(days))
    findings.warn(at, {
      problem: "the record is not of whole years; its days are taken as if they made them",
      found: `${days} days`,
      accepted: "365 or 366 days, or several times as many",
    });
  return true;
}

/** What every yardstick prints: one JSON object a line, for another program to collect. */
import {existsSync, readFileSync} from "node:fs";

export function tell<Fields extends {readonly what: string}>(fields: Fields): void {
  console.log(JSON.stringify(fields, (_, value) => (typeof value === "number" ? Number(value.toPrecision(6)) : value)));
}

const STATUS = "/proc/self/status";

/**
 * Most memory that this process has held at once [MB]. From Linux' own account where there is one: the other counts the
 * program that started this one, too.
 */
export function peakMB(): number {
  const kilobytes = existsSync(STATUS) && /VmHWM:\s*(\d+)/.exec(readFileSync(STATUS, "utf8"))?.[1];
  return (kilobytes ? Number(kilobytes) : process.resourceUsage().maxRSS) / 1024;
}

/** What commands make of their flags, and of names and dates. */
import {InvalidArgumentError, Option} from "commander";

/** A name as part of a file name: letters and digits of any script, the rest as hyphens; `otherwise` when it has none. */
export function fileWord(name: string, otherwise: string): string {
  const word = name
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-|-$/g, "");
  return word.slice(0, 40) || otherwise;
}

export function today(): string {
  return new Date().toLocaleDateString("en-GB", {day: "numeric", month: "long", year: "numeric"});
}

/** Of commands that compute on threads. */
export function workersOption(): Option {
  return new Option(
    "--workers <number>",
    "threads to compute on (default: as many as the machine has); results do not depend on it",
  ).argParser(toWorkers);
}

function toWorkers(text: string): number {
  const workers = Number(text);
  if (!Number.isInteger(workers) || workers < 1 || workers > 256)
    throw new InvalidArgumentError("It must be a whole number from 1 to 256.");
  return workers;
}

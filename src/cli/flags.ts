/** What commands make of their flags, and of dates. */
import {InvalidArgumentError, Option} from "commander";

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

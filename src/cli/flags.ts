/** What commands make of their flags, and of names and dates. */
import {InvalidArgumentError} from "commander";

/** A name as part of a file name: letters and digits of any script, the rest as hyphens. */
export function fileWord(name: string): string {
  const word = name
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-|-$/g, "");
  return word.slice(0, 40) || "material";
}

export function today(): string {
  return new Date().toLocaleDateString("en-GB", {day: "numeric", month: "long", year: "numeric"});
}

export function toWorkers(text: string): number {
  const workers = Number(text);
  if (!Number.isInteger(workers) || workers < 1 || workers > 256)
    throw new InvalidArgumentError("It must be a whole number from 1 to 256.");
  return workers;
}

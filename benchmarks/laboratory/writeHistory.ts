/** A long stiffness history to be read: every cycle recorded, failure at two thirds of them. */
import {closeSync, openSync, writeSync} from "node:fs";

const INITIAL = 6900; // [MPa]
const CHUNK = 50_000; // rows written at once
const ROW_BYTES = 16; // about: at the end of the file the record is at its end, too

/** @param bytes that the file has at least */
export function writeHistory(file: string, bytes: number): void {
  const descriptor = openSync(file, "w");
  try {
    const cycles = bytes / ROW_BYTES;
    let written = writeSync(descriptor, "cycle,modulus [MPa]\n");
    for (let first = 1; written < bytes; first += CHUNK) {
      const rows = Array.from({length: CHUNK}, (_, k) => `${first + k},${modulusAt((first + k) / cycles)}\n`);
      written += writeSync(descriptor, rows.join(""));
    }
  } finally {
    closeSync(descriptor);
  }
}

/** Half of the initial modulus at two thirds of the record [MPa]. */
function modulusAt(share: number): string {
  return (INITIAL * Math.max(0.1, 1 - 0.75 * share)).toFixed(2);
}

/** What every yardstick prints: one JSON object a line, for another program to collect. */
export function tell<Fields extends {readonly what: string}>(fields: Fields): void {
  console.log(JSON.stringify(fields, (_, value) => (typeof value === "number" ? Number(value.toPrecision(6)) : value)));
}

export function medianOf(values: readonly number[]): number {
  return values.toSorted((p, q) => p - q)[values.length >> 1];
}

/** Most memory that this process has held at once [MB]. */
export function peakMB(): number {
  return process.resourceUsage().maxRSS / 1024;
}

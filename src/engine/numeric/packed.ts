/**
 * Symmetric matrices packed in panels of six rows: panel r holds rows 6r … 6r + 5 of columns 0 … 6r + 5, column by column,
 * so that six rows of one column lie together and elimination runs through memory in order. Only the lower triangle, i ≥ j,
 * has a meaning; the panel of the last rows is filled up with zeros.
 */

export const PANEL = 6; // rows

/** Doubles of a packed matrix of order n. */
export function packedLength(n: number): number {
  const panels = Math.ceil(n / PANEL);
  return 18 * panels * (panels + 1);
}

/** Where row i begins: entry (i, j), j ≤ i, is at packedRow(i) + 6·j. */
export function packedRow(i: number): number {
  const r = Math.floor(i / PANEL);
  return 18 * r * (r + 1) + (i - PANEL * r);
}

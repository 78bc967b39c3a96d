/**
 * Slope of a piecewise cubic that has no extremum between its points, where two secants meet: their weighted harmonic mean;
 * zero where they differ in sign.
 *
 * @param before   secant over the length `hBefore`
 * @param behind   secant over the length `hBehind`
 * @source Fritsch & Butland 1984, doi:10.1137/0905021
 */
export function monotoneSlope(before: number, hBefore: number, behind: number, hBehind: number): number {
  if (before * behind <= 0) return 0;
  const w = (hBefore + 2 * hBehind) / (3 * (hBefore + hBehind)); // of the secant before
  return (before * behind) / (w * behind + (1 - w) * before);
}

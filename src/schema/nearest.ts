/** Edits (insert, delete, replace, swap neighbours) from one word to another; optimal string alignment distance. */
export function editDistance(a: string, b: string): number {
  const d = Array.from({length: a.length + 1}, (_, i) => [i, ...new Array<number>(b.length).fill(0)]);
  for (let j = 1; j <= b.length; j++) d[0][j] = j;
  for (let i = 1; i <= a.length; i++) {
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      d[i][j] = Math.min(d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        d[i][j] = Math.min(d[i][j], d[i - 2][j - 2] + 1);
    }
  }
  return d[a.length][b.length];
}

const plain = (word: string) => word.toLowerCase().replaceAll(/[\s_-]+/g, "");

/** The candidate that was probably meant: a few edits away, or the same word without its unit. Null: none is near. */
export function nearest(word: string, candidates: Iterable<string>): string | null {
  const meant = plain(word);
  if (meant.length === 0 || meant.length > 100) return null;
  let best: string | null = null;
  let bestDistance = Infinity;
  for (const candidate of candidates) {
    const target = plain(candidate);
    if (target.length > 100) continue;
    const shortened = meant.length >= 3 && (target.startsWith(meant) || meant.startsWith(target)) ? 1 : Infinity;
    const distance = Math.min(editDistance(meant, target), shortened);
    if (distance < bestDistance) {
      best = candidate;
      bestDistance = distance;
    }
  }
  return bestDistance <= Math.max(1, Math.floor(meant.length / 3)) ? best : null;
}

/** Repeatable numbers in (−1, 1): Park & Miller's minimal standard generator. */
export function numbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48271) % 2147483647;
    return (2 * state) / 2147483647 - 1;
  };
}

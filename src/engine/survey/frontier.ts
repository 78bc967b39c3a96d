/** Designs of which none lasts longer for less. */

export interface Design {
  readonly life: number; // [years]
  readonly cost: number; // [cur/m²]
}

/** Those that no other design beats in both, from the cheapest to the longest life. */
export function frontierOf<D extends Design>(designs: readonly D[]): D[] {
  const frontier: D[] = [];
  for (const design of designs.toSorted((a, b) => a.cost - b.cost || b.life - a.life))
    if (frontier.length === 0 || design.life > frontier[frontier.length - 1].life) frontier.push(design);
  return frontier;
}

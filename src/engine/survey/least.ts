/** The least of some steps, such as thicknesses that can be built, whose life reaches a target. */

export interface LeastSearch {
  readonly count: number; // of steps, ascending, ≥ 1
  readonly target: number; // [years]
  /** The life of a step [years], null where there is none to be had; asked once for each, several at a time. */
  readonly lifeOf: (step: number) => Promise<number | null>;
}

export interface LeastFound {
  readonly known: readonly {readonly step: number; readonly life: number}[]; // all that have a life, ascending
  readonly least: number | null; // step; the one before it, if any, misses the target. null: none reaches it
  readonly best: number | null; // step of the longest life among those known; null: no step has a life
  readonly falls: readonly {readonly from: number; readonly to: number}[]; // between known steps the life gets shorter
}

/** Steps looked at in any case, evenly over all: a life that falls with thickness shows. */
const LOOKS = 5;

/** Shorter by less is noise of the computation [–]. */
const FALL = 0.01;

/**
 * Looks at a few steps over the whole range, then halves the first gap in which the target is passed, down to neighbours. Where
 * no look reaches it, the neighbourhood of the best is followed upward. One more step above the least is looked at, so that a
 * life that only just touches the target is seen.
 *
 * Between two looks that both miss, a short peak stays unseen. A step without a life misses the target.
 */
export async function leastReaching({count, target, lifeOf}: LeastSearch): Promise<LeastFound> {
  const lives = new Map<number, number | null>();
  const ask = async (steps: readonly number[]): Promise<void> => {
    const fresh = steps.filter(s => s >= 0 && s < count && !lives.has(s));
    const found = await Promise.all(fresh.map(lifeOf));
    fresh.forEach((s, k) => {
      lives.set(s, found[k]);
    });
  };
  const looks = Math.min(LOOKS, count);
  await ask([
    ...new Set(Array.from({length: looks}, (_, k) => Math.round((k * (count - 1)) / Math.max(1, looks - 1)))),
  ]);
  if (!knownOf(lives).some(({life}) => life >= target)) await climb(lives, ask);
  let least = await halved(lives, ask, target);
  if (least !== null) {
    await ask([least + 1]);
    least = firstReaching(lives, target);
  }
  const known = knownOf(lives);
  return {known, least, best: bestOf(lives), falls: fallsOf(known)};
}

type Lives = ReadonlyMap<number, number | null>;
type Ask = (steps: readonly number[]) => Promise<void>;

/** Until both neighbours of the longest life are known: every gap beside it is halved. */
async function climb(lives: Lives, ask: Ask): Promise<void> {
  for (;;) {
    const steps = [...lives.keys()].sort((a, b) => a - b);
    const at = steps.indexOf(bestOf(lives) ?? -1);
    if (at < 0) return;
    const gaps = [[steps[at - 1], steps[at]] as const, [steps[at], steps[at + 1]] as const].filter(
      ([a, b]) => a !== undefined && b !== undefined && b - a > 1,
    );
    if (gaps.length === 0) return;
    await ask(gaps.map(([a, b]) => Math.floor((a + b) / 2)));
  }
}

/** Down to a step that reaches the target and one before it that does not. */
async function halved(lives: Lives, ask: Ask, target: number): Promise<number | null> {
  for (;;) {
    const first = firstReaching(lives, target);
    if (first === null || first === 0) return first;
    const below = Math.max(...[...lives.keys()].filter(s => s < first));
    if (first - below <= 1) return first;
    await ask([Math.floor((below + first) / 2)]);
  }
}

function firstReaching(lives: Lives, target: number): number | null {
  return knownOf(lives).find(({life}) => life >= target)?.step ?? null;
}

function knownOf(lives: Lives): {step: number; life: number}[] {
  return [...lives].flatMap(([step, life]) => (life === null ? [] : [{step, life}])).sort((a, b) => a.step - b.step);
}

function bestOf(lives: Lives): number | null {
  const known = knownOf(lives);
  return known.length === 0 ? null : known.reduce((best, one) => (one.life > best.life ? one : best)).step;
}

function fallsOf(known: LeastFound["known"]): LeastFound["falls"] {
  return known
    .slice(1)
    .flatMap(({step, life}, k) => (life < known[k].life * (1 - FALL) ? [{from: known[k].step, to: step}] : []));
}

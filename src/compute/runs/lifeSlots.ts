/** Lives of many studies, each on a worker of its own: none waits for another's part of the same life. */
import {Cancelled} from "../../engine/errors.ts";
import type {LifeResult, Study} from "../../engine/life/types.ts";
import type {Pool} from "../../pool/index.ts";
import {computeLife} from "../life.ts";
import type {OpenPool} from "../pools.ts";

export interface LifeSlots {
  readonly count: number;
  /** @throws InputError; Cancelled. The slot may be used again all the same */
  compute(study: Study, slot: number): Promise<LifeResult>;
  close(): Promise<void>;
}

export function openLifeSlots(openPool: OpenPool, count: number, signal?: AbortSignal): LifeSlots {
  const pools: Pool[] = Array.from({length: count}, () => openPool(1));
  return {
    count,
    compute: async (study, slot) => {
      try {
        return await computeLife(study, {pool: pools[slot], signal});
      } catch (error) {
        // A pool is of no use after a fault.
        if (!(error instanceof Cancelled)) pools[slot] = openPool(1);
        throw error;
      }
    },
    close: async () => {
      await Promise.all(pools.map(pool => pool.close()));
    },
  };
}

import type {LifeTask} from "../../engine/life/index.ts";

export interface NeededTasks {
  readonly tasks: readonly LifeTask[]; // in their order, their needs by the new places
  readonly places: readonly number[]; // of each in the whole list
}

/** The tasks that are wanted, and those whose results they need. */
export function onlyNeeded(all: readonly LifeTask[], wanted: readonly boolean[]): NeededTasks {
  const needed = [...wanted];
  for (let k = all.length - 1; k >= 0; k--) if (needed[k]) for (const n of all[k].needs) needed[n] = true; // needs are earlier
  const places = all.flatMap((_, k) => (needed[k] ? [k] : []));
  const placeOf = new Map(places.map((k, place) => [k, place]));
  const tasks = places.map(k => ({...all[k], needs: all[k].needs.map(n => placeOf.get(n)!)}));
  return {tasks, places};
}

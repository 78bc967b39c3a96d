/** Finished points by key, wherever they are kept. */
export interface Run {
  readonly path: string | null; // of the file; null: there is none
  readonly count: number; // points in it
  has(key: string): boolean;
  read(key: string): unknown;
  append(key: string, result: unknown): void;
  /** The run is of no more use, what it has is safe. */
  close(): void;
}

/** A run that is kept nowhere. */
export function unsavedRun(): Run {
  return {
    path: null,
    count: 0,
    has: () => false,
    read: key => {
      throw new Error(`no point ${key}: this run keeps none`);
    },
    append: () => undefined,
    close: () => undefined,
  };
}

/**
 * A run kept in memory, so that a computation that was broken off goes on from what it had. Closing it changes nothing: it may
 * be used again.
 */
export function memoryRun(): Run {
  const points = new Map<string, unknown>();
  return {
    path: null,
    get count() {
      return points.size;
    },
    has: key => points.has(key),
    read: key => {
      if (!points.has(key)) throw new Error(`no point ${key}`);
      return points.get(key);
    },
    append: (key, result) => void points.set(key, result),
    close: () => undefined,
  };
}

/** Those points of a run whose keys begin alike; closing it is left to the run. */
export function partOfRun(run: Run, prefix: string): Run {
  return {
    ...run,
    has: key => run.has(prefix + key),
    read: key => run.read(prefix + key),
    append: (key, result) => run.append(prefix + key, result),
    close: () => undefined,
  };
}

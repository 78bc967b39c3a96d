/**
 * Results in memory that threads share, so that passing them on copies nothing. Such memory is freed only when every
 * thread has noticed that it is of no more use, and threads that allocate little notice late: so it is used again instead.
 */

/**
 * The same with its arrays of doubles in shared memory. A page may have none: then arrays are copied with each message.
 *
 * @param spare  memory to use again; what is used is taken out
 */
export function inSharedMemory<T>(value: T, spare: SharedArrayBuffer[]): T {
  if (typeof SharedArrayBuffer === "undefined") return value;
  if (value instanceof Float64Array) {
    const fits = spare.findIndex(s => s.byteLength === value.byteLength);
    const memory = fits < 0 ? new SharedArrayBuffer(value.byteLength) : spare.splice(fits, 1)[0];
    const shared = new Float64Array(memory);
    shared.set(value);
    return shared as T;
  }
  if (Array.isArray(value)) return value.map(own => inSharedMemory(own, spare)) as T;
  if (isPlain(value)) {
    return Object.fromEntries(Object.entries(value).map(([key, own]) => [key, inSharedMemory(own, spare)])) as T;
  }
  return value;
}

/** The shared memory that a result is in. */
export function sharedMemoryOf(value: unknown): SharedArrayBuffer[] {
  if (typeof SharedArrayBuffer === "undefined") return [];
  if (value instanceof Float64Array) return value.buffer instanceof SharedArrayBuffer ? [value.buffer] : [];
  if (Array.isArray(value)) return value.flatMap(sharedMemoryOf);
  return isPlain(value) ? Object.values(value).flatMap(sharedMemoryOf) : [];
}

function isPlain(value: unknown): value is object {
  return typeof value === "object" && value !== null && Object.getPrototypeOf(value) === Object.prototype;
}

/** The operations in which the time goes, on a memory of their own, by whichever way the machine does them fastest. */
import {InputError} from "../errors.ts";
import {type Instance, instantiate} from "../wasm/index.ts";
import {PANEL, packedLength, packedRow} from "./packed.ts";
import * as plain from "./plain.ts";

/**
 * Packed matrices and maps in one memory. Addresses count doubles, those of maps 32-bit integers; what the operations do
 * stands with their plain form (plain.ts). Not to be used by two computations at a time.
 */
export interface Kernel {
  readonly kind: "plain" | "simd";
  /** The memory as doubles and as integers. Calling `reserve` may put others in their place. */
  doubles: Float64Array;
  integers: Int32Array;
  /** Makes the memory at least so long [doubles]; what was in it may be lost. */
  reserve(length: number): void;
  eliminate(front: number, n: number, start: number, end: number): number;
  extendAdd(front: number, child: number, n: number, skip: number, map: number): void;
  addElement(front: number, element: number, m: number, map: number): void;
  gather(to: number, from: number, n: number, order: number): void;
}

export function plainKernel(): Kernel {
  const kernel: Kernel = {
    kind: "plain",
    doubles: new Float64Array(0),
    integers: new Int32Array(0),
    reserve: length => {
      if (length <= kernel.doubles.length) return;
      kernel.doubles = new Float64Array(length);
      kernel.integers = new Int32Array(kernel.doubles.buffer);
    },
    eliminate: (...at) => plain.eliminate(kernel.doubles, ...at),
    extendAdd: (...at) => plain.extendAdd(kernel.doubles, kernel.integers, ...at),
    addElement: (...at) => plain.addElement(kernel.doubles, kernel.integers, ...at),
    gather: (...at) => plain.gather(kernel.doubles, kernel.integers, ...at),
  };
  return kernel;
}

const PAGE = 65536; // bytes

/** @returns null where there are no 128-bit vectors */
export function simdKernel(): Kernel | null {
  const instance: Instance | null = instantiate();
  if (!instance) return null;
  const {memory} = instance;
  const view = (): void => {
    kernel.doubles = new Float64Array(memory.buffer);
    kernel.integers = new Int32Array(memory.buffer);
  };
  const kernel: Kernel = {
    kind: "simd",
    doubles: new Float64Array(0),
    integers: new Int32Array(0),
    reserve: length => {
      const missing = Math.ceil((8 * length - memory.buffer.byteLength) / PAGE);
      if (missing <= 0) return;
      memory.grow(missing);
      view();
    },
    eliminate: (front, n, start, end) => instance.eliminate(8 * front, n, start, end),
    extendAdd: (front, child, n, skip, map) => instance.extendAdd(8 * front, 8 * child, n, skip, 4 * map),
    addElement: (front, element, m, map) => instance.addElement(8 * front, 8 * element, m, 4 * map),
    gather: (to, from, n, order) => instance.gather(8 * to, 8 * from, n, 4 * order),
  };
  view();
  return kernel;
}

let best: Kernel | null = null;

/** The fastest kernel of this thread, one for all who compute in it one after the other. */
export function threadKernel(): Kernel {
  best ??= simdKernel() ?? plainKernel();
  return best;
}

/**
 * Eliminates unknowns start … end − 1 of a packed matrix in the kernel's memory, the earlier ones being gone.
 *
 * @throws InputError "domain" when a pivot is not positive: the matrix is not positive definite
 */
export function eliminate(kernel: Kernel, front: number, n: number, start: number, end: number): void {
  const refused = kernel.eliminate(front, n, start, end);
  if (refused < 0) return;
  const pivot = kernel.doubles[front + packedRow(refused) + PANEL * refused];
  throw new InputError("domain", `pivot ${refused}`, pivot, "> 0: the stiffness must be positive definite");
}

/**
 * The Schur complement of a packed matrix on all but its first `count` unknowns.
 *
 * @param kernel its memory is overwritten
 * @param n      order of the matrix
 * @param fill   adds the matrix into M from `front` on, all zeros before
 * @returns packed, of order n − count
 * @throws InputError as `eliminate`
 */
export function eliminateFront(
  kernel: Kernel,
  n: number,
  count: number,
  fill: (M: Float64Array, front: number) => void,
): Float64Array {
  const left = n - count;
  const front = 2 * Math.ceil(left / 4); // behind the order in which the rest is gathered
  const result = front + packedLength(n);
  kernel.reserve(result + packedLength(left));
  const {doubles: M, integers} = kernel;
  M.fill(0, front, result);
  fill(M, front);
  for (let k = 0; k < left; k++) integers[k] = count + k;
  eliminate(kernel, front, n, 0, count);
  kernel.gather(result, front, left, 0);
  return M.slice(result, result + packedLength(left));
}

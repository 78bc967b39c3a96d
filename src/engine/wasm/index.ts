/**
 * The operations of numeric/plain.ts on 128-bit vectors, compiled from assembly/kernel.ts and embedded as text.
 * `npm run build:wasm` writes compiled.ts anew; a test compiles the source and compares.
 */
import {COMPILED} from "./compiled.ts";

/** What is used of the interface that pages and Node share; TypeScript has it only together with a page's. */
declare const WebAssembly: {
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Instance: new (module: object) => {readonly exports: unknown};
};

/** Addresses are bytes. */
export interface Instance {
  readonly memory: {readonly buffer: ArrayBuffer; grow(pages: number): number};
  eliminate(front: number, n: number, start: number, end: number): number;
  extendAdd(front: number, child: number, n: number, skip: number, map: number): void;
  addElement(front: number, element: number, m: number, map: number): void;
  gather(to: number, from: number, n: number, order: number): void;
}

/** An instance with a memory of its own; null where the machine has no 128-bit vectors or may not compile. */
export function instantiate(): Instance | null {
  try {
    const bytes = Uint8Array.from(atob(COMPILED), c => c.charCodeAt(0));
    return new WebAssembly.Instance(new WebAssembly.Module(bytes)).exports as Instance;
  } catch {
    return null; // not known here, or forbidden by a page's policy: the plain twin serves
  }
}

import type {Part} from "./parts.ts";

/** How one part grows along one size. */
export interface GrowthLine {
  readonly what: "growth";
  readonly along: "elements" | "wavenumbers" | "wheel positions" | "crack states" | "layers";
  readonly part: Part | "whole wavenumbers" | "flop";
  readonly points: readonly {readonly size: number; readonly value: number}[]; // [ms] or multiply–adds
  readonly exponent: number; // of the power law that fits best
}

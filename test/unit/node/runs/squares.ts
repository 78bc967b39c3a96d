/** What the tests of runs compute. */
import type {RunHeader} from "../../../../src/node/runs/index.ts";

export const HEADER: RunHeader = {software: "1.2.3", inputs: "abc", settings: {command: "squares", accuracy: 2}};

export interface Square {
  readonly square: number;
  readonly root: number;
}

export function square(k: number): Square {
  return {square: k * k, root: Math.sqrt(k) / 3};
}

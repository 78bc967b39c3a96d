import {expect, test} from "vitest";
import {inSharedMemory, sharedMemoryOf} from "../../../src/pool/sharedMemory.ts";

const result = {
  kind: "done",
  lists: [{values: Float64Array.of(1, 2)}, {values: Float64Array.of(3)}],
  text: "x",
  none: null,
};

test("arrays of doubles lie in shared memory, everything else is as it was", () => {
  const shared = inSharedMemory(result, []);
  expect(shared).toEqual(result);
  expect(sharedMemoryOf(shared).map(s => s.byteLength)).toEqual([16, 8]);
  expect(sharedMemoryOf(result)).toEqual([]);
});

test("spare memory is used where it fits, and what is not stays", () => {
  const spare = [8, 24, 16, 16].map(length => new SharedArrayBuffer(length));
  const [eight, large, first, second] = spare;
  const shared = inSharedMemory(result, spare);
  expect(shared).toEqual(result);
  expect(sharedMemoryOf(shared)).toEqual([first, eight]);
  expect(spare).toEqual([large, second]);
});

import {expect, test} from "vitest";
import {settledPattern} from "../../../src/engine/life/contact.ts";

/** Faults of each set of three stretches, by its bits. */
const faultsBy =
  (faults: readonly number[]) =>
  (pattern: number): number =>
    faults[pattern];

test("a set without fault stands, from wherever one begins", () => {
  // Stretches 0 and 2 want to be closed: what a set has otherwise is at fault.
  const faults = faultsBy([...Array(8).keys()].map(pattern => pattern ^ 0b101));
  for (let start = 0; start < 8; start++) expect(settledPattern(start, 3, faults)).toBe(0b101);
});

test("where two agree, the one that it began with", () => {
  const faults = faultsBy([0, 0b10, 0b01, 0]);
  expect(settledPattern(0b00, 2, faults)).toBe(0b00);
  expect(settledPattern(0b11, 2, faults)).toBe(0b11);
});

test("where none agrees, the first of those with fewest faults", () => {
  const faults = faultsBy([0b11, 0b10, 0b11, 0b10]);
  for (let start = 0; start < 4; start++) expect(settledPattern(start, 2, faults)).toBe(0b01);
});

test("one that turning over never reaches is found all the same", () => {
  const faults = faultsBy([0b01, 0b01, 0, 0b11]);
  expect(settledPattern(0, 2, faults)).toBe(0b10);
});

import {describe, expect, test} from "vitest";
import {leastReaching} from "../../../src/engine/survey/index.ts";

const search = async (lives: readonly (number | null)[], target: number) => {
  const asked: number[] = [];
  const found = await leastReaching({
    count: lives.length,
    target,
    lifeOf: async step => {
      asked.push(step);
      return lives[step];
    },
  });
  expect(new Set(asked).size).toBe(asked.length); // nothing twice
  return {...found, asked: asked.length};
};

const growing = Array.from({length: 33}, (_, k) => 2 * 1.1 ** k);

describe("least step that reaches a target", () => {
  test("of growing lives, for every target", async () => {
    for (const target of [2.1, 3, 5, 7.7, 20, 42]) {
      const found = await search(growing, target);
      expect(found.least).toBe(growing.findIndex(l => l >= target));
      expect(found.known.some(k => k.step === found.least! - 1)).toBe(true); // the neighbour that misses
      expect(found.falls).toEqual([]);
      expect(found.asked).toBeLessThanOrEqual(5 + 3 + 1);
    }
  });

  test("the smallest, and none", async () => {
    expect((await search(growing, 1)).least).toBe(0);
    const none = await search(growing, 1000);
    expect(none).toMatchObject({least: null, best: 32});
  });

  test("a life that falls again: the peak is climbed, the fall is told", async () => {
    const peaked = Array.from({length: 33}, (_, k) => 50 - (k - 11) ** 2 / 10);
    const found = await search(peaked, 49.8);
    expect(found.least).toBe(peaked.findIndex(l => l >= 49.8));
    expect(found.falls.length).toBeGreaterThan(0);
    expect(await search(peaked, 51)).toMatchObject({least: null, best: 11});
  });

  test("steps without a life miss, and are no fall", async () => {
    const found = await search([2, null, 6, 8], 5);
    expect(found).toMatchObject({least: 2, falls: [], best: 3});
    expect(found.known.map(k => k.step)).toEqual([0, 2, 3]);
    expect(await search([null, null], 5)).toMatchObject({least: null, best: null, known: []});
  });

  test("one step alone, two steps", async () => {
    expect(await search([5], 4)).toMatchObject({least: 0, falls: []});
    expect(await search([5], 6)).toMatchObject({least: null, best: 0});
    expect(await search([5, 7], 6)).toMatchObject({least: 1});
  });
});

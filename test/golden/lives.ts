import {readFileSync} from "node:fs";
import {expect, test} from "vitest";
import {lifeOf} from "../../src/engine/life/index.ts";
import {lifeTable} from "../../src/report/index.ts";
import {readStudy} from "../../src/schema/index.ts";

const folder = new URL("../../examples/", import.meta.url);

/** Runs an example whole and holds its table of lives against the committed one. */
export function goldenLives(name: string): void {
  test(`${name} gives the lives it gave before`, {timeout: 600_000}, async () => {
    const outcome = readStudy(readFileSync(new URL(`${name}.yaml`, folder), "utf8"), {
      fileName: `${name}.yaml`,
      readCsv: path => readFileSync(new URL(path, folder), "utf8"),
    });
    if (outcome.kind === "faults") throw new Error(outcome.faults.map(f => f.problem).join("; "));
    const result = lifeOf(outcome.study);
    for (const t of result.treatments) {
      const years = Object.fromEntries(t.histories.map(h => [h.scenario, h.life.years]));
      // A second cause never makes a life longer.
      expect(years.together).toBeLessThanOrEqual(Math.min(years.traffic, years.thermal));
    }
    await expect(lifeTable(result, {colour: false, width: 100})).toMatchFileSnapshot(`${name}.txt`);
  });
}

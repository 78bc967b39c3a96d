/** Samples of uncertain inputs beside one whole life of the same study. */

import {computeLife, computeModel} from "../../src/compute/index.ts";
import {changedLives, type Study} from "../../src/engine/life/index.ts";
import {type Input, inputMap, points} from "../../src/engine/risk/index.ts";
import {changeOf, isStructural} from "../../src/engine/uncertainty/index.ts";
import {openLifePool} from "../../src/node/index.ts";
import {tell} from "../line.ts";
import {exampleRisk, ROAD} from "../section.ts";
import {timesIn} from "../times.ts";

const WORKERS = 2;
const RUNS = 3;
const LIGHT = 10_000;
const SOLVED = 4; // sections on each thread, by whose time that of 2,000 is told
const SPAN = 1.5; // of exponents, as far as the draws reach [–]

/** As sections are solved for one sample each. */
const coarse = (study: Study): Study => ({
  ...study,
  accuracy: 0.02,
  bins: {kind: "derive", count: 4},
});

export async function riskSamples(versions: Readonly<Record<string, string>>): Promise<void> {
  const {study, risk} = exampleRisk(ROAD);
  const about = {study: ROAD, workers: WORKERS, versions};
  const pool = openLifePool(WORKERS);
  const timed = async (once: () => Promise<unknown>): Promise<number> => {
    const start = performance.now();
    await once();
    return performance.now() - start;
  };
  await computeLife(study, {pool});
  const whole: number[] = [];
  for (let k = 0; k < RUNS; k++) whole.push(await timed(() => computeLife(study, {pool})));
  tell({what: "life beside samples", ...about, ...timesIn(whole)});

  const light = risk.inputs.filter(input => !isStructural(input));
  const ms = await timed(async () => {
    const model = await computeModel(study, SPAN, {pool});
    const map = inputMap(light as readonly Input[]);
    const u = points("sobol", {dimensions: map.dimensions, count: LIGHT, seed: 1, skip: 0});
    for (let i = 0; i < LIGHT; i++)
      changedLives(model, changeOf(model, light, map.values(u.subarray(i * map.dimensions, (i + 1) * map.dimensions))));
  });
  tell({what: "ten thousand samples of laws, traffic and temperature", ...about, ...timesIn([ms])});
  await pool.close();

  const singles = Array.from({length: WORKERS}, () => openLifePool(1));
  await Promise.all(singles.map(one => computeModel(coarse(study), SPAN, {pool: one})));
  const solved = await timed(() =>
    Promise.all(
      singles.map(async one => {
        for (let k = 0; k < SOLVED; k++) await computeModel(coarse(study), SPAN, {pool: one});
      }),
    ),
  );
  tell({
    what: "two thousand samples of everything, sections solved anew, by eight of them",
    ...about,
    ...timesIn([(solved * 2000) / (SOLVED * WORKERS)]),
  });
  await Promise.all(singles.map(one => one.close()));
}

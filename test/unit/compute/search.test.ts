/**
 * The search for a least thickness. Lives are invented, straight lines of the thickness, so that the least is known by hand;
 * what is asked of the study is read off the study itself.
 */
import {describe, expect, test} from "vitest";
import {
  type AskedSearch,
  computeSearch,
  hasFixedSpread,
  type PointComputer,
  type SearchPlan,
  searchPlan,
} from "../../../src/compute/index.ts";
import {InputError} from "../../../src/engine/errors.ts";
import {REFLECTION} from "../../../src/engine/survey/index.ts";
import {studyReader, type Variations} from "../../../src/schema/index.ts";
import {tinyText} from "../cli/tinyStudy.ts";

const variationsOf = (text: string): Variations =>
  studyReader({fileName: "study.yaml", readCsv: () => ({problem: "there is none"})}).variations(text);

const variations = variationsOf(tinyText);

function planOf(asked: AskedSearch, of = variations): SearchPlan {
  const outcome = searchPlan(of, asked);
  if (outcome.kind === "faults") throw new Error(outcome.faults.map(f => f.problem).join("; "));
  return outcome.plan;
}

const RANGE = {target: 10, from: 50, to: 80, step: 10} as const;

describe("what is searched", () => {
  test("steps of the overlay's first course, by default for all treatments", () => {
    const plan = planOf({target: 10, from: 40, to: 41, step: 0.1});
    expect(plan.steps).toEqual([40, 40.1, 40.2, 40.3, 40.4, 40.5, 40.6, 40.7, 40.8, 40.9, 41]);
    expect(plan.input.name).toBe("section.layers.overlay.thickness_mm");
    expect(plan.treatments).toEqual(["plain", "with interlayer"]);
    expect(plan.constant).toEqual([]);
  });

  test("the control is computed with one treatment alone", () => {
    const {treatments, computed} = planOf({...RANGE, treatments: ["with interlayer"]});
    expect([treatments, computed]).toEqual([["with interlayer"], ["plain", "with interlayer"]]);
  });

  test("a treatment with a thickness of its own does not change", () => {
    const own = tinyText.replace(
      /- name: with interlayer\n {4}changes:\n/,
      "- name: with interlayer\n    changes:\n      overlay_thickness_mm: 70\n",
    );
    expect(own).not.toBe(tinyText);
    expect(planOf(RANGE, variationsOf(own)).constant).toEqual(["with interlayer"]);
  });

  test("whether the layer is one that treatments lay", () => {
    expect([planOf(RANGE).isLaid, planOf({...RANGE, layer: "base"}).isLaid]).toEqual([true, false]);
  });

  test("all that is wrong at once", () => {
    const outcome = searchPlan(variations, {
      target: 120,
      layer: "top",
      from: 90,
      to: 50,
      step: 5,
      treatments: ["none"],
    });
    expect(outcome).toEqual({
      kind: "faults",
      faults: [
        {option: "layer", found: "top", problem: "the section has no such layer", need: "overlay, base, ground"},
        {
          option: "target",
          found: 120,
          problem: "a longer life is told by no mechanism",
          need: "above 0, up to 100 years",
        },
        {option: "from", found: 90, problem: "the thickest is thinner than the thinnest", need: "at most 50"},
        {
          option: "treatment",
          found: "none",
          problem: "the study has none of that name",
          need: "plain, with interlayer",
        },
      ],
    });
  });

  test.each([
    ["no step", {step: 0}, ["step"]],
    ["nothing at all", {from: Number.NaN, to: -1, step: 0}, ["from", "to", "step"]],
    ["a thousand steps", {from: 1, to: 1001, step: 1}, ["step"]],
    ["a step beyond the range", {step: 31}, ["step"]],
    ["no life", {target: 0}, ["target"]],
  ])("%s", (_, change, options) => {
    const outcome = searchPlan(variations, {...RANGE, ...change});
    expect(outcome.kind === "faults" && outcome.faults.map(f => f.option)).toEqual(options);
  });

  test.each([
    ["about the thickness that is searched", "deviation: 5", false],
    ["about a mean of its own", "mean: 60, deviation: 5", true],
  ])("a spread %s", (_, normal, isFixed) => {
    const input = `{field: section.layers.overlay.thickness_mm, normal: {${normal}}}`;
    const uncertain = variationsOf(`${tinyText}uncertainty:\n  inputs: [${input}]\n`);
    expect(hasFixedSpread(uncertain, planOf(RANGE, uncertain))).toBe(isFixed);
  });
});

/**
 * Years by millimetre: 60 mm last 12 years plain and 15 treated. Samples reach four fifths of it.
 *
 * @param failing  thickness that cannot be computed [mm]
 * @param refused  thickness that cannot be sampled [mm]
 */
function invented({failing, refused}: {readonly failing?: number; readonly refused?: number} = {}) {
  const asked: number[] = [];
  const sampled: number[] = [];
  let running = 0;
  const lives = (value: number) => [value / 5, value / 4];
  const computer: PointComputer = {
    missing: points => points.length,
    compute: async (points, take) => {
      for (const [k, point] of points.entries()) {
        asked.push(point[0].value);
        const treatments = ["plain", "with interlayer"].map((name, t) => ({
          name,
          overlay: point[0].value / 1e3,
          lives: {[REFLECTION.traffic]: {years: lives(point[0].value)[t], censored: false}},
          presentWorth: null,
        }));
        take(point[0].value === failing ? {failed: "No solution."} : {treatments, warnings: []}, point, k);
      }
    },
    sample: async ([{value}]) => {
      sampled.push(value);
      expect(++running).toBe(1); // each takes all threads
      await new Promise(resolve => setTimeout(resolve, 1));
      running--;
      if (value === refused) throw new InputError("domain", "uncertainty", "no sample that is a study", "some");
      return {years: lives(value).map(v => 0.8 * v), errors: [null, null], samples: 64};
    },
    close: async () => undefined,
  };
  return {computer, asked, sampled};
}

describe("the search", () => {
  const plan = planOf({target: 15, from: 40, to: 140, step: 5});
  const sampling = {reliability: 0.85, solutions: 16};
  const leastOf = ({treatments}: Awaited<ReturnType<typeof computeSearch>>): (number | null)[] =>
    treatments.map(({found}) => (found.least === null ? null : plan.steps[found.least]));

  test("the least of each treatment, no thickness computed twice", async () => {
    const {computer, asked} = invented();
    const found = await computeSearch({plan, computer});
    expect(leastOf(found)).toEqual([75, 60]); // 15·5 and 15·4
    expect(new Set(asked).size).toBe(asked.length);
    expect([...found.outcomes.keys()].map(step => plan.steps[step]).sort((a, b) => a - b)).toEqual(
      asked.toSorted((a, b) => a - b),
    );
    expect(found.sampling).toBeNull();
  });

  test("by lives that samples reach", async () => {
    const {computer, sampled} = invented();
    const found = await computeSearch({plan, sampling, computer});
    expect(leastOf(found)).toEqual([95, 75]); // 15·5/0.8 = 93.75 and 15·4/0.8
    expect(new Set(sampled).size).toBe(sampled.length); // none twice, for whichever treatment
    expect([...found.sampling!.samples.keys()].map(step => plan.steps[step]).sort((a, b) => a - b)).toEqual(
      sampled.toSorted((a, b) => a - b),
    );
  });

  test("where one cannot be sampled, none of those behind it is begun", async () => {
    const {computer, sampled} = invented({refused: 40}); // the first of the looks
    await expect(computeSearch({plan, sampling, computer})).rejects.toThrow("no sample that is a study");
    await new Promise(resolve => setTimeout(resolve, 20));
    expect(sampled).toEqual([40]);
  });

  test("a thickness that cannot be computed misses, and has no life", async () => {
    const found = await computeSearch({plan, computer: invented({failing: 70}).computer});
    expect(leastOf(found)).toEqual([75, 60]);
    const [{found: own}] = found.treatments;
    expect(own.known.every(({life}) => life > 0)).toBe(true);
    expect(own.known.some(({step}) => plan.steps[step] === 70)).toBe(false);
    expect(own.falls).toEqual([]);
  });

  test("none reaches it", async () => {
    const found = await computeSearch({plan: {...plan, target: 29}, computer: invented().computer});
    expect(leastOf(found)).toEqual([null, 120]); // 140/5 = 28
  });
});

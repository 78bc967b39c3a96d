/** A search read for people: expected words and designs are read off invented lives and costs. */
import {parseHTML} from "linkedom";
import {describe, expect, test} from "vitest";
import {type PointOutcome, REFLECTION} from "../../../src/engine/survey/index.ts";
import {frontierChart} from "../../../src/report/charts/index.ts";
import {
  costsCaption,
  pricedDesigns,
  type SearchCase,
  searchAnswer,
  searchRows,
} from "../../../src/report/live/index.ts";
import {searchWarnings} from "../../../src/report/searched.ts";

const {document} = parseHTML("<!doctype html><html><body></body></html>");
const plain = (text: string): string => text.replaceAll("\u00a0", " ");

const outcome = (years: number, presentWorth: number, warnings: readonly string[] = []): PointOutcome => ({
  treatments: [{name: "plain", overlay: 0.08, lives: {[REFLECTION.traffic]: {years, censored: false}}, presentWorth}],
  warnings,
});

const CASE: SearchCase = {
  study: "Road",
  layer: "overlay thickness",
  isLaid: true,
  steps: [40, 50, 60, 70],
  target: 10,
  accuracy: 0.02,
  treatments: [
    {
      name: "plain",
      found: {
        known: [
          {step: 0, life: 2},
          {step: 2, life: 12},
          {step: 3, life: 150},
        ],
        least: 2,
        best: 3,
        falls: [],
      },
    },
  ],
  outcomes: new Map<number, PointOutcome>([
    [0, outcome(2, 40, ["thin"])],
    [1, {failed: "No solution."}],
    [2, outcome(12, 20, ["thin"])],
    [3, outcome(150, 25)],
  ]),
  sampling: null,
  prices: {currency: "EUR", period: 40},
  constant: [],
};

test("of a layer that is there already no costs are told, and nothing is saved", () => {
  const present: SearchCase = {...CASE, isLaid: false, prices: null};
  expect(searchAnswer(present).details.join(" ")).not.toMatch(/cheapest|saves/);
  expect(searchWarnings(present)[0]).toContain("it is there already");
  expect(searchWarnings(CASE).join(" ")).not.toContain("it is there already");
});

test("thicknesses in the units of the reader", () => {
  const least = (units: "metric" | "us"): string => plain(searchRows({...CASE, units})[0].least);
  expect([least("metric"), least("us")]).toEqual(["60 mm", "2.36 in"]);
  expect(plain(searchAnswer({...CASE, units: "us"}).headline)).toContain("has to be 2.36 in with “plain”");
});

describe("what a longer life costs", () => {
  test("lives beyond a century are no better; what costs half as much again as the best is not drawn", () => {
    const {designs, frontier, dearer} = pricedDesigns(CASE);
    expect(designs.map(d => [d.thickness, d.life, d.cost])).toEqual([
      [60, 12, 20],
      [70, 100, 25],
    ]);
    expect(frontier.map(d => d.thickness)).toEqual([60, 70]);
    expect(dearer).toBe(1);
    expect(costsCaption(CASE, 1)).toContain("One more, which costs far more");
    expect(costsCaption(CASE, 0)).not.toContain("more, which");
  });

  test("what is the answer is drawn, whatever it costs", () => {
    const [treatment] = CASE.treatments;
    const dear = {...CASE, target: 1, treatments: [{...treatment, found: {...treatment.found, least: 0}}]};
    expect(pricedDesigns(dear).designs.map(d => d.thickness)).toEqual([40, 60, 70]);
  });

  test("labels do not lie on each other; the best have theirs first", () => {
    const design = (thickness: number, life: number, cost: number) => ({treatment: 0, thickness, life, cost});
    const best = [design(60, 12, 20), design(70, 40, 25)];
    const others = [design(55, 12, 20.01), design(50, 12, 20.02)];
    const picture = {designs: [...others, ...best], frontier: best, target: 10, currency: "EUR"};
    const page = String(frontierChart(picture, {document: document as never, width: 400}));
    for (const label of [">60<", ">70<", ">55<"]) expect(page).toContain(label); // 55 has room below its dot
    expect(page).not.toContain(">50<");
  });

  test("a label covers no dot", () => {
    const design = (thickness: number, life: number, cost: number) => ({treatment: 0, thickness, life, cost});
    const [low, high] = [design(60, 12, 20), design(70, 40, 25)];
    // 312 px for 5.4 EUR/m²: a dot 12 px further right lies where the label of the first would, above as below.
    const behind = [design(61, 12 * 1.045, 20.21), design(62, 12 / 1.045, 20.21)];
    const labels = (designs: readonly (typeof low)[]): string =>
      String(
        frontierChart(
          {designs, frontier: [low, high], target: 10, currency: "EUR"},
          {document: document as never, width: 400},
        ),
      );
    expect(labels([low, high])).toContain(">60<");
    expect(labels([low, high, ...behind])).not.toContain(">60<");
  });
});

test("what is built is told with all its figures", () => {
  const told = (units: "metric" | "us", steps: readonly number[]): string =>
    plain(searchRows({...CASE, units, steps})[0].least);
  expect(told("us", [40, 50, 10.25 * 25.4, 300])).toBe("10.25 in");
  expect(told("us", [40, 50, 1.125 * 25.4, 300])).toBe("1.125 in");
  expect(told("metric", [40, 50, 100.5, 300])).toBe("100.5 mm");
  expect(told("metric", [40, 50, 4.25 * 25.4, 300])).toBe("107.95 mm");
});

test("where the step below could not be computed no life is told", () => {
  const known = CASE.treatments[0].found.known;
  const [row] = searchRows({...CASE, treatments: [{name: "plain", found: {known, least: 2, best: 3, falls: []}}]});
  expect(row.below).toBe("–");
  expect(plain(row.remark)).toContain("50 mm could not be computed");
  const none = {...CASE, treatments: [{name: "plain", found: {known: [], least: null, best: null, falls: []}}]};
  expect(searchRows(none)[0]).toMatchObject({least: "none", life: "–", remark: "none could be computed"});
  expect(searchAnswer(none).details).toEqual(["“plain” could not be computed at any of them."]);
});

test("warnings once, with how often; what could not be computed by its thickness", () => {
  expect(searchWarnings(CASE).map(plain)).toEqual([
    "thin (2 of 4 points)",
    "50 mm could not be computed. No solution.",
  ]);
});

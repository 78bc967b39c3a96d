import {describe, expect, test} from "vitest";
import {toJson} from "../../../src/cli/json.ts";
import {progressText} from "../../../src/cli/progress.ts";
import {wantsColour} from "../../../src/cli/terminal.ts";

describe("colours", () => {
  test("only for a terminal that has them and a user who wants them", () => {
    expect(wantsColour({isTTY: true}, {})).toBe(true);
    expect(wantsColour({}, {})).toBe(false);
    expect(wantsColour({isTTY: true}, {TERM: "dumb"})).toBe(false);
    expect(wantsColour({isTTY: true}, {NO_COLOR: "1"})).toBe(false);
    expect(wantsColour({isTTY: true}, {NO_COLOR: ""})).toBe(true); // empty counts as not set
  });
});

describe("the progress line", () => {
  const state = {done: 0.25, label: "Plain, wheels at 5 °C", elapsed: 6000};

  test("shows bar, percent, remaining time and what is computed", () => {
    expect(progressText(state, 80)).toBe("█████░░░░░░░░░░░░░░░  25 %  18 s left       Plain, wheels at 5 °C");
  });

  test("guesses no time too early and goes over to minutes", () => {
    expect(progressText({...state, done: 0.01}, 80)).not.toContain("left");
    expect(progressText({...state, elapsed: 60_000}, 80)).toContain("3 min left");
  });

  test("never says 100 % before the end", () => {
    expect(progressText({...state, done: 0.9999}, 80)).toContain(" 99 %");
  });

  test("is cut to the width, down to nothing", () => {
    for (const width of [0, 1, 10, 30, 50])
      expect(progressText(state, width).length).toBeLessThanOrEqual(Math.max(width, 1));
  });
});

test("JSON has typed arrays as lists and null for what is infinite", () => {
  expect(toJson({a: Float64Array.of(1.5, Number.POSITIVE_INFINITY), b: [Int32Array.of(2)], c: "µε"})).toBe(
    '{"a":[1.5,null],"b":[[2]],"c":"µε"}\n',
  );
});

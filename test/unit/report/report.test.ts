import {parseHTML} from "linkedom";
import {describe, expect, test} from "vitest";
import type {LifeResult} from "../../../src/engine/life/types.ts";
import {answer} from "../../../src/report/answer.ts";
import {lifeReport} from "../../../src/report/index.ts";
import {type FixtureOptions, fixture} from "./fixture.ts";

const {document} = parseHTML("<!doctype html><html><body></body></html>");

function report(result: LifeResult): string {
  return lifeReport(result, {
    document,
    software: "0.1.0",
    inputHash: "3f9c1b7e22d0",
    date: "14 March 2025",
    sources: {"study.yaml": "name: <b>x</b>"},
    warnings: ["a warning of the reader"],
  });
}

const plain = (text: string) => text.replaceAll("\u00a0", " ");
const headline = (options: FixtureOptions) => plain(answer(fixture(options)).headline);

describe("answer", () => {
  test("gain", () => {
    expect(headline({})).toBe(
      "“Interlayer 10 mm” delays reflective cracking from 6.2 to 17.4 years (×2.8); traffic does most of the damage.",
    );
  });

  test("the treatment does not pay", () => {
    expect(
      headline({
        lives: [
          [8, 30, 7],
          [5, 30, 4.5],
        ],
      }),
    ).toMatch(/does not pay: .* 4.5 instead of 7 years \(×0.64\)/);
  });

  test("no practical difference", () => {
    expect(
      headline({
        lives: [
          [8, 30, 7],
          [8.2, 30, 7.2],
        ],
      }),
    ).toContain("makes no practical difference");
  });

  test("an ordinary mechanism governs, and the gain of the whole is told: 11 / 6.2", () => {
    expect(headline({fatigue: 11})).toContain("but ordinary fatigue at the underside of the asphalt");
    expect(headline({fatigue: 11})).toContain("governs there after 11 years, so the section as a whole gains ×1.8");
  });

  test("beyond the cap on one side or on both", () => {
    expect(
      headline({
        lives: [
          [8, 30, 7],
          [300, 900, 250],
        ],
        ordinary: false,
      }),
    ).toContain("from 7 to more than 100 years");
    expect(
      headline({
        lives: [
          [8, 30, 7],
          [300, 900, 250],
        ],
      }),
    ).toContain("governs there after 41 years");
    expect(
      headline({
        lives: [
          [300, 900, 250],
          [300, 900, 260],
        ],
      }),
    ).toContain("not predicted within 100 years");
  });

  test("everything censored names what was integrated, and nothing governs", () => {
    expect(headline({censored: true})).toContain("not predicted within 40 years");
    expect(report(fixture({censored: true})).includes("◂ governs")).toBe(false);
  });

  test("one treatment", () => {
    expect(headline({treatments: 1})).toBe(
      "“Overlay 80 mm” lasts 6.2 years; reflective cracking by traffic and temperature together governs, traffic doing most of the damage.",
    );
  });
});

describe("report", () => {
  const text = report(fixture());
  const page = parseHTML(text).document;

  test("answer first, then table, caution beside it", () => {
    const order = [
      "delays reflective cracking",
      '<table class="result"',
      "Before you use these numbers",
      "Lives by mechanism",
    ];
    const places = order.map(part => text.indexOf(part));
    expect(places.every((p, i) => p > 0 && (i === 0 || p > places[i - 1]!))).toBe(true);
  });

  test("nothing is loaded from anywhere, nothing runs", () => {
    expect(page.querySelectorAll("script, link, img, iframe, object, embed").length).toBe(0);
    expect(page.querySelectorAll("[src], [href]").length).toBe(0);
    expect(/@import|url\(|https?:/.exec(text)?.[0]).toBe(undefined);
  });

  test("all parts are there", () => {
    for (const part of [
      "more reliable than either life",
      "not by this mechanism",
      "qualified pavement engineer",
      "open question",
      "2.40×10⁻¹⁴", // growth coefficient in mm and µε
      "computed 412",
      "a warning of the reader",
      "scaled from its fatigue line",
      "3f9c1b7e22d0",
      "Rybicki",
      "Burmister",
      "ASTM E1049",
      "invented year of hours",
    ])
      expect(text.includes(part), part).toBe(true);
    expect(page.querySelectorAll("math").length).toBe(10);
  });

  test("input documents and names are text", () => {
    expect(text.includes("name: &lt;b&gt;x&lt;/b&gt;")).toBe(true);
    const evil = report(fixture({name: `</style><script>alert(1)</script>"`}));
    expect(evil.includes("<script")).toBe(false);
    expect(evil.match(/<\/style>/g)?.length).toBe(evil.match(/<style>/g)?.length);
  });

  test("figures are numbered in order", () => {
    const numbers = [...text.matchAll(/<b>Figure (\d+)\.<\/b>/g)].map(m => Number(m[1]));
    expect(numbers.length).toBeGreaterThan(7);
    expect(numbers).toEqual(numbers.map((_, i) => i + 1));
  });

  test("the same result gives the same file", () => {
    expect(report(fixture()) === text).toBe(true);
  });

  const cases: Record<string, FixtureOptions> = {
    "no temperature record": {thermal: false},
    "no ordinary mechanisms": {ordinary: false},
    "everything censored": {censored: true},
    "a single treatment": {treatments: 1},
    "a single treatment, traffic only": {treatments: 1, thermal: false, ordinary: false},
    "four treatments": {treatments: 4},
  };
  for (const [name, options] of Object.entries(cases))
    test(`${name}: whole, without a stray value`, () => {
      const body = report(fixture(options));
      const stray = /NaN|undefined|\[object|Infinity|∞(?!<)/.exec(body); // the ∞ of an integral is followed by its tag
      expect(stray && body.slice(stray.index - 80, stray.index + 40)).toBe(null);
      expect(body.trimEnd().endsWith("</html>")).toBe(true);
    });

  test("what was not computed is said", () => {
    expect(report(fixture({thermal: false})).includes("Reflection by temperature was not computed")).toBe(true);
    expect(report(fixture({ordinary: false})).includes("Ordinary fatigue away from the joint was not computed")).toBe(
      true,
    );
  });
});

describe("condition of the pavement", () => {
  const base = fixture();
  const told = ["Bond of the layers above", "Reinforcement", "Deflection tests at the joint"];

  test("bonds, reinforcement and deflection tests are told where there are any", () => {
    const tested = [
      {name: "approach", efficiency: 0.52, stiffness: 2e8, floor: false, loaded: 3.1e-4, computed: 2.9e-4},
      {name: "leave", efficiency: 0.61, stiffness: 4e8, floor: false, loaded: 2.8e-4, computed: 2.7e-4},
    ] as const;
    const reinforcement = {name: "Glass grid", depth: 0.07, height: 0.01, stiffness: 4e6, bondLength: 0.05};
    const treatments = base.treatments.map((t, k) => {
      if (k === 0) return t;
      const {section} = t.treatment;
      const layers = section.layers.map((l, i) => (i === 1 ? {...l, bondBelow: 0} : l));
      return {
        ...t,
        treatment: {...t.treatment, section: {...section, layers, reinforcement}},
        transfer: {...t.transfer!, tested},
      };
    });
    const text = plain(report({...base, treatments}));
    for (const part of told) expect(text).toContain(part);
    expect(text).toContain("Glass grid, 70 mm deep; EA 4,000 kN/m, let go over 50 mm on each side");
    expect(text).toContain("under Binder course free slip; elsewhere full bond");
    expect(text).toMatch(/approach<\/td><td class="n">52<\/td>\s*<td class="n">0.2<\/td><td class="n">310<\/td>/);
  });

  test("and take no room where there are none", () => {
    const text = plain(report(base));
    for (const part of told) expect(text).not.toContain(part);
  });
});

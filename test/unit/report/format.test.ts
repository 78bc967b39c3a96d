import {describe, expect, test} from "vitest";
import {
  beyondCap,
  celsius,
  count,
  figures,
  growthCoefficient,
  lifeText,
  megapascals,
  megapascalsPerMillimetre,
  microstrain,
  millimetres,
  percent,
  powerOfTen,
  ratio,
  years,
} from "../../../src/report/format.ts";

/** Numbers and units are joined by a space that does not break; a test reads better with a plain one. */
const plain = (text: string) => text.replaceAll("\u00a0", " ");

test("figures: significant digits, thousands, true minus, extremes", () => {
  const cases: [number, string][] = [
    [0, "0"],
    [3512, "3,512"],
    [30_000, "30,000"],
    [123_456, "123,000"],
    [0.35, "0.35"],
    [0.0123456, "0.0123"],
    [99.96, "100"],
    [10, "10"],
    [100, "100"],
    [-8.94, "−8.94"],
    [-0.00001, "−1.00×10⁻⁵"],
    [1.5e12, "1.50×10¹²"],
    [Infinity, "∞"],
    [Number.NaN, "not a number"],
  ];
  for (const [value, text] of cases) expect(figures(value), String(value)).toBe(text);
});

test("powers of ten", () => {
  expect(powerOfTen(2.4e-14)).toBe("2.40×10⁻¹⁴");
  expect(powerOfTen(-3e10, 2)).toBe("−3.0×10¹⁰");
});

test("units", () => {
  expect(plain(millimetres(0.08))).toBe("80 mm");
  expect(plain(millimetres(0.00035))).toBe("0.35 mm");
  expect(plain(megapascals(3.5e9))).toBe("3,500 MPa");
  expect(plain(megapascalsPerMillimetre(5e10))).toBe("50 MPa/mm");
  expect(plain(microstrain(1.15e-4))).toBe("115 µε");
  expect(plain(celsius(-8.94))).toBe("−8.9 °C");
  expect(plain(celsius(20))).toBe("20 °C");
  expect(plain(celsius(-0.02))).toBe("0 °C");
  expect(plain(percent(0.015))).toBe("1.5 %");
});

test("years and ratios with the figures that they deserve", () => {
  expect([0.294, 1, 6.24, 17.38, 19.97, 41.3].map(y => plain(years(y)))).toEqual([
    "0.29 years",
    "1 year",
    "6.2 years",
    "17.4 years",
    "20 years",
    "41 years",
  ]);
  expect([0.74, 1, 2.84, 12.34, 143.2].map(ratio)).toEqual(["×0.74", "×1", "×2.8", "×12.3", "×143"]);
});

test("passes in words from a million on", () => {
  expect([845, 12_345, 845_200, 999_900, 3_210_000, 45_600_000, 1.42e9].map(n => plain(count(n)))).toEqual([
    "845",
    "12,300",
    "845,000",
    "1 million",
    "3.2 million",
    "45.6 million",
    "1.4 billion",
  ]);
});

test("growth coefficient for mm and µε: A·10³·(10⁻⁶)ⁿ, by hand 2.4·10⁷·10³·10⁻²⁴", () => {
  const law = {coefficient: 2.4e7, exponent: 4, zoneLength: 0.01, referenceModulus: null, stiffnessExponent: 0};
  expect(growthCoefficient(law)).toBe("2.40×10⁻¹⁴");
});

describe("lives", () => {
  const life = (y: number, censored = false) => ({years: y, passes: 1, standardAxles: 1, censored});

  test("an ordinary life has no note", () => {
    expect(lifeText(life(6.2))).toEqual({short: "6.2", long: "6.2\u00a0years", note: null});
  });

  test("beyond 100 years the number goes to the note", () => {
    const text = lifeText(life(412));
    expect(text.short).toBe("> 100");
    expect(plain(text.long)).toBe("> 100 years by this mechanism");
    expect(plain(text.note ?? "")).toContain("computed 412 years");
  });

  test("exactly 100 years is told as it is, unless censored", () => {
    expect(beyondCap(life(100))).toBe(false);
    expect(beyondCap(life(100, true))).toBe(true);
    expect(lifeText(life(100)).short).toBe("100");
  });

  test("censored before 100 years tells where the integration stopped", () => {
    const text = lifeText(life(40, true));
    expect(text.short).toBe("> 40");
    expect(plain(text.note ?? "")).toContain("stopped at 40 years");
  });

  test("an infinite life is told", () => {
    expect(lifeText(life(Infinity, true)).short).toBe("> 100");
    expect(lifeText(life(Infinity, true)).note).not.toContain("∞");
  });
});

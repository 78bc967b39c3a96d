import {describe, expect, test} from "vitest";
import {integrateFronts, timeOf} from "../../../src/engine/life/fronts.ts";

describe("fronts in time", () => {
  const problem = {overlayThickness: 0.1, interlayerThickness: 0, horizon: 1000};
  test("two fronts at constant rates meet when their ways add up to the overlay", () => {
    const path = integrateFronts({
      ...problem,
      rates: (_t, _f, out) => {
        out.set([0, 1e-3, 3e-3]);
      },
    });
    expect(path.failed).toBe(true);
    const years = timeOf(path, f => f[1] + f[2], 0.0995);
    expect(years).toBeCloseTo(0.0995 / 4e-3, 6);
    expect(timeOf(path, f => f[2], 0.03)).toBeCloseTo(10, 6);
  });

  test("the interlayer's front stops when it is through", () => {
    const path = integrateFronts({
      overlayThickness: 0.1,
      interlayerThickness: 0.01,
      horizon: 1000,
      rates: (_t, f, out) => {
        out.set([5e-3, f[0] >= 0.01 ? 1e-2 : 0, 0]);
      },
    });
    expect(path.failed).toBe(true);
    expect(Math.max(...path.fronts.map(f => f[0]))).toBe(0.01);
    expect(path.years.at(-1)!).toBeCloseTo(2 + 9.95, 1); // 10 mm at 5 mm a year, then 99.5 mm at 10
  });

  test("nothing that moves is censored at the horizon", () => {
    const path = integrateFronts({...problem, rates: (_t, _f, out) => void out.fill(0)});
    expect(path.failed).toBe(false);
    expect(path.years.at(-1)).toBe(1000);
    expect(timeOf(path, f => f[1], 0.01)).toBe(Infinity);
  });

  test("a growth that explodes is followed to the end", () => {
    // dc/dt = c²/s + ε: t = (1/√(ε/s))·(arctan …), computed by quadrature here
    const rate = (c: number): number => 1e-5 + c * c * 40;
    let expected = 0;
    const n = 200_000;
    for (let k = 0; k < n; k++) expected += 0.0995 / n / rate(((k + 0.5) * 0.0995) / n);
    const path = integrateFronts({
      ...problem,
      rates: (_t, f, out) => {
        out.set([0, rate(f[1]), 0]);
      },
    });
    expect(timeOf(path, f => f[1], 0.0995) / expected).toBeCloseTo(1, 3);
  });
});

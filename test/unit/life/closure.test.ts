import fc from "fast-check";
import {describe, expect, test} from "vitest";
import {closedTips, closureMaps, openingForms, resolveClosure} from "../../../src/engine/life/closure.ts";
import type {CrackState, StateSpace} from "../../../src/engine/response/index.ts";

/** Two lengths of each crack, no mesh behind it. */
function space(interlayer: boolean): StateSpace {
  const na = interlayer ? 2 : 1;
  const states: CrackState[] = [];
  for (let a = 0; a < na; a++) {
    for (let b = 0; b < 2; b++)
      for (let c = 0; c < 2; c++) states.push({interlayer: a, underside: b, surface: c, through: a === na - 1});
  }
  return {
    interlayer: new Int32Array(na),
    underside: new Int32Array(2),
    surface: new Int32Array(2),
    interlayerLength: new Float64Array(na),
    undersideLength: new Float64Array(2),
    surfaceLength: new Float64Array(2),
    states,
    index: (a, b, c) => (a * 2 + b) * 2 + c,
    undersideNode: 0,
    mouthNode: 0,
  };
}

describe("closure of cracks", () => {
  const s = space(false);
  const maps = closureMaps(s);
  const both = s.index(0, 1, 1);
  const lowerOnly = s.index(0, 1, 0);
  const upperOnly = s.index(0, 0, 1);
  const out = new Float64Array(3);

  test("open cracks keep their own state", () => {
    resolveClosure(maps[both], (state, tip) => (state === both ? 1 + tip : 99), out);
    expect([...out]).toEqual([1, 2, 3]);
  });

  test("a compressed crack opens nothing, and the other sees the state without it", () => {
    const opening = (state: number, tip: number): number => {
      if (state === both) return tip === 2 ? -5 : 4;
      if (state === lowerOnly) return tip === 1 ? 7 : 0;
      throw new Error("not asked for");
    };
    resolveClosure(maps[both], opening, out);
    expect(out[1]).toBe(7);
    expect(out[2]).toBe(0);
  });

  test("closing one may let the other open", () => {
    const opening = (state: number, tip: number): number => {
      if (state === both) return tip === 1 ? -5 : -1;
      if (state === upperOnly) return 2;
      throw new Error("not asked for");
    };
    resolveClosure(maps[both], opening, out);
    expect(out[1]).toBe(0);
    expect(out[2]).toBe(2);
  });

  test("of cracks compressed alike the lower one is closed first, whatever rounding says", () => {
    const opening = (state: number, tip: number): number => {
      if (state === both) return tip === 1 ? -1 : -1 - 1e-12;
      if (state === upperOnly) return 2;
      throw new Error("not asked for");
    };
    resolveClosure(maps[both], opening, out);
    expect([out[1], out[2]]).toEqual([0, 2]);
  });

  test("a tip without a crack is not closed: compression ahead of it stays compression", () => {
    resolveClosure(maps[s.index(0, 0, 0)], () => -3, out);
    expect([...out]).toEqual([-3, -3, -3]);
  });

  test("through the interlayer, lower and restarted crack close as one", () => {
    const t = space(true);
    const map = closureMaps(t)[t.index(1, 1, 1)];
    const opening = (state: number, tip: number): number => {
      if (state === t.index(1, 1, 1)) return tip === 1 ? -1 : 1;
      if (state === t.index(0, 0, 1)) return 6;
      throw new Error("not asked for");
    };
    resolveClosure(map, opening, out);
    expect(out[1]).toBe(0);
    expect(out[2]).toBe(6);
  });

  test("sums of three cases are closed as tractions asked for one by one", () => {
    const number = fc.double({min: -1, max: 1, noNaN: true});
    const three = fc.tuple(number, number, number);
    const openings = fc.array(number, {minLength: 8 * 9, maxLength: 8 * 9});
    fc.assert(
      fc.property(fc.boolean(), fc.nat(7), openings, three, (interlayer, state, values, [x, y, z]) => {
        const t = space(interlayer);
        const map = closureMaps(t)[state % t.states.length];
        const opening = Float64Array.from(values);
        const sum = (v: Float64Array, k: number): number => v[k] * x + v[k + 1] * y + v[k + 2] * z;
        resolveClosure(map, (of, tip) => sum(opening, 9 * of + 3 * tip), out);
        const forms = openingForms(map, opening);
        const closed = closedTips(forms, x, y, z);
        for (let tip = 0; tip < 3; tip++) expect(sum(forms.values, 9 * closed + 3 * tip)).toBeCloseTo(out[tip], 15);
      }),
    );
  });
});

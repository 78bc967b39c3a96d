import {expect, test} from "vitest";
import {InputError} from "../../../src/engine/errors.ts";
import {modulusFromCbr, modulusFromReaction} from "../../../src/engine/section/index.ts";

const PSI = 6894.757; // Pa

test("from the CBR: MPa and psi forms of the same regression", () => {
  // Powell et al. 1984 (from memory): 17.6·5^0.64 = 49.3 MPa. Read elsewhere as 2554·CBR^0.64 psi: the same within rounding.
  expect(modulusFromCbr(5, "power").modulus / 1e6).toBeCloseTo(49.3, 1);
  expect(modulusFromCbr(5, "power").modulus / (2554 * 5 ** 0.64 * PSI)).toBeCloseTo(1, 2); // 17.6 has three digits
  // Heukelom & Klomp 1962 (from memory): also given as 1500·CBR psi, 3.4 % more than 10·CBR MPa.
  expect(modulusFromCbr(5, "linear").modulus / (1500 * 5 * PSI)).toBeCloseTo(1 / 1.034, 3);
});

test("from k: the rigid plate, and the rule that AASHTO (1993) has for it", () => {
  // k = M_R/19.4 in psi and psi/inch (from memory): a plate of 30 inches with ν between 0.4 and 0.45.
  const k = 100 * (PSI / 0.0254);
  expect(modulusFromReaction(k, "plate", 0.43).modulus / (1940 * PSI)).toBeCloseTo(1, 1);
  // 20.15·100^1.284 = 7452 psi (read: ingenieriaelemental.com, quoting the airfield code)
  expect(modulusFromReaction(k, "power", 0.4).modulus / PSI).toBeCloseTo(20.15 * 10 ** 2.568, 6);
});

test("outside their range they say so; nonsense throws", () => {
  expect(modulusFromCbr(15, "power")).toMatchObject({inside: false, range: [2, 12]});
  expect(modulusFromCbr(12, "power").inside).toBe(true);
  expect(() => modulusFromCbr(0, "power")).toThrow(InputError);
  expect(() => modulusFromReaction(1e7, "plate", 0.6)).toThrow("poisson");
});

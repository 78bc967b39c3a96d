import {expect, test} from "vitest";
import {typed} from "../../../src/web/parts/typed.ts";

test.each([
  ["5", 5],
  [" 25e-6 ", 25e-6],
  ["0,5", 0.5], // a decimal comma
  ["12,25", 12.25],
  ["−3", -3], // the minus of printed tables
  ["−0,5", -0.5],
  ["0,125", 0.125], // no thousands begin with 0
  ["1234,567", 1234.567], // nor have four digits before the comma
])("%s is a number", (text, value) => {
  expect(typed(text)).toBe(value);
});

test.each(["5,000", "12,500", "-1,000", "1,000,000", "abc", "", "1.2.3"])("%s is none, or may be two", text => {
  expect(typed(text)).toBe(text);
});

import {parse} from "csv-parse/sync";
import {expect, test} from "vitest";
import {frontsCsv, lifeTable} from "../../../src/report/index.ts";
import {fixture} from "./fixture.ts";

test("terminal table: governing row marked and explained, cautions, no colour codes when off", () => {
  const text = lifeTable(fixture(), {colour: false, width: 90});
  expect(text).toMatch(/▸ reflection, both together {2,}17\.4 {2,}1\.7 million {2,}2\.2 million {2,}×2\.8/);
  expect(text).toContain("Governs: reflective cracking by traffic and temperature together, 17.4 years; traffic");
  expect(text).toContain("qualified");
  expect(text).not.toContain("\u001b");
  expect(lifeTable(fixture(), {colour: true, width: 90})).toContain("\u001b[1;36m");
});

test("terminal table fits its width, losing columns and not numbers", () => {
  for (const width of [32, 50, 72, 90, 200]) {
    const lines = lifeTable(fixture(), {colour: false, width}).split("\n");
    const longest = Math.max(...lines.map(l => l.length));
    expect(longest, `at ${width}`).toBeLessThanOrEqual(Math.max(38, width)); // 38: mechanism and years, the least
    expect(lines.join("\n")).toContain("17.4");
  }
});

test("terminal table: a name cannot send control codes", () => {
  expect(lifeTable(fixture({name: "a\u001b[2Jb\nc"}), {colour: false, width: 80})).not.toContain("\u001b");
});

test("fronts as CSV: CRLF, units in names, quotes doubled, values in mm", () => {
  const {treatment, histories} = fixture().treatments[1]!;
  const text = frontsCsv(histories[0]!, {...treatment, name: 'a "b", c'});
  const lines = text.split("\r\n");
  expect(lines[0]).toBe("treatment,scenario,time_years,passes,interlayer_front_mm,underside_front_mm,surface_front_mm");
  expect(lines[1]).toBe('"a ""b"", c",traffic,0,0,0,0,0');
  expect(lines.at(-1)).toBe("");
  const rows = parse(text, {columns: true, cast: (v, c) => (c.header || c.index < 2 ? v : Number(v))}) as Record<
    string,
    number
  >[];
  expect(rows.length).toBe(histories[0]!.years.length);
  expect(rows.at(-1)!.interlayer_front_mm).toBeCloseTo(10, 6); // through the 10 mm interlayer
  expect(rows[0]!.treatment).toBe('a "b", c');
});

import {test} from "vitest";
import {verificationTable} from "../table.ts";
import {beam, uniform} from "./closed.ts";
import {balance, mirror, tips} from "./joint.ts";
import {uncutCases} from "./uncut.ts";

const {compare, heading, page} = verificationTable(
  "field",
  "The field around the joint",
  [
    "Strains and stresses of the picture's cells ([theory](../theory/field.md)) against the layered solution of an uncut",
    "section, closed forms in plane strain, balance, mirror images, and the tips against `probe`.",
    "",
    "Values are means over a cell, so is what they are held against. `usual` and `fine` are the two sizes of the mesh: half",
    "the size takes the error of the cells to a fifth or less. Tips are means over the process zone ahead of them; on one mesh",
    "they are of the first order in its size, and lives use two meshes instead.",
  ].join("\n"),
);

const cases: readonly (readonly [string, (c: typeof compare) => void])[] = [
  ["Uncut section: 80 mm of asphalt, 150 mm of base, 470 mm of soil; 40 kN on a square of 0.24 m", uncutCases],
  ["Column under uniform pressure, plane strain", uniform],
  ["Beam on an even reaction, 200 mm high, 2 m long, pressure 1 on the middle 0.1 m, plane strain", beam],
  ["Balance across the joint", balance],
  ["Mirror images, crack through the interlayer, joint that touches", mirror],
  ["Tips and the joint's edges against `probe`: 40 kN on a square of 0.24 m", tips],
];
for (const [title, run] of cases) {
  test(title, {timeout: 300_000}, () => {
    heading(title);
    run(compare);
  });
}
page();

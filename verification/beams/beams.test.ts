import {test} from "vitest";
import {verificationTable} from "../table.ts";
import {coverage} from "./coverage.ts";
import {edgeCrack} from "./cracked.ts";
import {uncracked, uncrackedAccuracy} from "./uncracked.ts";

const table = verificationTable(
  "beams",
  "Wheel-tracked beams and the fit of growth laws",
  [
    "The beam of the laboratory as a beam: overlay alone on springs, under it a skin too soft to carry anything but pressure.",
    "Its bending against a finite beam with free ends on Winkler's foundation, in plane stress (E) and in plane strain (E′);",
    "what a thin beam leaves out is shear, a quarter as much at half the depth. Cracked, with the wheel six depths away,",
    "against the strip with an edge crack in pure bending; β = 0.6/m, h = 100 mm.",
    "",
    "Fits of [invented programmes](../../examples/laboratory/invent.ts): eight beams, three materials, about a dozen readings",
    "on two faces, half of the beams broken. Readings are made from known laws with known scatter, and fitted as any others",
    "are. Such programmes have the model's own scatter: they show that the intervals are computed rightly, not that beams",
    "behave so.",
  ].join("\n"),
);
const {compare, heading, page} = table;

for (const [title, run] of [
  ["The beam before it cracks: βL = 2.4", () => uncracked(compare)],
  ["The same by the accuracy asked for", () => uncrackedAccuracy(compare)],
  ["Edge crack in bending: tip strain as F = K/(σ√(πa))", () => edgeCrack(compare)],
  ["Growth laws of 200 invented programmes, 90 % intervals by Student's t", () => coverage(table)],
] as const) {
  test(title, async () => {
    heading(title);
    await run();
  });
}
page();

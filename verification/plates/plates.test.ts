import {test} from "vitest";
import {verificationTable} from "../table.ts";
import {boundaryAndWaves, promise} from "./accuracy.ts";
import {equilibrium, reciprocity} from "./balance.ts";
import {hetenyi, temperature} from "./beams.ts";
import {bondCases} from "./bond.ts";
import {contactCases} from "./contact.ts";
import {deflectionTests} from "./deflectionTest.ts";
import {halfspace} from "./halfspace.ts";
import {interiorCases, jointCases, westergaardCases} from "./slabs.ts";

const {compare, heading, page} = verificationTable(
  "plates",
  "Half-space, plates, beams, joints and contact",
  [
    "The semi-analytical elements against closed forms of elasticity and of plates. Stresses of plates are those of the",
    "bending moment; h is the thickness, l the radius of relative stiffness, k the support's stiffness, a half a square's side.",
    "",
    "How close plate theories come, and why. A thin (Kirchhoff) plate leaves out shear, of the order of (h/l)²: at h/l = 0.05",
    "the elements agree with it to 0.2 % inside and 0.4 ‰ of load transfer, at h/l = 0.25 they deflect 4 % more; a plate with",
    "shear explains that to 0.4 %. Along a free edge a thin plate also joins twisting moment and shear into one, which is",
    "wrong over about one thickness: the stress there is lower by about 0.3·h/l. Westergaard's formulas add their own",
    "simplifications: deflection at the edge linear in a/l, an equivalent radius b in place of a.",
    "",
    "Contact: pressures uniform over segments and cracks closed as a whole are exact enough where shear governs (under a",
    "wheel near the joint they are the same as contact node by node), and rough where the opening alone is looked at with the",
    "wheel a metre away: up to 14 % of the largest strain at a tight joint, and more where a crack's mouth touches while its",
    "tip is pulled, which is taken as open.",
    "",
    "The far boundary hardly matters to tip strains with the wheel near the joint, on this road.",
  ].join("\n"),
);

const cases: readonly (readonly [string, ...((c: typeof compare) => void)[]])[] = [
  ["Wheel on a half-space", halfspace],
  ["Inside a slab on springs", interiorCases],
  ["Westergaard: inside and at a free edge; E = 35 GPa, h = 250 mm, k = 50 MPa/m, a = 150 mm", westergaardCases],
  ["Joint that passes shear: h/l = 0.05, a/l = 0.1", jointCases],
  ["Deflection test at such a joint, plate and sensors away from it: square of side 0.16 l", deflectionTests],
  ["Beams on springs in plane strain", hetenyi],
  ["Temperature in plane strain", temperature],
  ["Layers that slide on each other: square of side 0.2 m on an uncut section", bondCases],
  ["Balance and reciprocity", equilibrium, reciprocity],
  ["Contact, plane strain", contactCases],
  ["Accuracy asked for and got: largest tip strain over wheel positions and offsets", promise],
  ["Far boundary and wavenumbers", boundaryAndWaves],
];
for (const [title, ...run] of cases) {
  test(title, () => {
    heading(title);
    for (const one of run) one(compare);
  });
}
page();

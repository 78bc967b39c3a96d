import {expect, test} from "vitest";
import {describeSection} from "../../../src/schema/index.ts";
import {goodTest} from "./condition-fault-cases.ts";
import {goodText, spoiled, study} from "./good-study.ts";

test("the section as it was understood", () => {
  const [, treated] = study(goodText).study.treatments;
  expect(describeSection(treated.section)).toMatchInlineSnapshot(`
    "     0 mm ┌─────────────────────────────────────────┐
              │                                         │ overlay: 70 mm overlay
              │                                         │ asphalt, 20000 MPa at -20 °C to 250 MPa at 60 °C
        70 mm ├─────────────────────────────────────────┤
              │~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~│ interlayer: 10 mm interlayer, soft, 400 MPa
        80 mm ├─────────────────────────────────────────┤
              │....................│....................│ base: 200 mm jointed
              │....................│....................│ cemented, 9000 MPa
              │....................│....................│
              │....................│....................│
       280 mm ├─────────────────────────────────────────┤
              │                    ┊                    │ ground: 1500 mm foundation
              │                    ┊                    │ ground, 90 MPa
              │                                         │
              │                                         │
              │                                         │
              │                                         │
              │                                         │
              │                                         │
              │                                         │
      1780 mm └─────────────────────────────────────────┘
               /////////////////////////////////////////  rough, rigid base

    joint              0.1 mm wide, every 4.5 m; faces can touch
    unbonded strip     0 mm on each side
    load transfer      deflection efficiency 40 %
    cut goes on        300 mm into the foundation
    under the slab     full bond
    overlay cracks     interlock 0 MPa/mm, shear weight 1
                       (layer heights are drawn to the square root of the thickness)
    "
  `);
});

test("an open joint has two faces, springs are drawn as such", () => {
  const text = spoiled(
    ["width_mm: 0.1", "width_mm: 10"],
    ["base: rigid", "base: {springs_MPa_per_mm: 0.05}"],
    ["slab_friction: bonded", "slab_friction: free"],
  );
  const drawn = describeSection(study(text).study.treatments[0].section);
  expect(drawn).toContain(".│ │.");
  expect(drawn).toContain("springs of 0.05 MPa/mm");
  expect(drawn).toContain("free slip");
  expect(drawn).toContain("faces never touch");
});

test("bonds, reinforcement and a deflection test are told below the drawing", () => {
  const text = spoiled(goodTest, [
    "within_overlay: true}",
    `within_overlay: true, bond_above: none, bond_below: {stiffness_MPa_per_mm: 2}}
      reinforcement: {name: grid, position: above interlayer, stiffness_kN_per_m: 4000, bond_length_mm: 50}`,
  ]);
  const [plain, treated] = study(text).study.treatments.map(t => describeSection(t.section));
  for (const line of [
    "bond               under overlay: free slip",
    "bond               under interlayer: shear spring 2 MPa/mm",
    "reinforcement      grid at 70 mm, 4000 kN/m, let go over 50 mm on each side",
    "load transfer      deflection test, 50 % (approach), 54.84 % (leave)",
  ])
    expect(treated).toContain(line);
  expect(plain).not.toMatch(/^bond|^reinforcement/m);
});

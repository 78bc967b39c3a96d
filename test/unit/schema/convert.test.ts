import {expect, test} from "vitest";
import {goodTest} from "./condition-fault-cases.ts";
import {goodText, spoiled, study} from "./good-study.ts";

test("layers, joint and base in SI", () => {
  const [plain, treated] = study(goodText).study.treatments.map(treatment => treatment.section);
  expect(plain.layers.map(({name, role, thickness}) => [name, role, thickness])).toEqual([
    ["overlay", "overlay", 0.08],
    ["base", "jointed", 0.2],
    ["ground", "foundation", 1.5],
  ]);
  expect(treated.layers.map(({name, role, thickness}) => [name, role, thickness])).toEqual([
    ["overlay", "overlay", 0.07],
    ["interlayer", "interlayer", 0.01],
    ["base", "jointed", 0.2],
    ["ground", "foundation", 1.5],
  ]);
  expect(plain.joint).toEqual({
    spacing: 4.5,
    width: 1e-4,
    unbondedStrip: 0,
    transfer: {kind: "efficiency", efficiency: 0.4},
    facesTouch: true, // up to 0.1 mm
    cutDepth: 0.3,
  });
  expect(plain).toMatchObject({slabFriction: Infinity, base: {kind: "rigid"}, crackInterlock: 0, shearWeight: 1});
});

test("materials in SI", () => {
  const [plain, treated] = study(goodText).study.treatments.map(treatment => treatment.section);
  const asphalt = plain.layers[0].material;
  expect(asphalt.modulus).toEqual([
    {temperature: -20, modulus: 2e10},
    {temperature: 20, modulus: 3.5e9},
    {temperature: 60, modulus: 2.5e8},
  ]);
  expect(asphalt).toMatchObject({
    relaxationModulus: 7e8,
    poisson: 0.35,
    expansion: 25e-6,
    conductivity: 1.4,
    density: 2350,
    heatCapacity: 920,
    fatigue: {strainAtMillion: 1e-4, exponent: 5, referenceModulus: null, stiffnessExponent: 0},
    source: "invented",
  });
  // 1e-15 mm/cycle at 1 µε and n = 4: at 300 µε 1e-15·300⁴ = 8.1e-6 mm = 8.1e-9 m, by hand
  const law = asphalt.growth!;
  expect(law.coefficient * 300e-6 ** law.exponent).toBeCloseTo(8.1e-9, 20);
  expect(law).toMatchObject({exponent: 4, zoneLength: 0.01, referenceModulus: null, stiffnessExponent: 0});
  expect(treated.layers[1].material.growth!.zoneLength).toBe(0.005); // the larger of 5 mm and half of 8 mm
  expect(plain.layers[1].material).toMatchObject({
    relaxationModulus: 9e9,
    source: "not stated",
    growth: null,
    fatigue: null,
  });
  expect(plain.layers[2].material).toMatchObject({expansion: 0, modulus: [{modulus: 9e7}]});
});

test("springs, friction, interlock and stiffness shift", () => {
  const text = spoiled(
    ["base: rigid", "base: {springs_MPa_per_mm: 0.05}\n  crack_interlock_MPa_per_mm: 50\n  shear_weight: 0.5"],
    ["slab_friction: bonded", "slab_friction: {stiffness_MPa_per_mm: 0.1}"],
    ["{efficiency_percent: 40}", "{stiffness_MPa_per_mm: 2}"],
    ["process_zone_mm: 10}", "process_zone_mm: 10, stiffness_shift: {reference_modulus_MPa: 3500, exponent: 2.9}}"],
  );
  const {section} = study(text).study.treatments[0];
  expect(section.base).toEqual({kind: "springs", stiffness: 5e7});
  expect(section.slabFriction).toBeCloseTo(1e8, 3);
  expect(section.crackInterlock).toBe(5e10);
  expect(section.shearWeight).toBe(0.5);
  expect(section.joint.transfer).toEqual({kind: "spring", stiffness: 2e9});
  expect(section.layers[0].material.growth).toMatchObject({referenceModulus: 3.5e9, stiffnessExponent: 2.9});
});

test("a slab on springs without foundation layers has no cut below", () => {
  const text = spoiled(
    ["base: rigid", "base: {springs_MPa_per_mm: 0.05}"],
    ["    - {name: ground, role: foundation, material: ground, thickness_mm: 1500}\n", ""],
  );
  expect(study(text).study.treatments[0].section.joint.cutDepth).toBe(0);
});

test("changes of a treatment", () => {
  const text = spoiled([
    "  - name: plain",
    `  - name: plain
  - name: thick
    changes: {overlay_thickness_mm: 120}
  - name: added
    changes: {interlayer: {material: soft, thickness_mm: 20, within_overlay: false}}
  - name: seated
    changes:
      jointed_modulus_factor: 0.3
      joint: {spacing_m: 1, width_mm: 0.5, load_transfer: {stiffness_MPa_per_mm: 5}}
      layers: [{name: ground, thickness_mm: 900}, {name: overlay, material: soft}]`,
  ]);
  const sections = study(text).study.treatments.map(treatment => treatment.section);
  expect(sections[1].layers[0].thickness).toBe(0.12);
  expect(sections[2].layers.slice(0, 2).map(layer => layer.thickness)).toEqual([0.08, 0.02]);
  const seated = sections[3];
  expect(seated.layers[0].material.name).toBe("soft");
  expect(seated.layers[1].material).toMatchObject({
    name: "cemented × 0.3",
    modulus: [{modulus: 2.7e9}],
    relaxationModulus: 2.7e9,
  });
  expect(seated.layers[2].thickness).toBe(0.9);
  expect(seated.joint).toMatchObject({
    spacing: 1,
    width: 5e-4,
    facesTouch: false,
    transfer: {kind: "spring", stiffness: 5e9},
    cutDepth: 0.3,
  });
});

test("an interlayer within several courses takes from the lowest", () => {
  const text = spoiled([
    "{name: overlay, role: overlay, material: asphalt, thickness_mm: 80}",
    "{name: wearing, role: overlay, material: asphalt, thickness_mm: 40}\n    - {name: binder, role: overlay, material: asphalt, thickness_mm: 40}",
  ]);
  expect(study(text).study.treatments[1].section.layers.map(({name, thickness}) => [name, thickness])).toEqual([
    ["wearing", 0.04],
    ["binder", 0.03],
    ["interlayer", 0.01],
    ["base", 0.2],
    ["ground", 1.5],
  ]);
});

test("traffic: classes, contact areas, standard axle", () => {
  const {classes, standardAxle} = study(goodText).study.traffic;
  expect(classes.map(({name, passesPerYear, growth, wander}) => [name, passesPerYear, growth, wander])).toEqual([
    ["standard axles", 60000, 0.02, {kind: "normal", deviation: 0.25}],
    ["gear", 1000, 0, {kind: "normal", deviation: 0.77}],
  ]);
  for (const load of [...classes, standardAxle])
    for (const wheel of load.wheels) {
      const pressure = load.name === "gear" ? 1.4e6 : 0.7e6;
      expect(wheel.load / (wheel.length * wheel.width)).toBeCloseTo(pressure, 3);
      expect(wheel.length / wheel.width).toBeCloseTo(0.8712 / 0.6, 3);
    }
  expect(standardAxle.wheels.reduce((sum, wheel) => sum + wheel.load, 0)).toBe(80_000);
  expect(standardAxle.wheels.map(({x, y}) => [x, y])).toEqual([
    [0, -1.07],
    [0, -0.73],
    [0, 0.73],
    [0, 1.07],
  ]);
  expect(classes[1].wheels.map(({x, y}) => [x, y])).toEqual([
    [0, 0],
    [0, 1.4],
  ]);
});

test("a regular gear is spread about its middle, with a given contact width", () => {
  const text = spoiled([
    "wheels: [{x_mm: 0, y_mm: 0}, {x_mm: 0, y_mm: 1400}]",
    "contact_width_mm: 350\n      arrangement: {axles: 3, axle_spacing_mm: 1450, tyres_per_side: 2, tyre_spacing_mm: 1400}",
  ]);
  const {wheels} = study(text).study.traffic.classes[1];
  expect(wheels).toHaveLength(6);
  expect(wheels[0]).toMatchObject({x: -1.45, y: -0.7, width: 0.35});
  expect(wheels[0].length).toBeCloseTo(200e3 / 1.4e6 / 0.35, 12);
});

test("defaults and settings", () => {
  const outcome = study(goodText);
  expect(outcome.study).toMatchObject({
    name: "Test road",
    exchange: {absorptivity: 0.9, emissivity: 0.93, filmCoefficient: 20},
    bins: {kind: "derive", count: 6},
    neutralTemperature: null,
    analysisPeriod: 20,
    accuracy: 0.01,
  });
  expect(outcome.inputs.document.surface.absorptivity).toBe(0.9); // defaults are there for the report to show
  expect(outcome.inputs.sources).toContainEqual({material: "cemented", source: "not stated"});
  const set = study(
    `${goodText}temperature_bins: {count: 9}\nneutral_temperature_C: 12\nnumerical: {accuracy_percent: 0.5}\n`,
  );
  expect(set.study).toMatchObject({bins: {kind: "derive", count: 9}, neutralTemperature: 12, accuracy: 0.005});
});

test("bonds: of a layer, of a treatment's layer, above and below an interlayer", () => {
  const text = spoiled(
    ["material: asphalt, thickness_mm: 80}", "material: asphalt, thickness_mm: 80, bond_below: none}"],
    [
      "  - name: with interlayer",
      "  - name: coated\n    changes: {layers: [{name: overlay, bond_below: {stiffness_MPa_per_mm: 5}}]}\n  - name: with interlayer",
    ],
    ["within_overlay: true}", "within_overlay: true, bond_above: {stiffness_MPa_per_mm: 2}, bond_below: full}"],
  );
  const bonds = study(text).study.treatments.map(({section}) => section.layers.map(l => l.bondBelow));
  expect(bonds).toEqual([
    [0, undefined, undefined],
    [5e9, undefined, undefined],
    [2e9, undefined, undefined, undefined],
  ]);
});

test("an interlayer without a word about its bond is fully bonded, whatever lay on the jointed layer before", () => {
  const text = spoiled([
    "material: asphalt, thickness_mm: 80}",
    "material: asphalt, thickness_mm: 80, bond_below: none}",
  ]);
  const {layers} = study(text).study.treatments[1].section;
  expect(layers.map(l => l.bondBelow)).toEqual([undefined, undefined, undefined, undefined]);
});

test.each([
  ["position: below overlay", 0.07],
  ["position: above interlayer", 0.07],
  ["position: below interlayer", 0.08],
  ["depth_mm: 40", 0.04],
])("reinforcement, %s", (place, depth) => {
  const fields = `name: grid, ${place}, stiffness_kN_per_m: 4000, bond_length_mm: 50`;
  const text = spoiled(["within_overlay: true}", `within_overlay: true}\n      reinforcement: {${fields}}`]);
  const [plain, treated] = study(text).study.treatments;
  expect(plain.section.reinforcement).toBeUndefined();
  const expected = {name: "grid", depth, height: 0.01, stiffness: 4e6, bondLength: 0.05};
  expect(treated.section.reinforcement).toEqual(expected);
});

test("a bond breaker of a treatment is its joint's strip without bond", () => {
  const text = spoiled(["within_overlay: true}", "within_overlay: true}\n      joint: {unbonded_strip_mm: 250}"]);
  const sections = study(text).study.treatments.map(t => t.section);
  expect(sections.map(s => s.joint.unbondedStrip)).toEqual([0, 0.25]);
});

test("a deflection test was done on the section without its treatments, on the bare jointed layer", () => {
  const text = spoiled(goodTest, ["within_overlay: true}", "within_overlay: true}\n      jointed_modulus_factor: 0.5"]);
  for (const {section} of study(text).study.treatments) {
    if (section.joint.transfer.kind !== "test") throw new Error("no test");
    const {test: found} = section.joint.transfer;
    expect(found.section.layers.map(l => [l.name, l.material.modulus[0].modulus])).toEqual([
      ["base", 9e9],
      ["ground", 9e7],
    ]);
    expect(found.plate.side).toBeCloseTo(0.3 * Math.sqrt(Math.PI / 4), 12);
    expect(found.plate.pressure * found.plate.side ** 2).toBeCloseTo(5e4, 6);
    expect(found.plate.centre).toBe(0.16);
    expect(found.sensors).toEqual({loaded: 0.16, unloaded: 0.15});
    expect(found.positions).toEqual([
      {name: "approach", loaded: 3e-4, unloaded: 1.5e-4},
      {name: "leave", loaded: 3.1e-4, unloaded: 1.7e-4},
    ]);
  }
});

test("a test that a treatment brings was done on its own jointed layer", () => {
  const [, test_] = goodTest;
  const changes = `jointed_modulus_factor: 0.5\n      joint: {spacing_m: 1.5, load_transfer: ${test_}}`;
  const text = spoiled(["within_overlay: true}", `within_overlay: true}\n      ${changes}`]);
  const [plain, treated] = study(text).study.treatments.map(t => t.section.joint.transfer);
  expect(plain.kind).toBe("efficiency");
  if (treated.kind !== "test") throw new Error("no test");
  expect(treated.test.section.joint.spacing).toBe(1.5);
  expect(treated.test.section.layers[0].material.modulus[0].modulus).toBe(4.5e9);
});

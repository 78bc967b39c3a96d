import type {DocumentPath, Findings} from "./fault.ts";
import type {LayerDocument, Partially, SectionDocument, StudyDocument} from "./study.ts";

type LooseLayers = readonly (Partially<LayerDocument> | undefined)[];

/** A joint wider than this part of its spacing is no joint. */
const widestPart = 10;

/** What layers, joint and base must have to do with one another. */
export function checkSection(document: Partially<StudyDocument>, findings: Findings): void {
  const section = document.section;
  if (!section) return;
  const layers = section.layers;
  if (layers) {
    checkRoles(layers, findings);
    uniqueNames(layers, ["section", "layers"], "layer", findings);
    checkLaws(document, layers, findings);
    checkFoundation(section, layers, findings);
    for (const [k, layer] of layers.entries())
      if (layer?.bond_below !== undefined) checkBond(layers, k, ["section", "layers", k, "bond_below"], findings);
  }
  checkTestTemperature(document, section.joint?.load_transfer?.deflection_test, ["section", "joint"], findings);
  checkJoint(section.joint, section.joint?.spacing_m, ["section", "joint"], findings);
}

/** A bond can be told of layers that have one below them, down to the lowest jointed layer. */
export function checkBond(layers: LooseLayers, k: number, path: DocumentPath, findings: Findings): void {
  const role = layers[k]?.role;
  const below = layers[k + 1]?.role;
  const accepted = "no bond_below here";
  if (k === layers.length - 1) findings.fault(path, {problem: "there is no layer below the lowest one", accepted});
  else if (role === "foundation")
    findings.fault(path, {problem: "layers of the foundation are always fully bonded to each other", accepted});
  else if (role === "jointed" && below === "foundation")
    findings.fault(path, {
      problem: "the bond between the jointed layer and the foundation is given by slab_friction",
      accepted: `${accepted}, and section.slab_friction`,
    });
}

const order = {overlay: 0, jointed: 1, foundation: 2} as const;

function checkRoles(layers: LooseLayers, findings: Findings): void {
  const roles = layers.map(layer => layer?.role);
  for (let i = 1; i < roles.length; i++) {
    const here = roles[i];
    const above = roles[i - 1];
    if (here && above && order[here] < order[above])
      findings.fault(["section", "layers", i, "role"], {
        problem: `the layers are out of order: ${here} below ${above}`,
        accepted: "from the top: overlay, then jointed, then foundation",
      });
  }
  if (roles.includes(undefined)) return; // cannot tell yet
  if (!roles.includes("overlay"))
    findings.fault(["section", "layers"], {
      problem: "there is no overlay whose life could be computed",
      accepted: "at least one layer with role overlay, at the top",
    });
  if (!roles.includes("jointed"))
    findings.fault(["section", "layers"], {
      problem: "there is no jointed layer, so nothing for a crack to come from",
      accepted: "at least one layer with role jointed, below the overlay",
    });
}

/** Names that others refer to must be told apart. */
export function uniqueNames(
  items: readonly ({readonly name?: string | undefined} | undefined)[],
  path: DocumentPath,
  what: string,
  findings: Findings,
): void {
  const first = new Map<string, number>();
  for (const [i, item] of items.entries()) {
    if (item?.name === undefined) continue;
    const before = first.get(item.name);
    if (before === undefined) first.set(item.name, i);
    else
      findings.fault([...path, i, "name"], {
        problem: `this name is already that of ${what} ${before + 1}`,
        accepted: `another name for each ${what}`,
      });
  }
}

function checkLaws(document: Partially<StudyDocument>, layers: LooseLayers, findings: Findings): void {
  for (const [i, layer] of layers.entries()) {
    if (layer?.role !== "overlay" || layer.material === undefined) continue;
    const path = ["section", "layers", i, "material"];
    requireLaw(document, layer.material, path, "overlay", findings);
    const materials = document.materials;
    const material = materials && Object.hasOwn(materials, layer.material) ? materials[layer.material] : undefined;
    if (material && material.fatigue_line === undefined)
      findings.warn(path, {
        problem: "without a fatigue line, ordinary fatigue away from the joint is not computed in this layer",
        accepted: "a material with fatigue_line",
      });
  }
}

/** A crack can only run through a material that has a growth law. */
export function requireLaw(
  document: Partially<StudyDocument>,
  name: string,
  path: DocumentPath,
  role: "overlay" | "interlayer",
  findings: Findings,
): void {
  const materials = document.materials;
  const material = materials && Object.hasOwn(materials, name) ? materials[name] : undefined;
  if (!material || material.crack_growth !== undefined) return;
  if (findings.faulty(["materials", name, "crack_growth"])) return;
  findings.fault(path, {
    problem: `a crack has to grow through the ${role}, and this material has no growth law`,
    accepted: `a material with crack_growth (add it to materials.${name})`,
  });
}

function checkFoundation(section: Partially<SectionDocument>, layers: LooseLayers, findings: Findings): void {
  if (layers.some(layer => layer?.role === undefined)) return;
  const foundation = layers.filter(layer => layer?.role === "foundation");
  if (foundation.length === 0 && section.base === "rigid")
    findings.fault(["section", "base"], {
      problem: "without foundation layers the slab lies on a rigid base and cannot deflect",
      accepted: "foundation layers below the jointed layer, or base: {springs_MPa_per_mm: …}",
    });
  const depth = foundation.reduce((sum, layer) => sum + (layer?.thickness_mm ?? Infinity), 0);
  checkCut(section.joint?.cut_into_foundation_mm, depth, ["section", "joint"], findings);
}

/** Depth of the cut where none is given [mm]. */
export const usualCut_mm = 300;

/** The cut must end within the foundation. */
export function checkCut(given: number | undefined, depth: number, joint: DocumentPath, findings: Findings): void {
  const cut = given ?? (depth === 0 ? 0 : usualCut_mm);
  if (cut <= depth) return;
  findings.fault([...joint, "cut_into_foundation_mm"], {
    problem:
      given === undefined
        ? `the usual cut of ${usualCut_mm} mm is deeper than the foundation layers, so it must be stated`
        : "the cut goes deeper than the foundation layers",
    accepted: `0 to ${depth} mm, the thickness of the foundation layers`,
  });
}

/** One joint, of the section or of a treatment; the spacing may come from elsewhere. */
export function checkJoint(
  joint: Partially<SectionDocument["joint"]> | undefined,
  spacing: number | undefined,
  path: DocumentPath,
  findings: Findings,
): void {
  if (!joint) return;
  if (spacing !== undefined && joint.width_mm !== undefined && joint.width_mm > (spacing * 1000) / widestPart)
    findings.fault([...path, "width_mm"], {
      problem: "the joint is wider than a tenth of its spacing",
      accepted: `at most ${(spacing * 1000) / widestPart} mm with a spacing of ${spacing} m`,
      suggestion: "are spacing_m in metres and width_mm in millimetres?",
    });
  const strip = joint.unbonded_strip_mm;
  if (spacing !== undefined && strip !== undefined && strip > spacing * 250)
    findings.fault([...path, "unbonded_strip_mm"], {
      problem: "the unbonded strips take more than half of the slab",
      accepted: `at most ${spacing * 250} mm with a spacing of ${spacing} m`,
    });
  const transfer = joint.load_transfer;
  if (!transfer) return;
  const {efficiency_percent, stiffness_MPa_per_mm, deflection_test} = transfer;
  const given = [efficiency_percent, stiffness_MPa_per_mm, deflection_test].filter(v => v !== undefined).length;
  const told = findings.faulty([...path, "load_transfer"]);
  if (given > 1 || (given === 0 && !told))
    findings.fault([...path, "load_transfer"], {
      problem: given > 1 ? "the load transfer is given twice" : "the load transfer is not given",
      accepted: "either stiffness_MPa_per_mm or efficiency_percent or deflection_test",
    });
  if (deflection_test) checkTest(deflection_test, joint.width_mm ?? 0, [...path, "load_transfer"], findings);
  if (transfer.efficiency_percent !== undefined && transfer.efficiency_percent > 0 && transfer.efficiency_percent <= 1)
    findings.warn([...path, "load_transfer", "efficiency_percent"], {
      problem: "the efficiency looks like a fraction",
      accepted: "percent",
      suggestion: `write ${Number((transfer.efficiency_percent * 100).toPrecision(6))} if ${transfer.efficiency_percent} was meant as a fraction`,
    });
}

type LooseTest = Partially<NonNullable<SectionDocument["joint"]["load_transfer"]["deflection_test"]>>;

/** Half the side of the square with a circle's area, of its diameter: √π/4. */
const halfSide = Math.sqrt(Math.PI) / 4;

function checkTest(test: LooseTest, width: number, transfer: DocumentPath, findings: Findings): void {
  const path = [...transfer, "deflection_test"];
  const told = findings.faulty([...path, "approach"]) || findings.faulty([...path, "leave"]);
  if (!test.approach && !test.leave && !told)
    findings.fault(path, {
      problem: "the test has no deflections",
      accepted: "approach, leave or both, with loaded_um and unloaded_um",
    });
  for (const position of ["approach", "leave"] as const) {
    const {loaded_um: loaded, unloaded_um: unloaded} = test[position] ?? {};
    if (loaded !== undefined && unloaded !== undefined && unloaded >= loaded)
      findings.fault([...path, position, "unloaded_um"], {
        problem: "the unloaded side deflects as much as the loaded one, as if there were no joint",
        accepted: `less than ${loaded} µm`,
      });
  }
  const {plate_diameter_mm: diameter, plate_centre_mm: centre} = test;
  if (diameter !== undefined && centre !== undefined && centre < halfSide * diameter + width / 2)
    findings.fault([...path, "plate_centre_mm"], {
      problem: "the plate stands on the joint",
      accepted: `at least ${(halfSide * diameter + width / 2).toFixed(0)} mm for this plate`,
    });
  for (const key of ["loaded_sensor_mm", "unloaded_sensor_mm"] as const) {
    const at = test[key];
    if (test.tested_on === "jointed_layer" && at !== undefined && at < width / 2)
      findings.fault([...path, key], {
        problem: "the sensor stands over the open joint",
        accepted: `at least ${width / 2} mm, half the width of the joint`,
      });
  }
}

/** The layers tested need moduli at the time of the test. */
export function checkTestTemperature(
  document: Partially<StudyDocument>,
  test: LooseTest | undefined,
  joint: DocumentPath,
  findings: Findings,
): void {
  if (!test?.tested_on) return;
  const path = [...joint, "load_transfer", "deflection_test", "temperature_C"];
  const layers = document.section?.layers ?? [];
  const names = layers.flatMap(layer =>
    layer?.material !== undefined && (test.tested_on === "existing_surface" || layer.role !== "overlay")
      ? [layer.material]
      : [],
  );
  for (const name of new Set(names)) {
    const rows = document.materials && Object.hasOwn(document.materials, name) ? document.materials[name] : undefined;
    const temperatures = (rows?.modulus_by_temperature ?? []).flatMap(row => row?.temperature_C ?? []);
    if (temperatures.length < 2) continue;
    const [low, high] = [Math.min(...temperatures), Math.max(...temperatures)];
    const accepted = `${low} to ${high} °C, which its table covers`;
    if (test.temperature_C === undefined && !findings.faulty(path))
      findings.fault(path, {problem: `the modulus of ${name} depends on the temperature at the test`, accepted});
    else if (test.temperature_C !== undefined && !(test.temperature_C >= low && test.temperature_C <= high))
      findings.fault(path, {problem: `the temperature at the test is outside the table of ${name}`, accepted});
  }
}

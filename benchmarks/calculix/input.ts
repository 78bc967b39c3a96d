/** A solid model as an input file of CalculiX (version 2, keywords as in its manual): axes x, y and z upward. */
import type {Solid} from "./model.ts";

export interface Elastic {
  readonly modulus: number; // [Pa]
  readonly poisson: number;
}

export interface InputOptions {
  readonly layers: readonly Elastic[];
  readonly element: "C3D20" | "C3D20R"; // bricks with 3 × 3 × 3 or 2 × 2 × 2 integration points
  readonly watched: number; // node whose displacements are printed
}

export function inputFile(solid: Solid, {layers, element, watched}: InputOptions): string {
  const {nodes, elements, layerOf, held, loads} = solid;
  const text: string[] = ["*NODE, NSET=ALL"];
  for (let n = 0; n < nodes.length / 3; n++) {
    const [x, y, z] = nodes.subarray(3 * n, 3 * n + 3);
    text.push(`${n + 1}, ${coordinate(x)}, ${coordinate(y)}, ${coordinate(-z)}`);
  }
  layers.forEach(({modulus, poisson}, layer) => {
    text.push(`*ELEMENT, TYPE=${element}, ELSET=LAYER${layer}`);
    layerOf.forEach((own, e) => {
      if (own !== layer) return;
      const list = Array.from(elements.subarray(20 * e, 20 * e + 20), n => n + 1);
      // A line holds 16 numbers at most.
      text.push(`${e + 1}, ${list.slice(0, 10).join(", ")},`, list.slice(10).join(", "));
    });
    text.push(`*MATERIAL, NAME=MATERIAL${layer}`, "*ELASTIC", `${modulus}, ${poisson}`);
    text.push(`*SOLID SECTION, ELSET=LAYER${layer}, MATERIAL=MATERIAL${layer}`);
  });
  held.forEach((list, component) => {
    text.push(`*NSET, NSET=HELD${component + 1}`, ...list.map(n => `${n + 1},`));
  });
  text.push("*NSET, NSET=WATCHED", `${watched + 1},`, "*BOUNDARY");
  held.forEach((_, component) => {
    text.push(`HELD${component + 1}, ${component + 1}, ${component + 1}`);
  });
  text.push("*STEP", "*STATIC, SOLVER=SPOOLES", "*CLOAD");
  loads.forEach((load, n) => {
    if (load !== 0) text.push(`${n + 1}, 3, ${-load}`);
  });
  text.push("*NODE PRINT, NSET=WATCHED", "U", "*END STEP", "");
  return text.join("\n");
}

/** The program reads 20 characters a number. */
function coordinate(value: number): string {
  return value.toExponential(12);
}

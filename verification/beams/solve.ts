/** Beams of the laboratory solved state by state, apart from the sweep over all of them. */
import {type BeamChoices, type BeamTest, beamSection} from "../../src/engine/laboratory/index.ts";
import {beamGeometry, condense, solveDirect, stiffnesses, wheelLoads} from "../../src/engine/response/index.ts";

const WHEEL = 0.02; // length of the patch [m]

/** A beam that is overlay alone: under it a skin, cut in its middle, too thin and too soft to carry anything but pressure. */
export function plainBeam(thickness: number, length: number): BeamTest {
  return {
    name: "plain",
    overlay: {material: "mix", thickness, modulus: 4e9, poisson: 0.35},
    interlayer: null,
    base: {thickness: 2e-4, modulus: 1e6, poisson: 0, gap: 2e-4},
    length,
    width: 1,
    foundation: {kind: "stiffness", stiffness: 1},
    wheel: {load: WHEEL, length: WHEEL, width: 1}, // a pressure of 1 Pa
    travel: {from: -length / 4, to: length / 4},
    speed: null,
    temperature: null,
    detection: 1e-3,
    readingError: 1e-3,
    readings: [],
    setAside: null,
  };
}

export interface Cut {
  readonly moment: number; // sagging positive [N]
  readonly shear: number; // [N/m]
  readonly axial: number; // tension positive [N/m]
  /** Deflection of the surface at its node nearest to x [m]. */
  readonly deflection: (x: number) => {readonly x: number; readonly w: number};
}

/** Under the wheel at `centre` with the lower crack up to `crack`: what passes the plane of the gap. Unit of width. */
export function solveCut(
  test: BeamTest,
  support: number,
  choices: BeamChoices,
  {centre, crack}: {readonly centre: number; readonly crack: number},
): Cut {
  const section = beamSection(test, support, choices);
  const geometry = beamGeometry(section, choices.accuracy);
  const {model} = geometry.meshes[1];
  const moduli = section.layers.map(l => l.material.modulus[0].modulus);
  const S = condense(model, stiffnesses(section, {moduli, transfer: 0}), 0);
  const h = test.overlay.thickness;
  const tied = (node: number): boolean => model.path[node].z <= h - crack + 1e-9;
  const [even, odd] = (["symmetric", "antisymmetric"] as const).map(part => {
    const loads = wheelLoads(model.mesh, test.wheel.length, [centre], part);
    return solveDirect(model, S, {part, tied, transfer: 0, interlock: 0, contact: []}, loads);
  });
  // Nodal forces are consistent: their sum and first moment are those of the tractions.
  const sum = (f: (node: number, z: number) => number): number =>
    model.path.reduce((total, {z}, node) => total + f(node, z), 0);
  const {surface} = model.mesh;
  return {
    moment: sum((n, z) => even.force[3 * n] * (z - h / 2)),
    shear: sum(n => odd.force[3 * n + 2]),
    axial: sum(n => even.force[3 * n]),
    deflection: x => {
      const node = surface.reduce((best, s, i) => (Math.abs(s.x - x) < Math.abs(surface[best].x - x) ? i : best), 0);
      const at = model.surface[node];
      return {x: surface[node].x, w: even.displacement[at] + odd.displacement[at]};
    },
  };
}

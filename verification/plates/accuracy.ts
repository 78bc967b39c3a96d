/** What the accuracy asked for is worth: elements, wavenumbers, the far boundary. */
import {
  type CrackLengths,
  type Geometry,
  inverseWeights,
  lineModel,
  type ResponseTables,
  respond,
  responseGeometry,
  type StateSpace,
  stateSpace,
  TIPS,
  tipDepths,
  type Wavenumbers,
  wavenumbers,
} from "../../src/engine/response/index.ts";
import {buildMesh, type Section} from "../../src/engine/section/index.ts";
import type {Comparison} from "../table.ts";
import {moduliOf, road} from "./balance.ts";

const LENGTH = 0.24; // of the wheel's square patch [m]
const CENTRES = Float64Array.of(0, 0.06, 0.12, 0.24);
const Y = Float64Array.of(0, 0.06, 0.12);
const REACH = 0.5;

interface Solved {
  readonly tables: ResponseTables;
  readonly space: StateSpace;
}

const solved = (section: Section, geometry: Geometry): Solved => ({
  tables: respond(geometry, {moduli: moduliOf(section), transfer: 0}, [{length: LENGTH, centres: CENTRES}]),
  space: geometry.meshes[1].space,
});

/** Largest tip strain times E′ over positions and offsets, nothing touching, for one state and tip. */
function strain({tables}: Solved, state: number, tip: number): number {
  const {waves, states, segments, opening, shear} = tables;
  const K = waves.beta.length;
  const {even, odd} = inverseWeights(waves, Y, [{centre: 0, width: LENGTH, pressure: 1}]);
  const [rows, columns] = [TIPS.length + segments, CENTRES.length + segments];
  let most = 0;
  for (let r = 0; r < CENTRES.length; r++) {
    for (let i = 0; i < Y.length; i++) {
      const sum = (values: Float64Array, at: (k: number) => number, w: Float64Array): number => {
        let total = 0;
        for (let k = 0; k < K; k++) total += values[at(k)] * w[i * K + k];
        return total;
      };
      const own = (k: number): number => ((k * states + state) * rows + tip) * columns + r;
      const sliding = (k: number): number => ((k * states + state) * 6 + tip) * CENTRES.length + r;
      const tearing = (k: number): number => sliding(k) + 3 * CENTRES.length;
      const sigma = Math.max(sum(opening, own, even), 0);
      const xz = sum(shear, sliding, even);
      const xy = sum(shear, tearing, odd);
      most = Math.max(most, Math.sqrt(sigma ** 2 + xz ** 2 + xy ** 2 / 0.65));
    }
  }
  return Number(most.toPrecision(6)); // beyond that another machine may differ
}

/** Nothing touches here, so segments would only cost time. */
const section = (interlayer: boolean): Section =>
  road({joint: {...road().joint, facesTouch: false}, layers: road({}, interlayer).layers});

/** Every wavenumber on both meshes. */
const bothMeshes = (waves: Wavenumbers) => ({waves, corrections: waves});

/** Mesh pair and wavenumbers well beyond those of the accuracies tried, for a few crack lengths. */
function reference(s: Section, cracks: CrackLengths): Geometry {
  const meshes = [false, true].map(halved => {
    const options = {rowSize: 0.004, finest: 1e-6, halved, tips: tipDepths(cracks), reach: REACH};
    const model = lineModel(buildMesh(s, {...options, extent: {spacings: 2.5}}));
    return {model, space: stateSpace(model, cracks)};
  });
  return {section: s, meshes, ...bothMeshes(wavenumbers(17, depthOf(s), 300))};
}

const depthOf = (s: Section): number => s.layers.reduce((sum, l) => sum + l.thickness, 0);

/** Numbers of the lengths in the list for that accuracy: interlayer, underside, surface. */
const STATES = [
  {
    interlayer: false,
    accuracy: 0.01,
    states: [
      [0, 0, 0],
      [0, 2, 0],
      [0, 4, 2],
    ],
  },
  {
    interlayer: false,
    accuracy: 0.005,
    states: [[0, 0, 0]],
  },
  {
    interlayer: true,
    accuracy: 0.01,
    states: [
      [0, 0, 0],
      [2, 0, 0],
      [0, 2, 2],
    ],
  },
] as const;

export function promise(compare: (c: Comparison) => void): void {
  for (const {interlayer, accuracy, states} of STATES) {
    const s = section(interlayer);
    const asked = solved(s, responseGeometry(s, {accuracy, reach: REACH}));
    const {space} = asked;
    const some = (list: Float64Array, which: readonly number[]): number[] =>
      [...new Set([0, ...which.map(k => list[k])])].sort((p, q) => p - q);
    const cracks: CrackLengths = {
      interlayer: interlayer
        ? some(space.interlayerLength, [...states.map(t => t[0]), space.interlayer.length - 1])
        : [0],
      overlay: some(
        space.undersideLength,
        states.flatMap(t => [t[1], t[2]]),
      ),
      overlayThickness: 0.08,
      interlayerThickness: interlayer ? 0.01 : 0,
    };
    const fine = solved(s, reference(s, cracks));
    for (const [a, b, c] of states) {
      const at = [space.interlayerLength[a], space.undersideLength[b], space.surfaceLength[c]];
      const other = fine.space.index(
        fine.space.interlayerLength.indexOf(at[0]),
        fine.space.undersideLength.indexOf(at[1]),
        fine.space.surfaceLength.indexOf(at[2]),
      );
      TIPS.forEach((tip, t) => {
        const expected = strain(fine, other, t);
        if (expected === 0) return;
        compare({
          name: `${100 * accuracy} % asked, ${interlayer ? "with" : "no"} interlayer, cracks ${at.map(l => (l * 1e3).toFixed(1)).join(", ")} mm: ${tip} tip`,
          source: "rows of 4 and 2 mm extrapolated, 17 wavenumbers",
          standing: "derived",
          unit: "Pa/Pa",
          expected,
          computed: strain(asked, space.index(a, b, c), t),
          tolerance: accuracy,
        });
      });
    }
  }
}

export function boundaryAndWaves(compare: (c: Comparison) => void): void {
  const s = section(false);
  const cracks = {interlayer: [0], overlay: [0, 0.02], overlayThickness: 0.08, interlayerThickness: 0};
  const model = (spacings: number) => {
    const options = {rowSize: 0.005, finest: 4e-5, halved: false, tips: tipDepths(cracks), reach: REACH};
    return lineModel(buildMesh(s, {...options, extent: {spacings}}));
  };
  const solve = (spacings: number, count: number): Solved => {
    const m = model(spacings);
    const one = {model: m, space: stateSpace(m, cracks)};
    // The same mesh twice: nothing is extrapolated, only the boundary and the wavenumbers differ.
    return solved(s, {section: s, meshes: [one, one], ...bothMeshes(wavenumbers(count, depthOf(s), 300))});
  };
  const far = solve(3.5, 24);
  const states = [
    ["uncracked, lower tip", 0, 1],
    ["crack 20 mm up", far.space.index(0, 1, 0), 1],
    ["crack 20 mm down", far.space.index(0, 0, 1), 2],
  ] as const;
  for (const [what, other, tolerance] of [
    ["1 spacing against 3.5", solve(1, 24), 0.001],
    ["2.5 spacings against 3.5", solve(2.5, 24), 0.0001],
    ["14 wavenumbers against 24", solve(3.5, 14), 0.002],
    ["18 wavenumbers against 24", solve(3.5, 18), 0.001],
  ] as const) {
    for (const [state, number, tip] of states) {
      compare({
        name: `${what}, ${state}`,
        source: "the larger model",
        standing: "derived",
        unit: "Pa/Pa",
        expected: strain(far, number, tip),
        computed: strain(other, number, tip),
        tolerance,
      });
    }
  }
}

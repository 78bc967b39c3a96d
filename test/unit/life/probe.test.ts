import {describe, expect, test} from "vitest";
import {Cancelled} from "../../../src/engine/errors.ts";
import {closureMaps} from "../../../src/engine/life/closure.ts";
import {type ProbePoint, type ProbeRequest, probe, probeCracks, probeGeometry} from "../../../src/engine/life/probe.ts";
import {decideContact} from "../../../src/engine/life/probeContact.ts";
import {thermalResponse} from "../../../src/engine/life/thermal.ts";
import {
  inverseWeights,
  type ResponseTables,
  respond,
  responseGeometry,
  settledOpening,
  TIPS,
  type Tip,
  type Wavenumbers,
} from "../../../src/engine/response/index.ts";
import type {Layer, LayerRole, Section} from "../../../src/engine/section/index.ts";

const ACCURACY = 0.03; // coarse: these tests compare one way with another on like meshes
const SIDE = 0.24; // of the wheel's square patch [m]

function layer(role: LayerRole, modulus: number, poisson: number, thickness: number): Layer {
  const growth = {coefficient: 1, exponent: 4, zoneLength: 0.01, referenceModulus: null, stiffnessExponent: 0};
  const thermal = {expansion: 1e-5, conductivity: 1, density: 2000, heatCapacity: 900};
  const relaxed = modulus / 4;
  const moduli = {
    modulus: [{temperature: 20, modulus}],
    relaxationModulus: relaxed,
    seasonalRelaxationModulus: relaxed,
  };
  const material = {name: role, ...moduli, masterCurve: null, poisson, ...thermal, growth, fatigue: null, source: ""};
  return {name: role, role, material, thickness};
}

function section(interlayer: boolean): Section {
  return {
    layers: [
      layer("overlay", 3.5e9, 0.35, 0.08),
      ...(interlayer ? [layer("interlayer", 4e8, 0.4, 0.012)] : []),
      layer("jointed", 9e9, 0.2, 0.2),
      layer("foundation", 9e7, 0.4, 1),
    ],
    joint: {
      spacing: 3,
      width: 0,
      unbondedStrip: 0,
      transfer: {kind: "spring", stiffness: 1e8},
      facesTouch: interlayer,
      cutDepth: 0.3,
    },
    slabFriction: 1e9,
    base: {kind: "rigid"},
    crackInterlock: 1e8,
    shearWeight: 0.7,
  };
}

const request: ProbeRequest = {
  moduli: {temperature: 20},
  wheel: {load: 40e3, length: SIDE, width: SIDE},
  x: [SIDE / 2, -SIDE / 2],
  y: [0.1, -0.1],
  cracks: {interlayer: 0, underside: 0.013, surface: 0.007},
  contact: "open",
  transfer: null,
  accuracy: ACCURACY,
};

/** Numbers of a point's tip, with the signs that each takes under a change of sign of x and of y. */
const numbers = (p: ProbePoint, tip: Tip, sx: number, sy: number): number[] => {
  const t = p.tips[tip]!;
  return [
    t.opening,
    sx * t.shearXz,
    sx * sy * t.shearXy,
    t.strain * 1e9,
    ...Object.values(t.energy!).map(G => G * 1e5),
    1e9 * (sx > 0 ? p.deflection.surface.minus : p.deflection.surface.plus),
    1e9 * (sx > 0 ? p.deflection.slab.minus : p.deflection.slab.plus),
    1e9 * p.deflection.underWheel,
  ];
};

const close = (a: readonly number[], b: readonly number[]): void =>
  a.forEach(
    (v, k) => void expect(Math.abs(v - b[k]), `${k}: ${v}, ${b[k]}`).toBeLessThan(1e-6 * Math.abs(b[k]) + 1e-3),
  );

describe("a wheel before the joint and behind it, and either side along it", () => {
  const {points} = probe(section(false), request);
  const [rightUp, rightDown, leftUp, leftDown] = points;
  test.each(["underside", "surface"] as const)("%s tip", tip => {
    const expected = numbers(rightUp, tip, 1, 1);
    close(numbers(rightDown, tip, 1, -1), expected);
    close(numbers(leftUp, tip, -1, 1), expected);
    close(numbers(leftDown, tip, -1, -1), expected);
  });
  test("the loaded edge goes down more, and a second crack of the wheel's other side does not exist", () => {
    expect(rightUp.deflection.slab.plus).toBeGreaterThan(rightUp.deflection.slab.minus);
    expect(rightUp.tips.interlayer).toBeNull();
    expect(Math.abs(rightUp.tips.underside!.shearXy)).toBeGreaterThan(1e3); // the signs above are not those of nought
  });
  test("linear in the load: energy grows with its square", () => {
    const twice = probe(section(false), {...request, wheel: {...request.wheel, load: 80e3}, x: [SIDE / 2], y: [0.1]});
    const [a, b] = [rightUp.tips.underside!, twice.points[0].tips.underside!];
    close(
      [b.opening, b.shearXz, b.shearXy, 1e9 * b.strain],
      [a.opening, a.shearXz, a.shearXy, 1e9 * a.strain].map(v => 2 * v),
    );
    close(
      [b.energy!.I, b.energy!.II, b.energy!.III].map(v => 1e5 * v),
      [a.energy!.I, a.energy!.II, a.energy!.III].map(v => 4e5 * v),
    );
    expect(b.energy!.II).toBeGreaterThan(0);
  });
});

describe("the sweep over all states on the same mesh", () => {
  const s = section(true);
  const moduli = s.layers.map(l => l.material.modulus[0].modulus);
  const weightsAt = (waves: Wavenumbers, y: number) =>
    inverseWeights(waves, Float64Array.of(y), [{centre: 0, width: SIDE, pressure: 40e3 / SIDE ** 2}]);
  // A restarted crack over a partly cracked interlayer; a crack through both.
  test.each([
    {interlayer: 0.005, underside: 0.013, surface: 0.007},
    {interlayer: 0.012, underside: 0.02, surface: 0.003},
  ])("%o", cracks => {
    const closedFaces = [false, true, true];
    const asked = {...request, cracks, x: [SIDE / 2], y: [0.1], contact: {closedCracks: [], closedFaces}};
    const {points} = probe(s, asked);
    const geometry = probeGeometry(s, probeCracks(s, cracks), asked, 2 * SIDE);
    const patch = {length: SIDE, centres: Float64Array.of(SIDE / 2)};
    // Each mesh by itself, as the probe does: contact is settled on either and the results extrapolated.
    const corrections = {...geometry.waves, beta: new Float64Array(0)};
    const [coarse, fine] = geometry.meshes.map(mesh =>
      respond({...geometry, meshes: [mesh, mesh], corrections}, {moduli, transfer: 1e8}, [patch]),
    );
    const weights = weightsAt(geometry.waves, 0.1);
    const sum = (values: Float64Array, at: (k: number) => number, w: Float64Array): number =>
      w.reduce((total, weight, k) => total + weight * values[at(k)], 0);
    const {space} = geometry.meshes[1];
    const state = space.index(
      space.interlayerLength.indexOf(cracks.interlayer),
      space.undersideLength.indexOf(cracks.underside),
      space.surfaceLength.indexOf(cracks.surface),
    );
    const extrapolated = (of: (tables: ResponseTables) => number): number => 2 * of(fine) - of(coarse);
    const shear = (row: number, w: Float64Array): number =>
      extrapolated(tables => sum(tables.shear, k => (k * tables.states + state) * 6 + row, w));
    TIPS.forEach((tip, t) => {
      const found = points[0].tips[tip];
      const opening = extrapolated(tables =>
        sum(settledOpening(tables, state, 0b110), k => k * (TIPS.length + tables.segments) + t, weights.even),
      );
      if (!found) {
        expect(opening).toBe(0);
        return;
      }
      close(
        [found.opening, found.shearXz, found.shearXy],
        [opening, shear(t, weights.even), shear(3 + t, weights.odd)],
      );
      expect(found.energy === null).toBe(cracks[tip] === 0);
    });
  });
  test("temperature", () => {
    const cracks = {interlayer: 0, underside: 0.013, surface: 0.007};
    const {thermal} = probe(s, {...request, cracks, x: [], y: []});
    const tables = thermalResponse(probeGeometry(s, probeCracks(s, cracks), request, 0));
    const state = tables.space.index(0, 2, 1);
    thermal.forEach(({tips}, k) => {
      TIPS.forEach((tip, t) => {
        const found = tips[tip]!;
        close([found.opening], [tables.opening[(state * TIPS.length + t) * 3 + k]]);
        expect(found.strain).toBe(found.opening / found.planeStrainModulus);
      });
    });
    expect(thermal[0].jointOpening).toBeLessThan(0); // a warmer slab closes the joint
    const without = {...request, x: [], y: [], cracks: {interlayer: 0, underside: 0, surface: 0}};
    const whole = thermalResponse(probeGeometry(s, probeCracks(s, without.cracks), without, 0));
    probe(s, without).thermal.forEach(({jointOpening}, k) => {
      expect(jointOpening).toBeCloseTo(whole.jointOpening[k], 14);
    });
  });
});

test("contact is decided: nothing pulls, nothing overlaps, and closing leaves its mark", () => {
  const asked = {...request, x: [0, SIDE / 2], y: [0]};
  const decided = probe(section(true), {...asked, contact: "decide"}).points[0];
  const open = probe(section(true), asked).points[0];
  // Under a wheel over the joint the slab bends sideways and the ligament is in compression: both cracks close.
  expect(decided.contact).toMatchObject({closedCracks: ["underside", "surface"], settled: true});
  expect(decided.tips.underside).toMatchObject({opening: 0, energy: {I: 0}});
  expect(open.tips.underside!.opening).toBeLessThan(0);
});

describe("what it refuses", () => {
  const refuse = (change: Partial<ProbeRequest>) => () => probe(section(false), {...request, ...change});
  test.each([
    [{cracks: {interlayer: 0.001, underside: 0, surface: 0}}, /cracks\.interlayer: got 0\.001/],
    [{cracks: {interlayer: 0, underside: 0.05, surface: 0.03}}, /cracks\.underside \+ cracks\.surface/],
    [{moduli: [1e9]}, /moduli\.length: got 1, need 3/],
    [{wheel: {load: 0, length: 1, width: 1}}, /wheel\.load/],
  ])("%o", (change, message) => {
    expect(refuse(change)).toThrow(message);
  });
  test("contact of what is not there", () => {
    const {space} = responseGeometry(section(false), {accuracy: 1, reach: 0}).meshes[0];
    const map = closureMaps(space)[space.index(0, 1, 0)];
    const decide = (closedCracks: readonly Tip[], closedFaces: readonly boolean[]) => () =>
      decideContact({closedCracks, closedFaces}, map, 1, () => 1);
    expect(decide(["surface"], [false])).toThrow(/contact\.closedCracks: got surface/);
    expect(decide(["underside"], [])).toThrow(/contact\.closedFaces\.length: got 0, need 1/);
    expect(decide(["underside"], [true])()).toMatchObject({state: space.index(0, 0, 0), pattern: 1});
  });
  test("to go on when cancelled", () => {
    expect(() => probe(section(false), request, part => part < 0.5)).toThrow(Cancelled);
  });
});

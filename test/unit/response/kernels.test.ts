/** Both kernels through the whole response of random sections: the same bits in every crack state. */
import fc from "fast-check";
import {expect, test} from "vitest";
import {plainKernel, simdKernel} from "../../../src/engine/numeric/index.ts";
import {type Condition, type Geometry, responseGeometry} from "../../../src/engine/response/model.ts";
import {respond} from "../../../src/engine/response/respond.ts";
import type {Section} from "../../../src/engine/section/index.ts";
import {JOINT, layer} from "../section/fixture.ts";

const KERNELS = [plainKernel(), simdKernel()!];

const metres = (min: number, max: number) => fc.double({min, max, noNaN: true});
/** Evenly in the logarithm [Pa]. */
const modulus = (min: number, max: number) => metres(Math.log(min), Math.log(max)).map(Math.exp);

const sections: fc.Arbitrary<Section> = fc
  .record({
    overlay: metres(0.04, 0.15),
    interlayer: fc.option(metres(0.008, 0.02)),
    moduli: fc.tuple(modulus(5e8, 2e10), modulus(3e7, 2e9), modulus(1e9, 4e10), modulus(3e7, 5e8)),
    width: fc.constantFrom(0, 0.008),
    facesTouch: fc.boolean(),
    base: fc.constantFrom({kind: "rigid"} as const, {kind: "springs", stiffness: 5e7} as const),
    slabFriction: fc.constantFrom(0, 1e9, Number.POSITIVE_INFINITY),
    crackInterlock: fc.constantFrom(0, 2e10),
  })
  .map(({overlay, interlayer, moduli: [asphalt, soft, slab, ground], width, facesTouch, ...rest}) => ({
    layers: [
      layer("overlay", overlay, asphalt),
      ...(interlayer ? [layer("interlayer", interlayer, soft)] : []),
      layer("jointed", 0.25, slab),
      layer("foundation", 1, ground),
    ],
    joint: {...JOINT, width, facesTouch},
    shearWeight: 1,
    ...rest,
  }));

function tables(geometry: Geometry, condition: Condition, kernel: (typeof KERNELS)[number]) {
  const meshes = geometry.meshes.map(({model, space}) => ({model: {...model, kernel}, space}));
  return respond({...geometry, meshes}, condition, [{length: 0.2, centres: Float64Array.of(0.02, 0.15, 0.3)}]);
}

test("plain and 128-bit kernel give the same bits", () => {
  fc.assert(
    fc.property(sections, metres(0, 1e10), (section, transfer) => {
      const geometry = responseGeometry(section, {accuracy: 0.05, reach: 0.5});
      const waves = {...geometry.waves, beta: geometry.waves.beta.subarray(0, 2)};
      const few = {...geometry, waves, corrections: {...waves, beta: waves.beta.subarray(1)}};
      const condition = {moduli: section.layers.map(l => l.material.modulus[0].modulus), transfer};
      const [plain, simd] = KERNELS.map(kernel => tables(few, condition, kernel));
      expect(plain.opening.some(v => v !== 0)).toBe(true);
      expect(plain.shear.some(v => v !== 0)).toBe(true);
      expect(simd.opening).toEqual(plain.opening);
      expect(simd.shear).toEqual(plain.shear);
    }),
    {seed: 3, numRuns: 6},
  );
});

import {expect, test} from "vitest";
import {responseGeometry} from "../../../src/engine/response/model.ts";
import {section} from "../section/fixture.ts";

const CRACKS = {interlayer: [0], overlay: [0, 0.03, 0.08], overlayThickness: 0.08, interlayerThickness: 0.01};

test("columns at the first neighbouring joint follow the accuracy, in both meshes of the pair", () => {
  const road = section();
  const beside = (accuracy: number): number[] =>
    responseGeometry(road, {accuracy, reach: 1, cracks: CRACKS}).meshes.map(({model: {mesh}}) => {
      const {x} = mesh.grid;
      const k = x.findIndex(v => Math.abs(v - road.joint.spacing) < 1e-9);
      return x[k + 1] - x[k];
    });
  const [coarse, halved] = beside(0.01);
  expect(coarse).toBeLessThan(0.001); // from 0.1 mm, growing: the section has an interlayer
  expect(coarse / halved).toBeCloseTo(2, 9);
  expect(beside(0.0025)[0] / coarse).toBeLessThan(0.4); // a quarter, but for the rounding to whole columns
});

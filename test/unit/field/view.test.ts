import {expect, test} from "vitest";
import {fieldModel} from "../../../src/engine/field/mesh.ts";
import {halfView, wholeView} from "../../../src/engine/field/view.ts";
import {section} from "../section/fixture.ts";

const WIDTH = 0.01; // of the joint [m]

function viewOf(change: Parameters<typeof section>[0] = {}) {
  const {model, view} = fieldModel(section(change, {width: WIDTH}), {
    view: {halfWidth: 0.5, depth: 0.35},
    size: "usual",
    reach: 1,
    tips: [0.03],
  });
  const half = halfView(model.mesh, view);
  return {model, view, half, whole: wholeView(half, model.mesh.layerOfRow)};
}

test("the view ends on lines of the mesh, its cells are no longer than told", () => {
  const {view, half, model} = viewOf();
  expect(half.x[half.columns]).toBeCloseTo(0.5, 12);
  expect(half.z[half.rows]).toBeCloseTo(view.depth, 12);
  expect(view.depth).toBeCloseTo(0.35, 12);
  for (let k = 0; k < half.columns; k++) expect(half.x[k + 1] - half.x[k]).toBeLessThan(0.02 + 1e-9);
  expect(model.mesh.grid.z).toContain(0.03);
});

test("cells are mirrored, and the joint's gap is empty", () => {
  const {half, whole, model} = viewOf();
  const {x, columns, layer} = whole;
  expect(x.length).toBe(columns + 1);
  x.forEach((v, k) => {
    expect(v).toBe(-x[columns - k] + 0);
  });
  for (let row = 0; row < half.rows; row++) {
    for (let c = 0; c < columns; c++) {
      const middle = (x[c] + x[c + 1]) / 2;
      const gap = model.mesh.layerOfRow[row] === 2 && Math.abs(middle) < WIDTH / 2;
      expect(layer[row * columns + c]).toBe(gap ? -1 : model.mesh.layerOfRow[row]);
    }
  }
});

test("corners stand at the corners of their cells", () => {
  const {half, whole} = viewOf();
  const {x, columns, corners, cornerX, cornerZ, layer} = whole;
  layer.forEach((own, cell) => {
    const [row, c] = [Math.floor(cell / columns), cell % columns];
    const places = [
      [x[c], half.z[row]],
      [x[c + 1], half.z[row]],
      [x[c + 1], half.z[row + 1]],
      [x[c], half.z[row + 1]],
    ];
    places.forEach(([px, pz], k) => {
      const corner = corners[4 * cell + k];
      expect(corner < 0).toBe(own < 0);
      if (corner < 0) return;
      expect(cornerX[corner]).toBeCloseTo(px, 12);
      expect(cornerZ[corner]).toBeCloseTo(pz, 12);
    });
  });
});

test("an interface that slides has corners of either layer", () => {
  const at = (view: ReturnType<typeof viewOf>): number =>
    view.whole.cornerX.filter((x, k) => Math.abs(x - 0.5) < 1e-9 && Math.abs(view.whole.cornerZ[k] - 0.29) < 1e-9)
      .length;
  expect(at(viewOf())).toBe(1);
  expect(at(viewOf({slabFriction: 1e9}))).toBe(2);
});

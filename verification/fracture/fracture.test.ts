import {test} from "vitest";
import {verificationTable} from "../table.ts";
import {bridgedCracks} from "./bridged.ts";
import {buriedCracks, interfaceExponents, surfaceCracks} from "./layers.ts";
import {crackedOverlay, shearLag, uncrackedOverlay} from "./overlay.ts";
import {
  antiplaneCracks,
  convergence,
  edgeCracks,
  handbookFits,
  shortZones,
  unequalElements,
  zoneMeans,
} from "./strip.ts";

const table = verificationTable(
  "fracture",
  "Fracture mechanics",
  "Cracks on the line x = 0 of plane bodies, solved with the engine's elements, line model and direct solution. Stress " +
    "intensity factors come from energy release rates by virtual crack closure. Unless a row says otherwise they are " +
    "extrapolated from a mesh and the same with every element halved, for an error of first order in the element size.",
);

test("edge crack in a strip: K and mouth opening in tension, bending and shear", () => edgeCracks(table));
test("edge crack in a strip: mode III", () => antiplaneCracks(table));
test("edge crack in a strip: order of convergence", () => convergence(table));
test("edge crack in a strip: unequal elements at the tip", () => unequalElements(table));
test("edge crack in a strip: handbook fits", () => handbookFits(table));
test("edge crack in a strip: a tie across it", () => bridgedCracks(table));
test("process zone: tip strain tends to K", () => zoneMeans(table));
test("process zone: few elements", () => shortZones(table));
test("tip on an interface: exponent", () => interfaceExponents(table));
test("crack in a layer near a half-plane", () => buriedCracks(table));
test("crack from a free face towards a half-plane", () => surfaceCracks(table));
test("overlay over a base that parts or steps", () => uncrackedOverlay(table));
test("cracked overlay: energy balance", () => crackedOverlay(table));
test("overlay: shear-lag bar as its limit", () => shearLag(table));

table.page();

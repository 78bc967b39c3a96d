/** How times grow, with exponents. */
import type {GrowthLine} from "../growth/line.ts";
import type {Group} from "./group.ts";
import {countsPicture, elementsPicture} from "./growthPictures.ts";

export function growthGroup(lines: readonly GrowthLine[]): Group {
  const rows = lines.map(({along, part, points, exponent}) => {
    const [first, last] = [points[0], points[points.length - 1]];
    const unit = part === "flop" ? "" : " ms";
    const value = (v: number): string => `${v.toPrecision(3).replace("e+", "·10^")}${unit}`;
    const name = part === "flop" ? "multiply–adds of the elimination" : part;
    return [along, name, `${first.size} to ${last.size}`, `${value(first.value)} to ${value(last.value)}`, exponent];
  });
  return {
    title: "How time grows",
    text:
      "Parts of the response model at one wavenumber on one thread, while one size of the road's problem is varied and " +
      "the others stay: elements of the mesh (rows × columns, by the accuracy asked for, both meshes, the same crack " +
      "states), wavenumbers, wheel positions, crack states, layers (the foundation cut into more of them). The exponent " +
      "is that of the power law that fits best by least squares of the logarithms; that of the elimination stands " +
      "beside the one of its multiply–adds. Colours mean the same in both pictures.",
    comparisons: [],
    tables: [{head: ["along", "part", "sizes", "values", "exponent"], rows}],
    pictures: [elementsPicture(lines), countsPicture(lines)],
  };
}

/** Lives and costs at all thicknesses of a search as comma-separated values. */

import {csvText} from "./csv.ts";
import {type SearchCase, searchDots} from "./searched.ts";

export function searchCsv(one: SearchCase): string {
  return csvText(
    ["treatment", "thickness_mm", "years", "mechanism", "present_worth"],
    searchDots(one).map(d => [one.treatments[d.treatment]!.name, d.thickness, d.life, d.mechanism, d.cost ?? ""]),
  );
}

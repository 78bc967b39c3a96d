/** The road section that all yardsticks measure, and its mesh pair as a life computation would have it. */
import {readFileSync} from "node:fs";
import {
  type Condition,
  type Geometry,
  type LineModel,
  responseGeometry,
  type StateSpace,
} from "../src/engine/response/index.ts";
import {modulusAt, type Section} from "../src/engine/section/index.ts";
import {formatFaults, readStudy} from "../src/schema/index.ts";

const STUDY = "county-road.yaml";
const TREATMENT = "With interlayer";
const TEMPERATURE = 20; // [°C]
const ACCURACY = 0.01; // relative, in tip strain [–]
const REACH = 4; // [m]

export const MESHES = ["coarse", "halved"] as const;
export type MeshName = (typeof MESHES)[number];

/** A thin overlay on a soft interlayer: the mesh is graded hardest where an interlayer lies on a joint's corner. */
export function roadSection(): Section {
  const fileOf = (name: string): string => readFileSync(new URL(`../examples/${name}`, import.meta.url), "utf8");
  const outcome = readStudy(fileOf(STUDY), {fileName: STUDY, readCsv: fileOf});
  if (outcome.kind === "faults") throw new Error(`${STUDY}:\n${formatFaults(outcome.faults)}`);
  const treatment = outcome.study.treatments.find(t => t.name === TREATMENT);
  if (!treatment) throw new Error(`${STUDY}: no treatment "${TREATMENT}"`);
  return treatment.section;
}

export function roadCondition(section: Section): Condition {
  return {moduli: section.layers.map(l => modulusAt(l.material, TEMPERATURE)), transfer: 0};
}

export function roadGeometry(section: Section): Geometry {
  return responseGeometry(section, {accuracy: ACCURACY, reach: REACH});
}

export function meshOf(geometry: Geometry, name: MeshName): {readonly model: LineModel; readonly space: StateSpace} {
  return geometry.meshes[MESHES.indexOf(name)];
}

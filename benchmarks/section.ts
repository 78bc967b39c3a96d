/** The sections that all yardsticks measure, and the road's mesh pair as a life computation would have it. */
import {readFileSync} from "node:fs";
import {type LifeTask, lifePlan, lifeWorker, type Study} from "../src/engine/life/index.ts";
import type {ResponseRequest} from "../src/engine/life/plan.ts";
import {
  type Condition,
  type CrackLengths,
  type Geometry,
  type LineModel,
  responseGeometry,
  type StateSpace,
} from "../src/engine/response/index.ts";
import {modulusAt, type Section, thicknessOf} from "../src/engine/section/index.ts";
import type {RiskPlan} from "../src/engine/uncertainty/index.ts";
import {formatFaults, readStudy} from "../src/schema/index.ts";

export const ROAD = "county-road.yaml";
export const APRON = "apron.yaml";
const TREATMENT = "With interlayer";
const TEMPERATURE = 20; // [°C]
const ACCURACY = 0.01; // relative, in tip strain [–]
const REACH = 4; // [m]

export const MESHES = ["coarse", "halved"] as const;
export type MeshName = (typeof MESHES)[number];

/** What a response model is computed of. */
export interface Subject {
  readonly name: string;
  readonly request: ResponseRequest;
  readonly condition: Condition;
}

export function exampleStudy(file: string): Study {
  return exampleRisk(file).study;
}

/** A study with how sure its inputs are. */
export function exampleRisk(file: string): {readonly study: Study; readonly risk: RiskPlan} {
  const fileOf = (name: string): string => readFileSync(new URL(`../examples/${name}`, import.meta.url), "utf8");
  const outcome = readStudy(fileOf(file), {fileName: file, readCsv: fileOf});
  if (outcome.kind === "faults") throw new Error(`${file}:\n${formatFaults(outcome.faults)}`);
  return outcome;
}

function sectionOf(file: string, treatment: string): Section {
  const found = exampleStudy(file).treatments.find(t => t.name === treatment);
  if (!found) throw new Error(`${file}: no treatment "${treatment}"`);
  return found.section;
}

/** A thin overlay on a soft interlayer: the mesh is graded hardest where an interlayer lies on a joint's corner. */
export function roadSection(): Section {
  return sectionOf(ROAD, TREATMENT);
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

/** The lengths at which the cracks of a section are solved in a space of states. */
export function crackLengthsOf({layers}: Section, space: StateSpace): CrackLengths {
  return {
    interlayer: [...space.interlayerLength],
    overlay: [...space.undersideLength],
    overlayThickness: thicknessOf(layers, "overlay"),
    interlayerThickness: thicknessOf(layers, "interlayer"),
  };
}

/** The road with its interlayer, the same without, and the apron with its interlayer, all as their studies ask for them. */
export function subjects(): Subject[] {
  return [
    subject("road with interlayer", ROAD, TREATMENT),
    subject("road, plain overlay", ROAD, "Plain overlay"),
    subject("apron with interlayer", APRON, TREATMENT),
  ];
}

function subject(name: string, file: string, treatment: string): Subject {
  const study = exampleStudy(file);
  const index = study.treatments.findIndex(t => t.name === treatment);
  const {tasks} = lifePlan(study);
  const waves = tasks.find(t => t.kind === "waves" && t.treatment === index) as LifeTask & {kind: "waves"};
  const {request} = waves;
  const spring = lifeWorker()(tasks[waves.needs[0]], []);
  if (spring.kind !== "spring") throw new Error("the first need of a task on waves is its spring");
  const moduli = request.section.layers.map(l => modulusAt(l.material, TEMPERATURE));
  return {name, request, condition: {moduli, transfer: spring.transfer.stiffness}};
}

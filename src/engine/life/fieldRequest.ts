/** What of a study's treatment is looked at: its section at one temperature, under the heaviest of its axles. */
import {InputError} from "../errors.ts";
import {transferSpring} from "../response/index.ts";
import {interfaceDepths, modulusAt} from "../section/index.ts";
import type {LoadClass, Wheel} from "../traffic/index.ts";
import {type FieldRequest, usualPositions} from "./field.ts";
import type {Study} from "./types.ts";

export interface FieldChoice {
  readonly treatment: number; // index
  readonly temperature: number; // of all layers [°C]
  readonly cracks: FieldRequest["cracks"];
  readonly axle?: "standard" | number; // which load class; left out: the standard axle
  readonly size?: FieldRequest["size"]; // left out: usual
}

/** Half of what is seen along the lane, and what below the jointed layers [m]. */
const HALF_WIDTH = 0.9;
const BELOW = 0.25;
/** The spring is found to this accuracy [–]: its own test is no nearer. */
const SPRING_ACCURACY = 0.03;

/** @throws InputError */
export function fieldRequest(study: Study, choice: FieldChoice): FieldRequest {
  const treatment = study.treatments[choice.treatment];
  if (!treatment) throw new InputError("domain", "treatment", choice.treatment, `0 to ${study.treatments.length - 1}`);
  const {section} = treatment;
  const moduli = section.layers.map(l => modulusAt(l.material, choice.temperature));
  const {length, width, load} = study.traffic.standardAxle.wheels[0];
  const {transfer} = section.joint;
  const edge = {length, width, pressure: load / (length * width)};
  const depths = interfaceDepths(section.layers);
  const slabBottom = depths[section.layers.filter(l => l.role !== "foundation").length];
  const {wheels} = axleOf(study, choice.axle ?? "standard");
  return {
    section,
    moduli,
    transfer:
      transfer.kind === "spring"
        ? transfer.stiffness
        : transferSpring(section, moduli, edge, SPRING_ACCURACY).stiffness,
    cracks: choice.cracks,
    wheels,
    y: heaviest(wheels).y,
    positions: usualPositions(),
    view: {halfWidth: HALF_WIDTH, depth: Math.min(slabBottom + BELOW, depths[depths.length - 1])},
    size: choice.size ?? "usual",
  };
}

function axleOf({traffic}: Study, axle: "standard" | number): LoadClass {
  const found = axle === "standard" ? traffic.standardAxle : traffic.classes[axle];
  if (!found) throw new InputError("domain", "axle", axle, `"standard" or 0 to ${traffic.classes.length - 1}`);
  return found;
}

/** Of wheels alike the first. */
function heaviest(wheels: readonly Wheel[]): Wheel {
  return wheels.reduce((most, w) => (w.load > most.load ? w : most));
}

/**
 * Documents of deflection bowls: unknown text in, a test for the engine or a list of faults out. All units are converted here.
 * How to write one: docs/deflections.md.
 */
export {type BowlOutcome, readBowl} from "./bowl.ts";
export {type BowlDocument, bowlSchema} from "./bowl-fields.ts";
export {bowlTemplate} from "./template.ts";

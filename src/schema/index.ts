/**
 * The study document: unknown text in, engine input or a list of faults out. All units are converted here.
 * How to write one: docs/study.md.
 */
export {describeSection} from "./describe.ts";
export type {Fault} from "./fault.ts";
export {faultLine, formatFaults} from "./fault.ts";
export {fileWord} from "./file-word.ts";
export {hashedText} from "./hashed-text.ts";
export {jsonSchema} from "./json-schema.ts";
export {type LawDocument, type LawOutcome, lawText, readLaw} from "./law-file.ts";
export type {FoundPath} from "./paths.ts";
export type {ReadingOptions, ReadOutcome, StudyInputs} from "./read.ts";
export {readStudy} from "./read.ts";
export {type ReadCurve, readStiffness, type StiffnessChoices, type StiffnessOutcome} from "./stiffness.ts";
export {curveModels, shiftKinds} from "./stiffness-fields.ts";
export type {StudyDocument} from "./study.ts";
export {type StudyReader, studyReader} from "./study-reader.ts";
export type {ReadCsv} from "./table.ts";
export {type Edit, studyVariations, type Variations} from "./variations.ts";
export {
  type FoundInput,
  findInput,
  type Setting,
  specialInputs,
  type VariedInput,
  variedPlan,
  variedStudy,
} from "./varied-inputs.ts";

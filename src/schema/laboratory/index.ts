/**
 * Files of a laboratory: rows of cells in, engine types or faults out. All units are converted here.
 * How to write them: docs/laboratory-files.md.
 */
export {type BeamOutcome, readBeamTables} from "./beams.ts";
export {
  type Cell,
  type Delimiter,
  delimiterOf,
  type RawFile,
  type RawRow,
  type RawSheet,
  saysSomething,
} from "./cells.ts";
export {type FatigueOutcome, readFatigueTable, type SpecimenOrigin} from "./fatigue.ts";
export {
  formatLaboratoryFaults,
  type LaboratoryFault,
  listed,
  type RefusedRow,
  type WholeProblem,
  wholeFault,
} from "./fault.ts";
export {boundedFaults, type HistoryReader, type HistoryRow, openHistory} from "./history.ts";
export {lawDocuments, type Provenance} from "./law-documents.ts";
export {
  calibrationRequest,
  levelOf,
  type ProgrammeDocument,
  type ProgrammeOutcome,
  programmeTemplate,
  readProgramme,
  unknownMaterials,
} from "./programme.ts";
export type {KeptCell, Origin} from "./rows.ts";
export {beamsTemplate, fatigueTemplate, readingsTemplate} from "./templates.ts";
export {formatUnderstanding, type Understanding, type UnderstoodColumn} from "./understanding.ts";

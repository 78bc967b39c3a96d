/**
 * Files of a laboratory: rows of cells in, engine types or faults out. All units are converted here.
 * How to write them: docs/laboratory-files.md.
 */
export {type BeamOutcome, type RowPlace, readBeamTables} from "./beams.ts";
export {
  CSV_OPTIONS,
  contentOf,
  HEAD_BYTES,
  problemOfContent,
  readTableBytes,
  type TableRead,
  tooLarge,
  unreadable,
} from "./bytes/index.ts";
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
export {assembleFatigueProgramme, type FatigueFiles, type FatigueSource, fatigueOutcome} from "./fatigue-programme.ts";
export {
  type FaultGroup,
  formatLaboratoryFaults,
  groupedFaults,
  type LaboratoryFault,
  listed,
  type RefusedRow,
  type WholeProblem,
  wholeFault,
} from "./fault.ts";
export {boundedFaults, type HistoryReader, type HistoryRow, openHistory} from "./history.ts";
export {type HistoryOutcome, type HistoryRun, type HistorySink, historyRun, readHistoryBytes} from "./history-run.ts";
export {
  beamOutcome,
  beamTables,
  fatigueProgramme,
  fileBeside,
  type LaboratoryFile,
  type LaboratoryLook,
  type LaboratoryTable,
  lookAtLaboratoryFile,
  readLaboratoryFile,
  type SetAsideRow,
  tablesIn,
  understandingsOf,
} from "./laboratory-files.ts";
export {lawDocuments, type Provenance} from "./law-documents.ts";
export {type LawText, lawTexts} from "./law-texts.ts";
export {
  calibrationRequest,
  levelOf,
  type ProgrammeDocument,
  type ProgrammeOutcome,
  programmeTemplate,
  readProgramme,
  unknownMaterials,
} from "./programme.ts";
export {
  type LaboratoryReading,
  leftOutLines,
  readingFaultsText,
  readingWarnings,
  readTogether,
  understandingText,
} from "./reading-text.ts";
export type {KeptCell, Origin} from "./rows.ts";
export {withSetAside} from "./set-aside.ts";
export {tableText} from "./table-text.ts";
export {beamsTemplate, fatigueTemplate, readingsTemplate} from "./templates.ts";
export {formatUnderstanding, type Understanding, type UnderstoodColumn} from "./understanding.ts";

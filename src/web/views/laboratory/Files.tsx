/** Files of a laboratory: dropped, looked through column by column, used or removed. */
import {ChevronRight, FlaskConical, Trash2} from "lucide-react";
import {
  Disclosure,
  DisclosurePanel,
  DropZone,
  FileTrigger,
  Heading,
  Text,
  Button as Trigger,
} from "react-aria-components";
import {useShallow} from "zustand/react/shallow";
import {
  beamsTemplate,
  fatigueTemplate,
  formatUnderstanding,
  type LaboratoryFile,
  type LaboratoryLook,
  programmeTemplate,
  readingsTemplate,
  type Understanding,
} from "../../../schema/laboratory/index.ts";
import {Button, IconButton} from "../../parts/Button.tsx";
import {download} from "../../state/download.ts";
import {
  addLaboratoryFiles,
  chooseFiles,
  emptyLaboratory,
  removeLaboratoryFile,
  tableCopies,
  useLaboratory,
} from "../../state/laboratory.ts";
import {exampleLaboratory} from "./example.ts";
import {chosenFiles, droppedFiles} from "./picked.ts";
import {FaultGroups} from "./Reading.tsx";

function take(files: Promise<LaboratoryFile[]>, isKnown = false): void {
  void files.then(
    found => addLaboratoryFiles(found, isKnown),
    (error: Error) => useLaboratory.setState({problem: `The files cannot be had: ${error.message}`}),
  );
}

export function Files() {
  const {files, looks, used, isReading, problem} = useLaboratory(
    useShallow(({files, looks, used, isReading, problem}) => ({files, looks, used, isReading, problem})),
  );
  const waiting = looks.filter(look => look.fault === null && !used.includes(look.name)).map(({name}) => name);
  return (
    <section className="card stack" aria-labelledby="laboratory-files">
      <div className="title">
        <h2 id="laboratory-files">Files</h2>
        <div className="row">
          {waiting.length > 1 && (
            <Button look="main" onPress={() => chooseFiles(waiting, true)}>
              Use all {waiting.length} files
            </Button>
          )}
          {files.length > 0 && <Button onPress={emptyLaboratory}>Remove all</Button>}
        </div>
      </div>
      <Drop isEmpty={files.length === 0} />
      <p role="status" className="small muted laboratory-status">
        {isReading
          ? "Reading…"
          : files.length > 0
            ? `${files.length} ${files.length === 1 ? "file" : "files"}, ${used.length} used.`
            : ""}
      </p>
      {problem && (
        <p role="alert" className="note bad">
          {problem}
        </p>
      )}
      {looks.map(look => (
        <FileCard key={look.name} look={look} isUsed={used.includes(look.name)} />
      ))}
    </section>
  );
}

function Drop({isEmpty}: {readonly isEmpty: boolean}) {
  return (
    <DropZone
      className={`laboratory-drop ${isEmpty ? "empty" : "row"}`}
      onDrop={event => take(droppedFiles(event.items))}
      aria-label="Drop files of the laboratory here"
    >
      {isEmpty && <FlaskConical size={32} aria-hidden />}
      <Text slot="label">
        {isEmpty
          ? "Drop tables of bending fatigue tests, with the histories that they name, and of wheel-tracked beams with their readings: CSV or XLSX, any headers and units, a whole folder if you like; and the programme.yaml that says what tables do not."
          : "Drop more files here."}
      </Text>
      <div className="row">
        <FileTrigger allowsMultiple onSelect={list => take(chosenFiles(list))}>
          <Button look={isEmpty ? "main" : "plain"}>Choose files…</Button>
        </FileTrigger>
        <FileTrigger acceptDirectory onSelect={list => take(chosenFiles(list))}>
          <Button>Choose a folder…</Button>
        </FileTrigger>
        {isEmpty && <Button onPress={() => take(exampleLaboratory(), true)}>Use the example laboratory</Button>}
      </div>
      {isEmpty && <Templates />}
    </DropZone>
  );
}

const TEMPLATES: readonly (readonly [label: string, file: string, text: () => string])[] = [
  ["specimens", "fatigue.csv", fatigueTemplate],
  ["beams", "beams.csv", beamsTemplate],
  ["readings", "readings.csv", readingsTemplate],
  ["programme", "programme.yaml", programmeTemplate],
];

function Templates() {
  return (
    <div className="row small">
      Empty ones to fill in:
      {TEMPLATES.map(([label, file, text]) => (
        <Button key={file} look="bare" onPress={() => download(file, text(), "text/plain")}>
          {label}
        </Button>
      ))}
    </div>
  );
}

const NAMES: Readonly<Record<LaboratoryLook["tables"][number], string>> = {
  fatigue: "fatigue specimens",
  beams: "wheel-tracked beams",
  readings: "readings of cracks",
  history: "stiffness history",
};

function FileCard({look, isUsed}: {readonly look: LaboratoryLook; readonly isUsed: boolean}) {
  const {name, tables, understandings, fault} = look;
  const hasRows = tables.some(t => t === "fatigue" || t === "beams");
  return (
    <Disclosure key={String(isUsed)} className="laboratory-file" defaultExpanded={!isUsed}>
      <Heading level={3}>
        <Trigger slot="trigger" className="laboratory-file-head">
          <ChevronRight size={16} aria-hidden />
          <span className="laboratory-file-name">{name}</span>
          <span className="muted small">{tables.map(t => NAMES[t]).join(", ")}</span>
          <span className={`tag ${fault ? "bad" : isUsed ? "" : "warn"}`}>
            {fault ? "cannot be used" : isUsed ? "used" : "columns to be looked through"}
          </span>
        </Trigger>
      </Heading>
      <DisclosurePanel className="laboratory-file-inside">
        <div className="stack">
          {fault && <FaultGroups faults={[fault]} kind="fault" />}
          {understandings.map(one => (
            <Columns key={one.table} one={one} />
          ))}
          <div className="row">
            {!fault && !isUsed && (
              <Button look="main" onPress={() => chooseFiles([name], true)}>
                Use these columns
              </Button>
            )}
            {isUsed && <Button onPress={() => chooseFiles([name], false)}>Leave this file out</Button>}
            {hasRows && !fault && <Button onPress={() => void saveCopies(name)}>Save as CSV with reasons</Button>}
            <IconButton label={`Remove ${name}`} onPress={() => removeLaboratoryFile(name)}>
              <Trash2 size={16} aria-hidden />
            </IconButton>
          </div>
        </div>
      </DisclosurePanel>
    </Disclosure>
  );
}

async function saveCopies(file: string): Promise<void> {
  for (const {name, text} of await tableCopies(file)) download(name, `\uFEFF${text}`, "text/csv");
}

/** What a table was understood as: to be checked by a person before it is used. */
function Columns({one}: {readonly one: Understanding}) {
  const facts = formatUnderstanding(one).split("\n")[1].trim();
  return (
    <div className="table-wrap">
      <table className="plain">
        <caption className="small muted">{facts}</caption>
        <thead>
          <tr>
            <th scope="col">Header in the file</th>
            <th scope="col">Understood as</th>
            <th scope="col">Unit</th>
            <th scope="col">First row</th>
            <th scope="col">Becomes</th>
          </tr>
        </thead>
        <tbody>
          {one.columns.map(({header, role, unit, firstCell, firstValue}, k) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: two columns may have one header; their order never changes
            <tr key={k} className={role === null ? "muted" : ""}>
              <th scope="row">{header}</th>
              <td>{role ?? "kept as it is"}</td>
              <td>{unit ?? ""}</td>
              <td className="laboratory-cell">{firstCell}</td>
              <td>{firstValue ?? ""}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

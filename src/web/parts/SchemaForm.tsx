/** Any part of the study document as a form, by what the schema says of it: nothing that may be written is out of reach. */
import {Plus, Trash2} from "lucide-react";
import {type Branch, branchOf, type FieldInfo, fieldInfo, labelOf, pathOfText} from "../../schema/editing/index.ts";
import type {Fault} from "../../schema/index.ts";
import {isAbout, isWithin, useFaults} from "../state/answers.ts";
import {keysAt, listAt, type Path, textAt, useValue} from "../state/value.ts";
import {edit, useWorkbook} from "../state/workbook.ts";
import {Button, IconButton} from "./Button.tsx";
import {Choice} from "./Choice.tsx";
import {FaultText} from "./Faults.tsx";
import {CheckBox, ChoiceBox, leftOutText, NumberBox, WordsBox} from "./Field.tsx";
import {Fold} from "./Fold.tsx";
import {MaterialBox} from "./MaterialBox.tsx";

export interface SchemaFormProps {
  readonly path: Path;
  /** Keys of the map that are shown elsewhere. */
  readonly without?: readonly string[];
}

/** The keys of a map, each as its own field. */
export function SchemaForm({path, without = []}: SchemaFormProps) {
  const info = fieldInfo(path);
  if (info?.shape.kind !== "map") return <Entry path={path} label={labelOf(String(path.at(-1)))} isRequired />;
  return (
    <div className="fields">
      {info.shape.keys
        .filter(({key}) => !without.includes(key))
        .map(({key, isRequired}) => (
          <Entry key={key} path={[...path, key]} label={labelOf(key)} isRequired={isRequired} />
        ))}
    </div>
  );
}

interface EntryProps {
  readonly path: Path;
  readonly label: string;
  readonly isRequired: boolean;
}

/** One key of a map, by its shape. */
function Entry({path, label, isRequired}: EntryProps) {
  const info = fieldInfo(path);
  if (!info) return null;
  const isOptional = !isRequired;
  switch (info.shape.kind) {
    case "number":
      return <NumberBox path={path} label={label} isOptional={isOptional} />;
    case "words":
      return path.at(-1) === "material" ? (
        <MaterialBox path={path} label={label} />
      ) : (
        <WordsBox path={path} label={label} isOptional={isOptional} className={isLong(path) ? "whole" : ""} />
      );
    case "flag":
      return <CheckBox path={path} label={label} />;
    case "choice":
      return <ChoiceBox path={path} label={label} />;
    case "map":
      return <Group path={path} label={label} isRequired={isRequired} />;
    case "list":
      return info.shape.of === "maps" ? (
        <List path={path} label={label} />
      ) : (
        <Numbers path={path} label={label} isOptional={isOptional} />
      );
    case "either":
      return <Either path={path} label={label} info={info} branches={info.shape.branches} isOptional={isOptional} />;
    case "names":
      return <Names path={path} label={label} />;
  }
}

const isLong = (path: Path): boolean =>
  ["description", "source", "label", "file", "law_file"].includes(String(path.at(-1)));

/** Faults of a place that has no box of its own. */
export function FaultsAt({path}: {readonly path: Path}) {
  const faults = useFaults().filter(f => isAbout(f, path));
  return faults.map(f => (
    <div key={f.problem} className="field">
      <FaultText fault={f} kind="fault" />
    </div>
  ));
}

function Group({path, label, isRequired}: EntryProps) {
  const value = useValue(path);
  const info = fieldInfo(path);
  const isThere = value !== undefined && value !== null;
  const hint = info?.description;
  if (!isThere && !isRequired) {
    return (
      <div className="whole row">
        <Button look="bare" onPress={() => edit(`add ${label.toLowerCase()}`, [{path, value: {}}])}>
          <Plus size={14} aria-hidden />
          {label}
        </Button>
        <span className="small muted">{hint}</span>
      </div>
    );
  }
  return (
    <fieldset className="whole group-of-fields">
      <legend className="row">
        <b>{label}</b>
        {!isRequired && (
          <IconButton
            label={`Leave out ${label.toLowerCase()}`}
            onPress={() => edit(`leave out ${label.toLowerCase()}`, [{path, value: undefined}])}
          >
            <Trash2 size={14} aria-hidden />
          </IconButton>
        )}
      </legend>
      <FaultsAt path={path} />
      <SchemaForm path={path} />
    </fieldset>
  );
}

function List({path, label}: {readonly path: Path; readonly label: string}) {
  const entries = useWorkbook(({raw}) => listAt(raw, path));
  const name = label.toLowerCase().replace(/(?:(?<=ss|x|ch|sh)es|s)$/, "");
  return (
    <div className="whole stack">
      <div className="title">
        <b>{label}</b>
        <Button
          look="bare"
          onPress={() =>
            edit(`add to ${label.toLowerCase()}`, [
              {path: [...path, entries.length], value: {...(entries.at(-1) as object | undefined)}},
            ])
          }
        >
          <Plus size={14} aria-hidden />
          Add
        </Button>
      </div>
      <FaultsAt path={path} />
      {entries.map((entry, k) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: entries of a document are their places
        <fieldset key={k} className="group-of-fields">
          <legend className="row">
            <span className="muted">
              {k + 1} {textAt(entry, ["name"]) || textAt(entry, ["group"])}
            </span>
            <IconButton
              label={`Remove ${name} ${k + 1}`}
              onPress={() => edit(`remove ${name}`, [{path: [...path, k], value: undefined}])}
            >
              <Trash2 size={14} aria-hidden />
            </IconButton>
          </legend>
          <SchemaForm path={[...path, k]} />
        </fieldset>
      ))}
    </div>
  );
}

/** A list of numbers in one box, parted by commas or blanks. */
function Numbers({
  path,
  label,
  isOptional,
}: {
  readonly path: Path;
  readonly label: string;
  readonly isOptional: boolean;
}) {
  return <WordsBox path={path} label={label} isOptional={isOptional} className="whole" isNumbers />;
}

interface EitherProps {
  readonly path: Path;
  readonly label: string;
  readonly branches: readonly Branch[];
  readonly isOptional: boolean;
  readonly info: FieldInfo;
}

/** One of several shapes: which one is chosen first, then come its own fields. */
function Either({path, label, branches, isOptional, info}: EitherProps) {
  const {usual} = info;
  const value = useValue(path);
  const at = branchOf(branches, value ?? usual);
  const shape = at < 0 ? null : branches[at].shape;
  const options = [
    ...(isOptional && usual === undefined ? [{id: "none", text: leftOutText(path, info)}] : []),
    ...branches.map(({name}, k) => ({id: String(k), text: name})),
  ];
  const choose = (id: string): void =>
    edit(label, [{path, value: id === "none" ? undefined : branches[Number(id)].fresh}]);
  return (
    <div className="whole stack">
      <Choice
        label={label}
        options={options}
        value={at < 0 ? (isOptional ? "none" : null) : String(at)}
        onChange={choose}
      />
      <FaultsAt path={path} />
      {shape?.kind === "map" && value !== undefined && <SchemaForm path={path} />}
      {shape?.kind === "list" && value !== undefined && <List path={path} label={label} />}
      {shape?.kind === "number" && value !== undefined && <NumberBox path={path} label={label} hideLabel />}
    </div>
  );
}

const MOST_OPEN = 12; // entries of a map, before they are closed behind their names

/** A map from names to entries, each behind its name; with those that are missing, so that they can be filled in. */
function Names({path, label}: {readonly path: Path; readonly label: string}) {
  const written = useWorkbook(({raw}) => keysAt(raw, path).join("\n"));
  const faults = useFaults();
  const own = written.split("\n").filter(Boolean);
  const missing = [...new Set(faults.flatMap(f => entryOf(f, path)))].filter(name => !own.includes(name));
  const names = [...own, ...missing];
  return (
    <div className="whole stack">
      <b>{label}</b>
      <FaultsAt path={path} />
      {names.map(name => (
        <Fold
          key={name}
          title={name}
          level={4}
          path={[...path, name]}
          isOpen={names.length <= MOST_OPEN}
          beside={
            own.includes(name) && (
              <IconButton
                label={`Remove ${name} from ${label.toLowerCase()}`}
                onPress={() =>
                  edit(`remove ${name} from ${label.toLowerCase()}`, [{path: [...path, name], value: undefined}])
                }
              >
                <Trash2 size={14} aria-hidden />
              </IconButton>
            )
          }
        >
          <FaultsAt path={[...path, name]} />
          <SchemaForm path={[...path, name]} />
        </Fold>
      ))}
      {names.length === 0 && <span className="small muted">None is needed.</span>}
    </div>
  );
}

/** The name of the entry of a map that a fault is about. */
const entryOf = (fault: Fault, path: Path): string[] =>
  isWithin(fault, path)
    ? pathOfText(fault.path)
        .slice(path.length, path.length + 1)
        .map(String)
    : [];

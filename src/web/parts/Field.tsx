/** Fields of the study document: each shows its value, its unit and its own faults, and writes back what is typed. */
import {type KeyboardEvent, useEffect, useState} from "react";
import {Input, Label, Text, TextField} from "react-aria-components";
import {displayUnit} from "../../report/live/index.ts";
import {type FieldInfo, fieldInfo, type NamedKind, renamed} from "../../schema/editing/index.ts";
import {isAbout, useFaults, useWarnings} from "../state/answers.ts";
import {useSettings} from "../state/settings.ts";
import {OF_STUDY} from "../state/shortcuts.ts";
import {type Path, useValue} from "../state/value.ts";
import {edit, rewrite} from "../state/workbook.ts";
import {Check} from "./Check.tsx";
import {Choice, isLong, type Option} from "./Choice.tsx";
import {FaultText} from "./Faults.tsx";
import {typed} from "./typed.ts";

export interface FieldProps {
  readonly path: Path;
  readonly label: string;
  readonly className?: string;
  readonly hideLabel?: boolean;
  /** Left empty, the field is taken out of the document. */
  readonly isOptional?: boolean;
}

function useFaultsAt(path: Path) {
  const [faults, warnings] = [useFaults(), useWarnings()];
  return {
    fault: faults.find(f => isAbout(f, path)) ?? null,
    warning: warnings.find(f => isAbout(f, path)) ?? null,
  };
}

/** The number as people write it: 0.00000000000000071 is hard to read. */
function shown(value: number): string {
  const size = Math.abs(value);
  if (value === 0 || (size >= 1e-3 && size < 1e7)) return String(Number(value.toPrecision(12)));
  return String(Number(value.toPrecision(12)).toExponential()).replace("e+", "e");
}

interface TextBoxProps extends FieldProps {
  readonly text: string; // as it is in the document
  readonly unit: string | null;
  readonly isNumber: boolean;
  readonly placeholder: string;
  readonly stored?: string | null; // the value in the unit of the document, where that is another
  /** Returns why it is refused, where it is: the box then shows what the document has, and the reason. */
  readonly onCommit: (text: string) => string | undefined;
  readonly onStep?: (by: number) => void;
}

/**
 * The text box of the component library rather than its number box: that one knows no powers of ten, and would cut what is
 * outside the range where the document has to say that it is.
 */
function TextBox(props: TextBoxProps) {
  const {
    path,
    label,
    text,
    unit,
    isNumber,
    placeholder,
    stored = null,
    onCommit,
    onStep,
    className = "",
    hideLabel,
  } = props;
  const [draft, setDraft] = useState(text);
  const [refusal, setRefusal] = useState<string | null>(null);
  useEffect(() => {
    setDraft(text);
    setRefusal(null);
  }, [text]);
  const {fault, warning} = useFaultsAt(path);
  const info = fieldInfo(path);
  const type = (next: string): void => {
    setDraft(next);
    setRefusal(null);
  };
  const commit = (): void => {
    if (draft === text) return;
    const refused = onCommit(draft);
    if (refused === undefined) return;
    setDraft(text);
    setRefusal(refused);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === "Enter") commit();
    else if (isUndo(event) && draft !== text) {
      event.preventDefault(); // what is not yet in the study goes first
      setDraft(text);
    } else if (event.key === "Escape" && draft !== text) setDraft(text);
    else if (onStep && draft === text && (event.key === "ArrowUp" || event.key === "ArrowDown")) {
      event.preventDefault();
      onStep(event.key === "ArrowUp" ? 1 : -1);
    }
  };
  return (
    <TextField
      className={`field ${className}`}
      {...((fault || refusal !== null) && {"data-faulty": true})}
      {...(warning && {"data-warned": true})}
      value={draft}
      onChange={type}
      onBlur={commit}
      isInvalid={fault !== null || refusal !== null}
      {...(hideLabel && {"aria-label": unit ? `${label}, ${unit}` : label})}
    >
      {!hideLabel && <Label>{label}</Label>}
      <div className="entry" title={info?.description}>
        <Input
          placeholder={placeholder}
          inputMode={isNumber ? "decimal" : "text"}
          autoComplete="off"
          spellCheck={false}
          onKeyDown={onKeyDown}
          {...{[OF_STUDY]: true}}
        />
        {unit && unit !== "–" && <span className="unit">{unit}</span>}
      </div>
      {(fault || warning || refusal !== null) && (
        <Text slot="description">
          {refusal !== null && (
            <span className="fault" role="alert">
              {refusal}
            </span>
          )}
          {fault ? <FaultText fault={fault} kind="fault" /> : warning && <FaultText fault={warning} kind="warning" />}
          {(fault || warning) && stored !== null && <span className="hint"> In the study it is {stored}.</span>}
        </Text>
      )}
    </TextField>
  );
}

const isUndo = ({key, ctrlKey, metaKey, altKey, shiftKey}: KeyboardEvent): boolean =>
  (ctrlKey || metaKey) && !altKey && !shiftKey && key.toLowerCase() === "z";

/** A step by an arrow key: a hundredth of the size, at least in the first figure. */
function stepped(value: number, by: number): number {
  const step = value === 0 ? 1 : 10 ** (Math.floor(Math.log10(Math.abs(value))) - 1);
  return Number((value + by * step).toPrecision(12));
}

/** "2.5 in" → "2.5"; text with another unit stays as it is. */
function withoutUnit(text: string, unit: string): string {
  const [, number, word] = /^\s*(.*\d)\s*(\D+?)\s*$/.exec(text) ?? [];
  return word === unit ? number : text;
}

/** What stands where nothing is written. */
export function leftOutText(path: Path, info: FieldInfo | null): string {
  if (info && info.leftOut !== null) return info.leftOut;
  return path[0] === "treatments" && path[2] === "changes" && path.length === 4 ? "as in the section" : "not given";
}

export function NumberBox(props: FieldProps) {
  const {path, label, isOptional = false} = props;
  const value = useValue(path);
  const units = useSettings(s => s.units);
  const info = fieldInfo(path);
  const currency = useValue(["costs", "currency"]);
  const display = displayUnit(info?.unit ?? "–", units);
  const text =
    typeof value === "number"
      ? shown(display.toDisplay(value))
      : value === undefined || value === null
        ? ""
        : String(value);
  const usual = typeof info?.usual === "number" ? shown(display.toDisplay(info.usual)) : "";
  const write = (next: string): undefined => {
    if (next.trim() === "" && (isOptional || info?.usual !== undefined)) {
      edit(label, [{path, value: undefined}]);
      return;
    }
    const shownIn = withoutUnit(next, display.unit);
    const number = typed(shownIn);
    const stored = typed(withoutUnit(next, info?.unit ?? "–"));
    edit(label, [{path, value: typeof number === "number" ? display.fromDisplay(number) : stored}]);
  };
  return (
    <TextBox
      {...props}
      text={text}
      stored={typeof value === "number" && info && display.unit !== info.unit ? `${shown(value)} ${info.unit}` : null}
      unit={display.unit.replace("currency", typeof currency === "string" ? currency : "currency")}
      isNumber
      placeholder={usual || (isOptional ? leftOutText(path, info) : "")}
      onCommit={write}
      onStep={by => typeof value === "number" && write(String(stepped(display.toDisplay(value), by)))}
    />
  );
}

/** @param props.isNumbers  a list of numbers, parted by commas or blanks */
export function WordsBox(props: FieldProps & {readonly isNumbers?: boolean}) {
  const {path, label, isOptional = false, isNumbers = false} = props;
  const value = useValue(path);
  const text = value === undefined || value === null ? "" : Array.isArray(value) ? value.join(", ") : String(value);
  const write = (next: string): undefined => {
    const taken = isNumbers
      ? next
          .split(/[\s;,]+/)
          .filter(Boolean)
          .map(typed)
      : next.trim();
    edit(label, [{path, value: next.trim() === "" && isOptional ? undefined : taken}]);
  };
  return <TextBox {...props} text={text} unit={null} isNumber={false} placeholder="" onCommit={write} />;
}

export interface NameBoxProps {
  readonly kind: NamedKind;
  readonly home: Path; // of what is called so
  readonly name: string;
  readonly taken: readonly string[]; // names of its kind, its own among them
  readonly onRename?: (name: string) => void;
}

/** A name that the study may use elsewhere too: it is changed everywhere at once. */
export function NameBox({kind, home, name, taken, onRename}: NameBoxProps) {
  const path = [...home, "name"];
  const write = (typed: string): string | undefined => {
    const next = typed.trim();
    if (next === name) return undefined;
    if (next === "") return `A ${kind} needs a name: it is still called “${name}”.`;
    if (taken.includes(next)) return `Another ${kind} is called “${next}”: this one is still “${name}”.`;
    // What has no name, or shares it, is not what others mean by it.
    const isMeant = name !== "" && taken.filter(n => n === name).length === 1;
    if (!isMeant) edit(`rename ${kind}`, [{path, value: next}]);
    else if (!rewrite(`rename ${kind}`, text => renamed(text, kind, name, next))) return "It could not be renamed.";
    onRename?.(next);
    return undefined;
  };
  return <TextBox path={path} label="Name" text={name} unit={null} isNumber={false} placeholder="" onCommit={write} />;
}

/** One of the words that the schema knows, or of the options given. */
export function ChoiceBox(props: FieldProps & {readonly options?: readonly Option[]}) {
  const {path, label, options, className = "", hideLabel = false} = props;
  const value = useValue(path);
  const info = fieldInfo(path);
  const {fault} = useFaultsAt(path);
  const words = info?.shape.kind === "choice" ? info.shape.choices : [];
  const all = options ?? words.map(id => ({id, text: id.replaceAll("_", " ")}));
  const present = typeof value === "string" ? value : typeof info?.usual === "string" ? info.usual : null;
  const known = present === null || all.some(o => o.id === present) ? all : [...all, {id: present, text: present}];
  return (
    <div className={`stack ${className} ${isLong(known) ? "wide" : ""}`} style={{gap: 3}}>
      <Choice
        label={label}
        hideLabel={hideLabel}
        options={known}
        value={present}
        isFaulty={fault !== null}
        onChange={id => edit(label, [{path, value: id}])}
      />
      {fault && (
        <div className="field">
          <FaultText fault={fault} kind="fault" />
        </div>
      )}
    </div>
  );
}

export function CheckBox({path, label}: FieldProps) {
  const value = useValue(path);
  const info = fieldInfo(path);
  const isSelected = typeof value === "boolean" ? value : info?.usual === true;
  return (
    <Check isSelected={isSelected} onChange={next => edit(label, [{path, value: next}])}>
      {label}
    </Check>
  );
}

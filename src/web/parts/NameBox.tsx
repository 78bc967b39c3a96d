/** The name of a thing that the study names elsewhere too: what is written is taken over everywhere at once. */
import {useState} from "react";
import {Input, Label, TextField} from "react-aria-components";
import {type NamedKind, renamed} from "../../schema/editing/index.ts";
import {rewrite} from "../state/workbook.ts";

export interface NameBoxProps {
  readonly kind: NamedKind;
  readonly name: string;
  readonly taken: readonly string[]; // names of its kind
  readonly onRename?: (name: string) => void;
}

export function NameBox({kind, name, taken, onRename}: NameBoxProps) {
  const [draft, setDraft] = useState(name);
  const [written, setWritten] = useState(name); // as the study has it; undoing brings another
  if (written !== name) {
    setWritten(name);
    setDraft(name);
  }
  const commit = (): void => {
    const next = draft.trim();
    if (next === name || next === "" || taken.includes(next)) {
      setDraft(name);
      return;
    }
    if (rewrite(`rename ${kind}`, text => renamed(text, kind, name, next))) onRename?.(next);
    else setDraft(name);
  };
  return (
    <TextField className="field" style={{flex: 1}} value={draft} onChange={setDraft} onBlur={commit}>
      <Label>Name</Label>
      <div className="entry">
        <Input onKeyDown={event => event.key === "Enter" && commit()} />
      </div>
    </TextField>
  );
}

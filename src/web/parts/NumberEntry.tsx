import {useEffect, useState} from "react";
import {Input, Label, TextField} from "react-aria-components";
import {typed} from "./typed.ts";

export interface NumberEntryProps {
  readonly label: string;
  readonly unit?: string;
  readonly value: number;
  readonly onChange: (value: number) => void;
}

/** A number that is asked for and no part of the study; what is no number is not taken. */
export function NumberEntry({label, unit, value, onChange}: NumberEntryProps) {
  const [draft, setDraft] = useState(String(value));
  useEffect(() => setDraft(String(value)), [value]);
  const commit = (): void => {
    const next = typed(draft);
    if (typeof next === "number") onChange(next);
    else setDraft(String(value));
  };
  return (
    <TextField className="field" value={draft} onChange={setDraft} onBlur={commit}>
      <Label>{label}</Label>
      <div className="entry">
        <Input inputMode="decimal" onKeyDown={event => event.key === "Enter" && commit()} />
        {unit && <span className="unit">{unit}</span>}
      </div>
    </TextField>
  );
}

import {useEffect, useState} from "react";
import {Input, Label, TextField} from "react-aria-components";
import {typed} from "./typed.ts";

export interface NumberEntryProps {
  readonly label: string;
  readonly unit?: string;
  readonly value: number;
  readonly onChange: (value: number) => void;
}

const FIGURES = 6;

/** A number that is asked for and no part of the study; what is no number is not taken. */
export function NumberEntry({label, unit, value, onChange}: NumberEntryProps) {
  const shown = String(Number(value.toPrecision(FIGURES)));
  const [draft, setDraft] = useState(shown);
  useEffect(() => setDraft(shown), [shown]);
  const commit = (): void => {
    const next = typed(draft);
    if (typeof next !== "number") setDraft(shown);
    else if (draft !== shown) onChange(next); // a number that was only looked at keeps all its figures
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

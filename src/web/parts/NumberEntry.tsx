import {useEffect, useState} from "react";
import {Input, Label, Text, TextField} from "react-aria-components";
import {typed} from "./typed.ts";

export interface NumberEntryProps {
  readonly label: string;
  readonly unit?: string;
  readonly value: number;
  readonly onChange: (value: number) => void;
  readonly fault?: string | null; // of the value, with the others on the form
}

const FIGURES = 7;

/** A number that is asked for and no part of the study. */
export function NumberEntry({label, unit, value, onChange, fault = null}: NumberEntryProps) {
  const shown = String(Number(value.toPrecision(FIGURES)));
  const [draft, setDraft] = useState(shown);
  useEffect(() => setDraft(shown), [shown]);
  const next = typed(draft);
  const told = typeof next === "number" ? fault : "No number, or two: write 5000 or 0.5.";
  const commit = (): void => {
    if (typeof next === "number" && draft !== shown) onChange(next); // one that was only looked at keeps all its figures
  };
  return (
    <TextField
      className="field"
      value={draft}
      onChange={setDraft}
      onBlur={commit}
      isInvalid={told !== null}
      {...(told !== null && {"data-faulty": true})}
    >
      <Label>{label}</Label>
      <div className="entry">
        <Input inputMode="decimal" autoComplete="off" onKeyDown={event => event.key === "Enter" && commit()} />
        {unit && <span className="unit">{unit}</span>}
      </div>
      {told !== null && (
        <Text slot="description">
          <span className="fault" role="alert">
            {told}
          </span>
        </Text>
      )}
    </TextField>
  );
}

/** What tables do not say: process zones above all. A text, as beside the tables on disk. */
import {useEffect, useState} from "react";
import {Form, Input, Label, Text, TextArea, TextField} from "react-aria-components";
import {stringify} from "yaml";
import {formatFaults} from "../../../schema/index.ts";
import {Button} from "../../parts/Button.tsx";
import {download} from "../../state/download.ts";
import {programmeState, setProgramme, useLaboratory} from "../../state/laboratory.ts";

/** @param materials that cracks run through, by the tables */
export function Programme({materials}: {readonly materials: readonly string[]}) {
  const text = useLaboratory(s => s.programmeText);
  return (
    <section className="card stack" aria-labelledby="laboratory-programme">
      <div className="title">
        <h2 id="laboratory-programme">Programme</h2>
        {text !== null && (
          <div className="row">
            <Button onPress={() => download("programme.yaml", text, "text/yaml")}>Save</Button>
            <Button onPress={() => setProgramme(null)}>Remove</Button>
          </div>
        )}
      </div>
      {text === null ? <NewProgramme materials={materials} /> : <ProgrammeText text={text} />}
    </section>
  );
}

function ProgrammeText({text}: {readonly text: string}) {
  const [draft, setDraft] = useState(text);
  useEffect(() => setDraft(text), [text]);
  const {faults, warnings} = programmeState(draft);
  const told = formatFaults(faults) + formatFaults(warnings, {heading: "To look at:"});
  return (
    <>
      <TextField className="field" value={draft} onChange={setDraft} isInvalid={faults.length > 0}>
        <Label>What the tables do not say (programme.yaml)</Label>
        <div className="entry">
          <TextArea className="laboratory-yaml" rows={Math.min(24, draft.split("\n").length + 1)} spellCheck={false} />
        </div>
        {told && (
          <Text slot="description" className={faults.length ? "fault" : "warning"}>
            <pre className="laboratory-pre">{told}</pre>
          </Text>
        )}
      </TextField>
      {draft !== text && (
        <div className="row">
          <Button look="main" onPress={() => setProgramme(draft)}>
            Use this text
          </Button>
          <Button onPress={() => setDraft(text)}>Back to what it was</Button>
        </div>
      )}
    </>
  );
}

const positive = (text: string): number | null => {
  const value = Number(text.trim().replace(",", "."));
  return text.trim() !== "" && value > 0 && value <= 100 ? value : null;
};

/** The least that a programme must say, asked for material by material. */
function NewProgramme({materials}: {readonly materials: readonly string[]}) {
  const [sizes, setSizes] = useState<Readonly<Record<string, string>>>({});
  const known = materials.map(name => [name, positive(sizes[name] ?? "")] as const);
  const isWhole = known.every(([, size]) => size !== null);
  const make = (): void =>
    setProgramme(
      stringify({
        programme_format: 1,
        name: "Laboratory programme",
        materials: Object.fromEntries(known.map(([name, size]) => [name, {aggregate_mm: size}])),
      }),
    );
  return (
    <Form
      className="stack"
      onSubmit={event => {
        event.preventDefault();
        if (isWhole) make();
      }}
    >
      <p>
        A growth law holds with its process zone only: the larger of 5 mm and half the nominal aggregate size. Drop a
        programme.yaml that tells it, or fill in the sizes:
      </p>
      <div className="fields">
        {materials.map(name => (
          <TextField
            key={name}
            className="field"
            value={sizes[name] ?? ""}
            onChange={value => setSizes({...sizes, [name]: value})}
            isInvalid={(sizes[name] ?? "") !== "" && positive(sizes[name]) === null}
          >
            <Label>Nominal aggregate size, {name}</Label>
            <div className="entry">
              <Input inputMode="decimal" autoComplete="off" />
              <span className="unit">mm</span>
            </div>
            {(sizes[name] ?? "") !== "" && positive(sizes[name]) === null && (
              <Text slot="description" className="fault">
                a number above 0, at most 100
              </Text>
            )}
          </TextField>
        ))}
      </div>
      <div className="row">
        <Button look="main" type="submit" isDisabled={!isWhole}>
          Write the programme
        </Button>
      </div>
    </Form>
  );
}

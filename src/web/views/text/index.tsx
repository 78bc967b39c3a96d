/** The study as text, every fault in its place, and the files that it names. */
import {useEffect, useState} from "react";
import {Input, Label, TextArea, TextField} from "react-aria-components";
import type {Fault} from "../../../schema/index.ts";
import {Button} from "../../parts/Button.tsx";
import {FaultText} from "../../parts/Faults.tsx";
import {Files} from "../../parts/Files.tsx";
import {ViewHead} from "../../parts/ViewHead.tsx";
import {useFaults, useWarnings} from "../../state/answers.ts";
import {downloadStudy} from "../../state/saving.ts";
import {renameStudyFile, setText, useWorkbook} from "../../state/workbook.ts";

export default function StudyText() {
  const [faults, warnings] = [useFaults(), useWarnings()];
  return (
    <>
      <ViewHead title="As text">
        The study itself. What is changed in any view is changed here, and the other way round; comments stay.
      </ViewHead>
      <div className="columns">
        <div className="card stack">
          <Editor />
        </div>
        <div className="stack">
          <div className="card stack">
            <h3>{faults.length === 0 ? "No faults" : faults.length === 1 ? "1 fault" : `${faults.length} faults`}</h3>
            {faults.map(f => (
              <Place key={`${f.path} ${f.problem}`} fault={f} kind="fault" />
            ))}
            {warnings.length > 0 && <h3>Worth a look</h3>}
            {warnings.map(f => (
              <Place key={`${f.path} ${f.problem}`} fault={f} kind="warning" />
            ))}
          </div>
          <div className="card">
            <Files />
          </div>
        </div>
      </div>
    </>
  );
}

function Place({fault, kind}: {readonly fault: Fault; readonly kind: "fault" | "warning"}) {
  return (
    <div className="field">
      <span className="small">
        {fault.line !== null && <span className="muted">line {fault.line} </span>}
        <b>{fault.path || "document"}</b>
      </span>
      {fault.quote !== null && <code className="quote">{fault.quote}</code>}
      <FaultText fault={fault} kind={kind} />
    </div>
  );
}

function Editor() {
  const present = useWorkbook(s => s.present);
  const [draft, setDraft] = useState(present.text);
  const [name, setName] = useState(present.name);
  useEffect(() => setDraft(present.text), [present.text]);
  useEffect(() => setName(present.name), [present.name]);
  const isChanged = draft !== present.text;
  useEffect(() => {
    if (!isChanged) return;
    const leave = (): void => setText("text", draft); // a page that is left takes over what has been typed
    addEventListener("pagehide", leave);
    return () => removeEventListener("pagehide", leave);
  }, [isChanged, draft]);
  return (
    <>
      <TextField className="field" value={name} onChange={setName} onBlur={() => renameStudyFile(name)}>
        <Label>File name</Label>
        <div className="entry">
          <Input />
        </div>
      </TextField>
      <TextField className="field" value={draft} onChange={setDraft} onBlur={() => isChanged && setText("text", draft)}>
        <Label>Study, YAML</Label>
        <div className="entry">
          <TextArea className="source" spellCheck={false} rows={32} />
        </div>
      </TextField>
      <div className="row">
        <Button look="main" isDisabled={!isChanged} onPress={() => setText("text", draft)}>
          Take the text over
        </Button>
        <Button onPress={() => downloadStudy(present)}>Download with its files</Button>
      </div>
    </>
  );
}

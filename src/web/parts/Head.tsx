import {FolderOpen, Moon, Redo2, Save, Sun, Undo2} from "lucide-react";
import {useState} from "react";
import {saveStudy} from "../state/saving.ts";
import {setSettings, useSettings} from "../state/settings.ts";
import {textAt} from "../state/value.ts";
import {redo, undo, useWorkbook} from "../state/workbook.ts";
import {Button, IconButton} from "./Button.tsx";
import {Choice} from "./Choice.tsx";
import {OpenDialog} from "./OpenDialog.tsx";

export function Head() {
  const {present, past, future, saved, raw} = useWorkbook();
  const {units, theme} = useSettings();
  const [isOpening, setOpening] = useState(false);
  const isDirty = saved === null || saved.text !== present.text || saved.files !== present.files;
  const name = textAt(raw, ["name"]) || present.name;
  const [last, next] = [past.at(-1)?.label, future[0]?.label];
  return (
    <header className="head">
      <a className="brand" href="#pavement" style={{textDecoration: "none", color: "inherit"}}>
        <img src="./icon.svg" alt="" />
        <span className="hide-small">Seamwright</span>
      </a>
      <h1 className="study-name" title={name}>
        {name}
      </h1>
      <span className="small muted hide-medium">{isDirty ? "not saved to a file; kept in this browser" : "saved"}</span>
      <span className="spring" />
      <div className="group">
        <IconButton label={last ? `Undo: ${last}` : "Nothing to undo"} isDisabled={!last} onPress={undo}>
          <Undo2 size={18} aria-hidden />
        </IconButton>
        <IconButton label={next ? `Do again: ${next}` : "Nothing to do again"} isDisabled={!next} onPress={redo}>
          <Redo2 size={18} aria-hidden />
        </IconButton>
        <Button look="bare" onPress={() => setOpening(true)}>
          <FolderOpen size={17} aria-hidden />
          Open
        </Button>
        <Button look="bare" onPress={() => void saveStudy()}>
          <Save size={17} aria-hidden />
          Save
        </Button>
      </div>
      <div className="group">
        <Choice
          label="Units"
          hideLabel
          options={[
            {id: "metric", text: "Metric"},
            {id: "us", text: "US units"},
          ]}
          value={units}
          onChange={id => setSettings({units: id === "us" ? "us" : "metric"})}
        />
      </div>
      <IconButton
        label={theme === "light" ? "Dark colours" : "Light colours"}
        onPress={() => setSettings({theme: theme === "light" ? "dark" : "light"})}
      >
        {theme === "light" ? <Moon size={18} aria-hidden /> : <Sun size={18} aria-hidden />}
      </IconButton>
      <OpenDialog isOpen={isOpening} onClose={() => setOpening(false)} />
    </header>
  );
}

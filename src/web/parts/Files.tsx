import {Download, FileUp} from "lucide-react";
import {DropZone, FileTrigger, Text} from "react-aria-components";
import {download} from "../state/download.ts";
import {tell} from "../state/notices.ts";
import {namedFiles, openFiles} from "../state/opening.ts";
import {useWorkbook} from "../state/workbook.ts";
import {Button, IconButton} from "./Button.tsx";

/** The tables and laws that the study names: those that are there, those that are missing, and a place to drop them. */
export function Files() {
  const {present, raw} = useWorkbook();
  const named = namedFiles(raw);
  const take = async (files: readonly File[]): Promise<void> => {
    try {
      await openFiles(files);
    } catch (error) {
      tell({kind: "bad", text: (error as Error).message});
    }
  };
  return (
    <section className="stack">
      <h3>Files that the study names</h3>
      {named.length === 0 && <p className="small muted">None: everything stands in the study itself.</p>}
      {named.map(name => (
        <div key={name} className="row">
          <span style={{flex: 1, overflowWrap: "anywhere"}}>{name}</span>
          {present.files[name] === undefined ? (
            <span className="tag bad">missing</span>
          ) : (
            <>
              <span className="small muted">{Math.ceil(present.files[name].length / 1000)} kB</span>
              <IconButton
                label={`Download ${name}`}
                onPress={() => download(name.split("/").at(-1)!, present.files[name], "text/plain")}
              >
                <Download size={15} aria-hidden />
              </IconButton>
            </>
          )}
        </div>
      ))}
      <DropZone
        className="note row"
        onDrop={event => void Promise.all(event.items.filter(i => i.kind === "file").map(i => i.getFile())).then(take)}
      >
        <FileUp size={16} aria-hidden />
        <Text slot="label" style={{flex: 1}}>
          Drop tables or laws here; a file takes the place of the one with its name.
        </Text>
        <FileTrigger allowsMultiple onSelect={list => list && void take([...list])}>
          <Button>Choose…</Button>
        </FileTrigger>
      </DropZone>
    </section>
  );
}

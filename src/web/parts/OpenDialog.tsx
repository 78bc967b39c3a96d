import {FilePlus2, X} from "lucide-react";
import {useEffect, useState} from "react";
import {Dialog, DropZone, FileTrigger, Heading, Modal, ModalOverlay, Text} from "react-aria-components";
import {blankWorkbook} from "../state/blank.ts";
import {EXAMPLES, type Example, exampleWorkbook} from "../state/examples.ts";
import {tell} from "../state/notices.ts";
import {openFiles} from "../state/opening.ts";
import {openWorkbook} from "../state/workbook.ts";
import {type Listing, listWorkspace, openFromWorkspace} from "../state/workspace.ts";
import {Button, IconButton} from "./Button.tsx";

export interface OpenDialogProps {
  readonly isOpen: boolean;
  readonly onClose: () => void;
}

/** Examples, the workspace folder, or files from the machine. */
export function OpenDialog({isOpen, onClose}: OpenDialogProps) {
  return (
    <ModalOverlay className="veil" isOpen={isOpen} onOpenChange={open => !open && onClose()} isDismissable>
      <Modal className="sheet">
        <Dialog>
          <div className="title">
            <Heading slot="title">Open a study</Heading>
            <IconButton label="Close" onPress={onClose}>
              <X size={18} aria-hidden />
            </IconButton>
          </div>
          <Choices onClose={onClose} />
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}

function Choices({onClose}: {readonly onClose: () => void}) {
  const [found, setFound] = useState<Listing | null>(null);
  useEffect(() => {
    void listWorkspace().then(setFound);
  }, []);
  const run = (work: () => Promise<void>): void => {
    void work().then(onClose, error => {
      tell({kind: "bad", text: (error as Error).message});
      onClose();
    });
  };
  const openExample = (example: Example) => run(async () => openWorkbook(await exampleWorkbook(example)));
  return (
    <>
      <DropZone
        className="empty note"
        onDrop={event =>
          run(async () => {
            const files = await Promise.all(event.items.filter(i => i.kind === "file").map(i => i.getFile()));
            await openFiles(files);
          })
        }
      >
        <Text slot="label">
          Drop a study here, YAML or JSON, with the tables and laws that it names, or all of them in one ZIP.
        </Text>
        <FileTrigger allowsMultiple onSelect={list => list && run(() => openFiles([...list]))}>
          <Button look="main">Choose files…</Button>
        </FileTrigger>
      </DropZone>
      {found && found.files.length > 0 && (
        <section className="stack">
          <h3>In the workspace folder</h3>
          {found.files.map(file => (
            <Button key={file.path} look="bare" onPress={() => run(() => openFromWorkspace(file))}>
              {file.path}
            </Button>
          ))}
          {!found.complete && (
            <p className="small muted">The folder holds more files than are looked through: choose others from disk.</p>
          )}
        </section>
      )}
      <section className="stack">
        <h3>Examples, all invented</h3>
        {EXAMPLES.map(example => (
          <div key={example.file} className="row">
            <Button onPress={() => openExample(example)}>{example.title}</Button>
            <span className="small muted">{example.about}</span>
          </div>
        ))}
        <div className="row">
          <Button onPress={() => run(async () => openWorkbook(blankWorkbook(), null, null))}>
            <FilePlus2 size={16} aria-hidden />
            New study
          </Button>
          <span className="small muted">A plain road to begin with; every number is yours to change.</span>
        </div>
      </section>
    </>
  );
}

/** Specimens or beams one by one: each can be set aside with a reason, and taken back. */
import {useState} from "react";
import {
  Cell,
  Column,
  Dialog,
  FieldError,
  Form,
  Heading,
  Input,
  Label,
  Modal,
  ModalOverlay,
  Row,
  Table,
  TableBody,
  TableHeader,
  TextField,
} from "react-aria-components";
import {Button} from "../../parts/Button.tsx";
import {setRowAside} from "../../state/laboratory.ts";

export interface TestRow {
  readonly name: string;
  readonly cells: readonly string[]; // behind the name
  readonly remark: string;
  readonly setAside: string | null;
  readonly place: {readonly file: string; readonly row: string} | null; // null: nowhere it could be set aside
}

export interface RowsProps {
  readonly label: string;
  readonly noun: string; // of one row
  readonly columns: readonly {readonly title: string; readonly isNumber: boolean}[];
  readonly rows: readonly TestRow[];
}

export function Rows({label, noun, columns, rows}: RowsProps) {
  const [asked, setAsked] = useState<TestRow | null>(null);
  return (
    <div className="laboratory-scroll">
      <Table aria-label={label} className="plain laboratory-rows">
        <TableHeader>
          <Column isRowHeader>{noun}</Column>
          {columns.map(({title, isNumber}) => (
            <Column key={title} className={isNumber ? "n" : ""}>
              {title}
            </Column>
          ))}
          <Column>Remark</Column>
          <Column>Evaluation</Column>
        </TableHeader>
        <TableBody>
          {rows.map(row => (
            <Row key={row.name} id={row.name} className={row.setAside === null ? "" : "laboratory-aside"}>
              <Cell>{row.name}</Cell>
              {row.cells.map((cell, k) => (
                <Cell key={columns[k].title} className={columns[k].isNumber ? "n" : ""}>
                  {cell}
                </Cell>
              ))}
              <Cell>{row.setAside === null ? row.remark : `set aside: ${row.setAside}`}</Cell>
              <Cell>
                <Choice row={row} onAsk={setAsked} />
              </Cell>
            </Row>
          ))}
        </TableBody>
      </Table>
      {asked && <ReasonDialog key={asked.name} noun={noun} row={asked} onClose={() => setAsked(null)} />}
    </div>
  );
}

function Choice({row, onAsk}: {readonly row: TestRow; readonly onAsk: (row: TestRow) => void}) {
  const {name, place, setAside} = row;
  if (!place) return null;
  if (setAside === null)
    return (
      <Button look="bare" onPress={() => onAsk(row)}>
        Set aside…<span className="unseen"> {name}</span>
      </Button>
    );
  return (
    <Button look="bare" onPress={() => setRowAside(place.file, place.row, null)}>
      Take back<span className="unseen"> {name}</span>
    </Button>
  );
}

interface ReasonDialogProps {
  readonly noun: string;
  readonly row: TestRow;
  readonly onClose: () => void;
}

/** Nothing is set aside without a reason: it stands in table, report and law file. */
function ReasonDialog({noun, row: {name, place}, onClose}: ReasonDialogProps) {
  const [reason, setReason] = useState("");
  const given = reason.trim();
  return (
    <ModalOverlay className="veil" isOpen onOpenChange={open => !open && onClose()} isDismissable>
      <Modal className="sheet">
        <Dialog>
          <Heading slot="title">
            Set {noun.toLowerCase()} {name} aside
          </Heading>
          <p className="muted">
            It stays in tables and pictures, struck out, and takes no part in any line or law. The reason goes into the
            table, the report and the law files.
          </p>
          <Form
            className="stack"
            onSubmit={event => {
              event.preventDefault();
              if (given === "" || !place) return;
              setRowAside(place.file, place.row, given);
              onClose();
            }}
          >
            <TextField className="field" autoFocus isRequired value={reason} onChange={setReason} maxLength={200}>
              <Label>Reason</Label>
              <div className="entry">
                <Input placeholder="such as: clamp slipped at 20 000 cycles" />
              </div>
              <FieldError className="fault">Say why; nothing is left out without a reason.</FieldError>
            </TextField>
            <div className="actions">
              <Button onPress={onClose}>Cancel</Button>
              <Button look="main" type="submit" isDisabled={given === ""}>
                Set aside
              </Button>
            </div>
          </Form>
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}

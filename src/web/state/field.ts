/** The strains around the joint that were computed last, for the view under the wheel. */
import {create} from "zustand";
import type {JointField} from "../../engine/life/index.ts";
import type {AskedField} from "../worker/channel.ts";
import {computer, settled} from "./computer.ts";
import {useWorkbook, type Workbook} from "./workbook.ts";

interface FieldState {
  readonly field: JointField | null;
  readonly of: {readonly workbook: Workbook; readonly asked: AskedField} | null;
  readonly isRunning: boolean;
  readonly message: string | null; // why there is none
}

export const useField = create<FieldState>(() => ({field: null, of: null, isRunning: false, message: null}));

let turn = 0;

/** Computes the field unless it is known. */
export async function askField(asked: AskedField): Promise<void> {
  const workbook = useWorkbook.getState().present;
  const own = ++turn; // also where nothing is computed: what is on its way is of no more use
  const {of} = useField.getState();
  if (of && of.workbook === workbook && JSON.stringify(of.asked) === JSON.stringify(asked)) {
    useField.setState({isRunning: false, message: null});
    return;
  }
  useField.setState({isRunning: true, message: null});
  const outcome = await settled(computer().field(workbook, asked));
  if (own !== turn) return;
  if (outcome.kind === "done") useField.setState({field: outcome.value, of: {workbook, asked}, isRunning: false});
  else
    useField.setState({isRunning: false, message: outcome.kind === "failed" ? outcome.message : "It was cancelled."});
}

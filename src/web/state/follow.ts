/** Answers follow the workbook: every change is read at once, quick lives with it, and solved when the user pauses. */
import {isCurrent, studyIn, useAnswers} from "./answers.ts";
import {callback, computer, settled} from "./computer.ts";
import {tell} from "./notices.ts";
import {useWorkbook, type Workbook} from "./workbook.ts";

/** After the last edit [ms]. */
const PAUSE = 350;

/** A study with more treatments is solved when it is asked for. */
export const MOST_BY_ITSELF = 8;

const {getState: answers, setState: set} = useAnswers;

let reading = 0; // the last that was begun
let solving = 0;
let pause: ReturnType<typeof setTimeout> | undefined;

export function followWorkbook(): void {
  const follow = (workbook: Workbook): void =>
    void read(workbook).catch(error => {
      console.error(error); // with its stack, for whoever mends it
      tell({kind: "bad", text: `The study could not be read: ${(error as Error).message}`});
    });
  useWorkbook.subscribe(({present}, {present: before}) => {
    if (present !== before) follow(present);
  });
  follow(useWorkbook.getState().present);
}

async function read(workbook: Workbook): Promise<void> {
  const own = ++reading;
  clearTimeout(pause);
  if (answers().solving.status === "running") stopSolving();
  set({solving: {status: "idle"}, quick: null});
  const outcome = await computer().read(workbook);
  if (own !== reading) return; // a later edit has come
  set({reading: outcome, readOf: workbook});
  const found = studyIn(outcome);
  if (found === null) return;
  set({study: found, quick: found.quick});
  if (isCurrent(answers().resultOf, workbook)) return;
  if (found.study.treatments.length <= MOST_BY_ITSELF) pause = setTimeout(solveNow, PAUSE);
}

/** Solves the study as it is. */
export function solveNow(): void {
  clearTimeout(pause);
  void solve(useWorkbook.getState().present);
}

async function solve(workbook: Workbook): Promise<void> {
  const own = ++solving;
  set({solving: {status: "running", progress: {done: 0, doing: ""}}});
  const onProgress = callback((progress: {done: number; doing: string}) => {
    if (own === solving && answers().solving.status === "running") set({solving: {status: "running", progress}});
  });
  const outcome = await settled(computer().solve(workbook, onProgress));
  if (own !== solving) return;
  switch (outcome.kind) {
    case "done": {
      const {result, number: solution} = outcome.value;
      return set({result, resultOf: workbook, solution, solving: {status: "idle"}});
    }
    case "cancelled":
      return set({solving: {status: "stopped"}});
    case "failed":
      return set({solving: {status: "failed", message: outcome.message}});
  }
}

export function stopSolving(): void {
  solving++;
  set({solving: {status: "stopped"}});
  void computer().cancel("solve");
}

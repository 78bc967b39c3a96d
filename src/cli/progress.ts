import type {PointsProgress} from "../compute/index.ts";
import type {Terminal} from "./terminal.ts";

export interface ProgressState {
  readonly done: number; // of all work [–]
  readonly label: string; // what is being computed
  readonly elapsed: number; // since the start [ms]
}

const BAR = 20; // [characters]
/** Before so much is done the remaining time would be a guess. */
const GUESS_BELOW = 0.03;

/** Shows how far work is; its time counts from this call. */
export function progressLine(terminal: Terminal): (done: number, label: string) => void {
  const start = performance.now();
  return (done, label) =>
    terminal.status(width => progressText({done, label, elapsed: performance.now() - start}, width));
}

/** Shows how many points are done and how long the others take. */
export function pointsLine(terminal: Terminal): (progress: PointsProgress) => void {
  return progress => terminal.status(width => pointsText(progress, width));
}

/** One line: bar, points, remaining time; cut to the width. */
export function pointsText({done, total, secondsLeft}: PointsProgress, width: number): string {
  const left = secondsLeft === null ? "" : remainingText(secondsLeft * 1000);
  return cut(`${barText(total > 0 ? done / total : 1)}  ${done} of ${total} points  ${left}`.trimEnd(), width);
}

/** One line: bar, percent, remaining time, what is being computed; cut to the width. */
export function progressText({done, label, elapsed}: ProgressState, width: number): string {
  const bar = barText(done);
  const percent = `${Math.floor(done * 100)} %`.padStart(5);
  const left = done < GUESS_BELOW ? "" : remainingText((elapsed * (1 - done)) / done);
  const head = `${bar} ${percent}  ${left.padEnd(14)}`;
  return cut(`${head}  ${label}`, width);
}

function barText(done: number): string {
  const full = Math.floor(done * BAR);
  return "█".repeat(full) + "░".repeat(BAR - full);
}

function cut(text: string, width: number): string {
  return text.length <= width ? text : `${text.slice(0, Math.max(0, width - 1))}…`;
}

/** "18 s left", "3 min left". */
function remainingText(milliseconds: number): string {
  const seconds = Math.ceil(milliseconds / 1000);
  return seconds < 100 ? `${seconds} s left` : `${Math.ceil(seconds / 60)} min left`;
}

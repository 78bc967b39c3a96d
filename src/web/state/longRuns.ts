/** Computations of minutes that the user asks for: samples, maps over two inputs, least thicknesses. They go on across views. */
import {create, type StoreApi, type UseBoundStore} from "zustand";
import type {RiskResult} from "../../engine/uncertainty/index.ts";
import type {SearchCase} from "../../report/live/index.ts";
import type {AskedMap, AskedThickness, MapResult, Outcome, Progress} from "../worker/channel.ts";
import {callback, computer, settled} from "./computer.ts";
import {useWorkbook, type Workbook} from "./workbook.ts";

export interface LongRun<T> {
  readonly result: T | null;
  readonly of: Workbook | null; // of which workbook the result is
  readonly progress: Progress | null; // null: nothing is running
  readonly message: string | null; // why there is no result, or that it was stopped
}

const NOTHING = {result: null, of: null, progress: null, message: null};

export const useRisk = create<LongRun<RiskResult>>(() => NOTHING);
export const useMap = create<LongRun<MapResult>>(() => NOTHING);
export const useThickness = create<LongRun<SearchCase>>(() => NOTHING);

type Store<T> = UseBoundStore<StoreApi<LongRun<T>>>;

/** Shows every picture as it comes. */
async function run<T>(
  store: Store<T>,
  start: (workbook: Workbook, onProgress: (p: Progress) => void, onPicture: (r: T) => void) => Promise<Outcome<T>>,
): Promise<void> {
  const workbook = useWorkbook.getState().present;
  store.setState({progress: {done: 0, doing: "starting"}, message: null});
  const outcome = await settled(
    start(
      workbook,
      callback((progress: Progress) => store.getState().progress && store.setState({progress})),
      callback((result: T) => store.setState({result, of: workbook})),
    ),
  );
  if (outcome.kind === "done") store.setState({result: outcome.value, of: workbook, progress: null});
  else if (outcome.kind === "failed") store.setState({progress: null, message: outcome.message});
  else store.setState({progress: null, message: "Stopped. What is finished is kept: begin again to go on from there."});
}

export function startRisk(): void {
  void run(useRisk, (workbook, onProgress, onPicture) => computer().risk(workbook, onProgress, onPicture));
}

export function startMap(asked: AskedMap): void {
  void run(useMap, (workbook, onProgress, onPicture) => computer().map(workbook, asked, onProgress, onPicture));
}

export function startThickness(asked: AskedThickness): void {
  void run(useThickness, (workbook, onProgress) => computer().thickness(workbook, asked, onProgress));
}

export function stop(what: "risk" | "map" | "thickness"): void {
  void computer().cancel(what);
}

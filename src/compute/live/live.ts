/** Lives that follow the edits of a study: foretold at once where a model can, and solved anew only where they must be. */
import {pavementTemperatures} from "../../engine/climate/index.ts";
import {Cancelled} from "../../engine/errors.ts";
import {
  type Change,
  type ChangedLife,
  changedLives,
  exponentsFor,
  fittedPiece,
  type LifeModel,
  type LifePiece,
  type LifeTask,
  lifeModel,
  lifePlan,
  pieceKeys,
  type Study,
} from "../../engine/life/index.ts";
import type {Pool} from "../../pool/index.ts";
import type {LifeProgress} from "../life.ts";
import type {OpenPool} from "../pools.ts";
import {changeBetween} from "./changeBetween.ts";
import {onlyNeeded} from "./onlyNeeded.ts";
import {pieceStore, recordNumbers, rememberedTemperatures} from "./remembered.ts";

export interface LiveOptions {
  readonly openPool: OpenPool;
  readonly workers: number; // ≥ 1
  readonly span: number; // largest change of a law's exponent that `quick` follows [–], > 0
  readonly memory?: number | undefined; // of pieces that are kept, beside those of the last study [bytes]; default 256 MB
}

/** Lives of a study that follow from a model of another, which differs in what the model can change. */
export interface QuickLives {
  readonly model: LifeModel;
  readonly change: Change; // from the model's study
  readonly lives: readonly ChangedLife[]; // by treatment
}

export interface SolveOptions {
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?: ((progress: LifeProgress) => void) | undefined; // of what is left to solve
}

export interface LiveLives {
  /** From the last study solved, in a few milliseconds; null when its model does not tell. */
  quick(study: Study): QuickLives | null;
  /**
   * The study solved, as by `computeModel`; what earlier studies had in common with it is not solved again. One at a time: it
   * waits for those before, which are better aborted. What an aborted one had finished is kept.
   *
   * @throws InputError; Cancelled
   */
  solve(study: Study, options?: SolveOptions): Promise<LifeModel>;
  close(): Promise<void>;
}

const USUAL_MEMORY = 256e6; // [bytes]

export function openLiveLives({openPool, workers, span, memory = USUAL_MEMORY}: LiveOptions): LiveLives {
  const further = exponentsFor(span);
  const recordOf = recordNumbers();
  const temperatures = rememberedTemperatures(recordOf, pavementTemperatures);
  const store = pieceStore(memory);
  let pool: Pool = openPool(workers);
  let model: LifeModel | null = null;
  let last: Promise<unknown> = Promise.resolve();

  const work = async (
    tasks: readonly LifeTask[],
    keep: (piece: LifePiece, index: number) => void,
    {signal, onProgress}: SolveOptions,
  ): Promise<void> => {
    try {
      await pool.run<LifeTask, LifePiece>(tasks, {
        signal,
        onResult: keep,
        onProgress: onProgress && (({done, running}) => onProgress({done, running: running.map(i => tasks[i])})),
      });
    } catch (error) {
      pool = openPool(workers); // the old one is of no more use
      throw error;
    }
  };

  const solve = async (study: Study, options: SolveOptions): Promise<LifeModel> => {
    if (options.signal?.aborted) throw new Cancelled();
    const plan = lifePlan(study, further, temperatures);
    const keys = pieceKeys(study, plan, recordOf);
    const missing = keys.map((key, k) => key !== null && !store.get(key) && keys.indexOf(key) === k);
    const {tasks, places} = onlyNeeded(plan.tasks, missing);
    const keep = (piece: LifePiece, index: number): void => {
      store.keep(keys[places[index]]!, {task: tasks[index], piece});
    };
    if (tasks.length > 0) await work(tasks, keep, options);
    const pieces = plan.tasks.map((task, k) => {
      const key = keys[k];
      return key === null ? undefined : fittedPiece(store.get(key)!, task);
    });
    store.settle(keys.filter(key => key !== null));
    return lifeModel(study, plan, pieces, further);
  };

  return {
    quick: study => {
      const change = model && changeBetween(model, study);
      return model && change && {model, change, lives: changedLives(model, change)};
    },
    solve: (study, options = {}) => {
      const solved = last.then(async () => {
        model = await solve(study, options);
        return model;
      });
      last = solved.catch(() => undefined);
      return solved;
    },
    close: async () => {
      await last;
      await pool.close();
    },
  };
}

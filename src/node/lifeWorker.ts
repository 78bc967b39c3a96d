/** Entry of a worker thread that computes pieces of a study. */
import {type LifeTask, type LifeTaskResult, runLifeTask} from "../engine/life/index.ts";
import type {Study} from "../engine/life/types.ts";
import {poolWorker} from "./worker.ts";

export default poolWorker<Study, LifeTask, LifeTaskResult>(runLifeTask);

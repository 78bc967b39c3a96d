/** Entry of a worker thread that computes pieces of a study. */
import {type LifePiece, type LifeTask, runLifeTask} from "../engine/life/index.ts";
import type {Study} from "../engine/life/types.ts";
import {poolWorker} from "./worker.ts";

export default poolWorker<Study, LifeTask, LifePiece>(runLifeTask);

/** Entry of a thread that computes pieces of a study. */
import {type LifePiece, type LifeTask, lifeWorker} from "../../engine/life/index.ts";
import {serveTasks} from "../../pool/index.ts";

serveTasks<LifeTask, LifePiece>(lifeWorker());

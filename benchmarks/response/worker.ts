/** Entry of a worker thread, in Node and in a page. */
import {serveTasks} from "../../src/pool/index.ts";
import {type BenchmarkPiece, type BenchmarkTask, benchmarkWorker} from "./tasks.ts";

serveTasks<BenchmarkTask, BenchmarkPiece>(benchmarkWorker());

/** Tasks on worker threads, in Node and in a page alike. */
export {openPool, type Pool, type PoolProgress, type PoolTask, type RunOptions} from "./pool.ts";
export {serveTasks} from "./worker.ts";

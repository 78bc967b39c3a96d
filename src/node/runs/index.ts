/** Finished points in a file. */
export {openRun, type RunHeader} from "./runFile.ts";
export {RunFileError} from "./runFileError.ts";

/** Lives that follow the edits of a study. */
export {type LiveLives, type LiveOptions, openLiveLives, type QuickLives, type SolveOptions} from "./live.ts";

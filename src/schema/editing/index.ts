/** Changes of a study's text that keep its comments, its order and the way it is written. */
export {type DocumentEdit, editedText, renamedMaterial} from "./edit.ts";
export {parsedText} from "./parsed.ts";

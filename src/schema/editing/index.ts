/** Changes of a study's text that keep its comments, its order and the way it is written; what its fields are. */
export {faultLine, pathOfText, pathText} from "../fault.ts";
export {fileWord} from "../file-word.ts";
export {valueAt} from "../findings.ts";
export {type DocumentEdit, editedText} from "./edit.ts";
export {
  type Branch,
  branchOf,
  type FieldInfo,
  type FieldKey,
  type FieldShape,
  fieldInfo,
  labelOf,
} from "./field-info.ts";
export {copiedEntry, movedEntry} from "./lists.ts";
export {parsedText} from "./parsed.ts";
export {type NamedKind, renamed} from "./renamed.ts";

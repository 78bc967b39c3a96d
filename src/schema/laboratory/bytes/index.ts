/** The bytes of a laboratory's file as rows of cells; the same in Node, in a page and in its workers. */
export {type Content, contentOf, HEAD_BYTES, notUtf8, problemOfContent, unreadable} from "./contents.ts";
export {CSV_OPTIONS, eachCsvRow} from "./csv-rows.ts";
export {sha256} from "./sha256.ts";
export {decoded, readTableBytes, type TableRead, tooLarge} from "./table-bytes.ts";

import path from "node:path";
import {fileURLToPath} from "node:url";

/** The worker's module stands beside this one, with the same ending: .ts as written, .js as compiled. */
export const ENTRY = fileURLToPath(new URL(`worker${path.extname(import.meta.filename)}`, import.meta.url));

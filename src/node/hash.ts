import {createHash} from "node:crypto";
import {hashedText} from "../schema/index.ts";

/**
 * SHA-256 over a study and the tables that it names, in hexadecimal.
 *
 * @param tables name as written in the study → text
 */
export function inputHash(study: string, tables: Readonly<Record<string, string>>): string {
  return createHash("sha256").update(hashedText(study, tables)).digest("hex");
}

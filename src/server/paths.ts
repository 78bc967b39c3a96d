/** Names of files within the workspace: those that mean the same file on every system, and nothing outside. */
import {Refusal} from "./refusal.ts";

/** Parts of a path at most, the file's own name among them. */
export const DEEPEST = 6;

const LONGEST_NAME = 200; // [UTF-16 code units]; file systems allow 255 bytes, and a temporary name is longer
const KINDS = ["yaml", "yml", "json", "csv", "tsv", "txt", "epw", "xlsx"];

// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is refused
const UNSAFE = /[\u0000-\u001f\u007f-\u009f<>:"|?*\\/]/; // ":" also begins drives and hidden streams of Windows
const DEVICE = /^(?:con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³]|conin\$|conout\$) *(?:\.|$)/i;

/**
 * Reads the part of an address behind /api/files/. Decoded once: what is still encoded then is a name with a per cent sign.
 *
 * @returns names of folders, and of the file at the end
 * @throws Refusal 400
 */
export function readPath(encoded: string): readonly string[] {
  const parts = encoded.split("/").map(decoded);
  for (const part of parts) {
    const fault = nameFault(part);
    if (fault) throw new Refusal(400, "path", fault);
  }
  if (parts.length > DEEPEST) throw new Refusal(400, "path", `a path has at most ${DEEPEST} parts`);
  if (!isKept(parts[parts.length - 1])) throw new Refusal(400, "kind", `files end in ${KINDS.join(", ")}`);
  return parts;
}

function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    throw new Refusal(400, "path", "the path is not encoded as UTF-8");
  }
}

/** What is wrong with a name of a file or folder, or null. */
export function nameFault(name: string): string | null {
  if (name === "") return "a part of the path is empty";
  if (name.length > LONGEST_NAME) return `a name has at most ${LONGEST_NAME} characters`;
  if (name.startsWith(".")) return "names do not start with a dot";
  if (/[. ]$/.test(name)) return "names do not end with a dot or blank";
  if (UNSAFE.test(name)) return 'names have no control characters and none of < > : " | ? * / \\';
  if (DEVICE.test(name)) return "the name is that of a device on some systems";
  if (name.toLowerCase() === "node_modules") return "node_modules is for packages";
  return null;
}

/** Whether a file of this name is listed, read and written. */
export function isKept(name: string): boolean {
  return KINDS.includes(/\.([^.]+)$/.exec(name)?.[1].toLowerCase() ?? "");
}

/** The program and the benchmarks' response model compiled to JavaScript in a temporary folder, as a release has them. */
import {execFileSync} from "node:child_process";
import {copyFileSync, mkdtempSync, rmSync, symlinkSync} from "node:fs";
import {tmpdir} from "node:os";
import path from "node:path";

export const ROOT = path.resolve(import.meta.dirname, "..");

/** What compiled files look for beside their folder. */
const LINKED = ["node_modules", "examples"];

/** @param use  gets the folder, which is gone afterwards; it looks like this repository, with .js in place of .ts */
export function withCompiled<Result>(use: (folder: string) => Result): Result {
  const folder = mkdtempSync(path.join(tmpdir(), "seamwright-compiled-"));
  try {
    const compiler = path.join(ROOT, "node_modules", "typescript", "bin", "tsc");
    const options = ["-p", path.join(import.meta.dirname, "tsconfig.build.json"), "--outDir", folder];
    execFileSync(process.execPath, [compiler, ...options], {stdio: ["ignore", "inherit", "inherit"]});
    copyFileSync(path.join(ROOT, "package.json"), path.join(folder, "package.json"));
    for (const name of LINKED) symlinkSync(path.join(ROOT, name), path.join(folder, name), "junction");
    return use(folder);
  } finally {
    rmSync(folder, {recursive: true});
  }
}

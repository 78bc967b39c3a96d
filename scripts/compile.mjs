import {mkdtempSync, readFileSync, rmSync} from "node:fs";
import {tmpdir} from "node:os";
import path from "node:path";
import {fileURLToPath} from "node:url";
import asc from "assemblyscript/asc";

const SOURCE = fileURLToPath(new URL("../src/engine/wasm/assembly/kernel.ts", import.meta.url));

/**
 * The kernel compiled from its source; the same bytes for the same compiler, which package-lock.json fixes.
 *
 * @returns {Promise<Uint8Array>}
 */
export async function compileKernel() {
  const folder = mkdtempSync(path.join(tmpdir(), "seamwright-"));
  const out = path.join(folder, "kernel.wasm");
  try {
    const {error, stderr} = await asc.main([
      SOURCE,
      "--outFile",
      out,
      ...["--runtime", "stub", "--enable", "simd", "-O3", "--converge", "--noAssert"],
    ]);
    if (error) throw new Error(`${error.message}\n${stderr}`);
    return readFileSync(out);
  } finally {
    rmSync(folder, {recursive: true});
  }
}

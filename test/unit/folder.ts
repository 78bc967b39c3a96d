import {mkdtempSync, rmSync} from "node:fs";
import {tmpdir} from "node:os";
import path from "node:path";
import {afterAll, afterEach, beforeAll, beforeEach} from "vitest";

/**
 * A folder of the tests' own, empty at the start of each test, or made once for the whole file.
 *
 * @returns path of a file in it; without names, of the folder
 */
export function testFolder(life: "test" | "file"): (...names: string[]) => string {
  const [before, after] = life === "test" ? [beforeEach, afterEach] : [beforeAll, afterAll];
  let folder = "";
  before(() => {
    folder = mkdtempSync(path.join(tmpdir(), "seamwright-"));
  });
  after(() => rmSync(folder, {recursive: true, force: true}));
  return (...names) => path.join(folder, ...names);
}

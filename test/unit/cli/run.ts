/** The real command line in a process of its own. */
import {spawnSync} from "node:child_process";
import path from "node:path";

export const root = path.resolve(import.meta.dirname, "../../..");

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** @param environment is added to the environment of the tests, less NO_COLOR */
export function seamwright(args: readonly string[], environment: Readonly<Record<string, string>> = {}): Ran {
  const {NO_COLOR: _, ...inherited} = process.env;
  const {status, stdout, stderr} = spawnSync(process.execPath, ["src/cli/main.ts", ...args], {
    cwd: root,
    encoding: "utf8",
    env: {...inherited, ...environment},
  });
  return {code: status, out: stdout, err: stderr};
}

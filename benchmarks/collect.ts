/** Runs the programs that measure, one after the other, and reads the JSON lines that they print. */
import {spawnSync} from "node:child_process";
import path from "node:path";

/** One measurement; which fields there are depends on what it is of. */
export interface Line {
  readonly what: string;
  readonly ms: number; // median
  readonly leastMs?: number;
  readonly peakMB?: number;
  readonly versions?: Readonly<Record<string, string>>;
  readonly [field: string]: unknown;
}

/** @throws Error when the program fails: a table with a part of its figures would mislead */
export function linesOf(program: string, ...args: readonly string[]): Line[] {
  const {status, signal, stdout, error} = spawnSync(
    process.execPath,
    [path.join(import.meta.dirname, program), ...args],
    {
      encoding: "utf8",
      stdio: ["ignore", "pipe", "inherit"],
      maxBuffer: 1 << 26,
    },
  );
  if (status !== 0) throw error ?? new Error(`${program} ended with ${status ?? signal}`);
  return stdout
    .trim()
    .split("\n")
    .map(text => JSON.parse(text) as Line);
}

/** The first line with all these fields. */
export function pick(lines: readonly Line[], fields: Readonly<Record<string, unknown>>): Line | undefined {
  return lines.find(line => Object.entries(fields).every(([name, value]) => line[name] === value));
}

export function leastOf({leastMs, ms}: Line): number {
  return leastMs ?? ms;
}

const INSTALLER = "benchmarks/install-yardsticks.sh";
const OPENBLAS_TRIAL = "#include <cblas.h>\nint main(void) { return openblas_get_num_threads() < 0; }\n";

/** What a yardstick needs that is not here, told with what installs it; null when all is here. */
export function missing(yardstick: "openblas" | "calculix" | "chromium" | "time"): string | null {
  const tell = (name: string): string => `${name} is not installed: ${INSTALLER} installs it`;
  const answers = (command: string, argument: string): boolean =>
    spawnSync(command, [argument], {stdio: "ignore"}).error === undefined;
  switch (yardstick) {
    case "openblas": {
      const trial = ["-x", "c", "-", "-o", "/dev/null", "-lopenblas"];
      const {status} = spawnSync("gcc", trial, {input: OPENBLAS_TRIAL, stdio: ["pipe", "ignore", "ignore"]});
      return status === 0 ? null : tell("OpenBLAS with gcc");
    }
    case "calculix":
      if (!answers("ccx", "-v")) return tell("CalculiX");
      return missing("time");
    case "chromium":
      return answers("chromium", "--version") ? null : tell("Chromium");
    case "time":
      return answers("time", "--version") ? null : tell("GNU time");
  }
}

/** What the figures were measured on. */
import {existsSync, readFileSync} from "node:fs";
import os from "node:os";
import type {Line} from "./collect.ts";

export function machineRows(lines: readonly Line[]): [string, string][] {
  const versions = Object.assign({}, ...lines.map(line => line.versions ?? {})) as Record<string, string>;
  const openblas = /OpenBLAS (\S+)/.exec(versions.openblas ?? "")?.[1];
  const gigabytes = os.totalmem() / 2 ** 30;
  const rows: [string, string | undefined][] = [
    ["processor", `${os.cpus()[0].model.trim()}, ${os.availableParallelism()} cores`],
    ["memory", `${gigabytes.toFixed(0)} GB`],
    ["system", system()],
    ["Node", process.versions.node],
    ["OpenBLAS", openblas && `${openblas}, compiled with gcc ${versions.gcc}`],
    ["CalculiX", versions.calculix],
    ["Chromium", versions.chromium],
  ];
  return rows.filter((row): row is [string, string] => row[1] !== undefined);
}

const RELEASE = "/etc/os-release";

function system(): string {
  const name = existsSync(RELEASE) ? /^PRETTY_NAME="?([^"\n]+)/m.exec(readFileSync(RELEASE, "utf8"))?.[1] : undefined;
  return `${name ?? os.version()}, ${os.type()} ${os.release()}`;
}

/** Values of the raw document by their paths. Nothing of it is checked: a missing or strange value is undefined. */
import {valueAt} from "../../schema/editing/index.ts";
import {useWorkbook} from "./workbook.ts";

export type Path = readonly (string | number)[];

export {valueAt};

export function useValue(path: Path): unknown {
  return useWorkbook(({raw}) => valueAt(raw, path));
}

const NOTHING: readonly unknown[] = []; // always the same, so that nobody takes it for a change

export function listAt(raw: unknown, path: Path): readonly unknown[] {
  const value = valueAt(raw, path);
  return Array.isArray(value) ? value : NOTHING;
}

export function textAt(raw: unknown, path: Path): string {
  const value = valueAt(raw, path);
  return typeof value === "string" ? value : "";
}

export function numberAt(raw: unknown, path: Path): number | null {
  const value = valueAt(raw, path);
  return typeof value === "number" ? value : null;
}

export function keysAt(raw: unknown, path: Path): readonly string[] {
  const value = valueAt(raw, path);
  return typeof value === "object" && value !== null && !Array.isArray(value) ? Object.keys(value) : [];
}

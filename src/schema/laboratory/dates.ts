import {type Cell, cellText} from "./cells.ts";

/** YYYY-MM-DD of a cell: a date of a workbook, 2024-05-31 or 31.05.2024. Null: it is none of these. */
export function readDate(cell: Cell): string | null {
  if (cell instanceof Date) return cellText(cell) || null;
  if (typeof cell !== "string") return null;
  const text = cellText(cell);
  const groups = (
    /^(?<year>\d{4})-(?<month>\d{1,2})-(?<day>\d{1,2})(?:[T ]\d{1,2}:\d{2}.*)?$/.exec(text) ??
    /^(?<day>\d{1,2})\.\s?(?<month>\d{1,2})\.\s?(?<year>\d{4})$/.exec(text)
  )?.groups;
  if (!groups) return null;
  const [year, month, day] = [Number(groups.year), Number(groups.month), Number(groups.day)];
  const date = new Date(Date.UTC(year, month - 1, day));
  if (date.getUTCFullYear() !== year || date.getUTCMonth() !== month - 1 || date.getUTCDate() !== day) return null;
  return date.toISOString().slice(0, 10);
}

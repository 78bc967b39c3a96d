import {numberInText} from "../unit-guess.ts";
import {type Cell, cellText, type Delimiter, isCellError} from "./cells.ts";

/** Which mark stands before decimals in a file's text; null where nothing tells. */
export type DecimalMark = "." | ",";

export interface MarkChoice {
  readonly mark: DecimalMark;
  readonly sure: boolean; // false: a text like 1.234 may be a thousand with its blank written as a point
}

/** One mark with digits that are not a group of thousands: 0,5 and 12.75 and 0.123, but not 1,234. */
function marksSurely(text: string, mark: DecimalMark): boolean {
  const [own, other] = mark === "." ? ["\\.", ","] : [",", "\\."];
  if (new RegExp(`^[-+]?\\d{1,3}(${other}\\d{3})+${own}\\d+$`).test(text)) return true; // 1.234,5
  const plain = new RegExp(`^[-+]?\\d*${own}\\d+(e[-+]?\\d+)?$`, "i");
  const thousands = new RegExp(`^[-+]?[1-9]\\d{0,2}${own}\\d{3}$`);
  return plain.test(text) && !thousands.test(text);
}

/**
 * The decimal mark of a file, from its delimiter and the text of all its cells of numbers. Where commas part the
 * columns it is the point, unless quoted cells such as "0,5" say otherwise and none says the opposite.
 */
export function decimalMarkOf(cells: Iterable<Cell>, delimiter: Delimiter | null): MarkChoice {
  let points = 0;
  let commas = 0;
  for (const cell of cells) {
    if (typeof cell !== "string") continue;
    const text = cell.trim();
    if (marksSurely(text, ".")) points++;
    else if (marksSurely(text, ",")) commas++;
  }
  if (delimiter === ",") return {mark: commas > 0 && points === 0 ? "," : ".", sure: true};
  return {mark: commas > points ? "," : ".", sure: commas + points > 0};
}

/** A number, or why a cell is none. */
export type NumberOrProblem =
  | {readonly value: number}
  | {readonly problem: string; readonly accepted: string; readonly suggestion: string | null};

const numberPatterns: Readonly<Record<DecimalMark, RegExp>> = {
  ".": /^[-+]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][-+]?\d{1,3})?$/,
  ",": /^[-+]?(?:\d+(?:,\d*)?|,\d+)(?:[eE][-+]?\d{1,3})?$/,
};

const accepted = "a plain number such as 1234.5 or 1.2e6";

/** Reads a cell that is not empty. Thousands may be set off by blanks or apostrophes, never by points or commas. */
export function readNumber(cell: Cell, {mark, sure}: MarkChoice): NumberOrProblem {
  if (typeof cell === "number")
    return Number.isFinite(cell) ? {value: cell} : {problem: "not a finite number", accepted, suggestion: null};
  if (cell instanceof Date)
    return {
      problem: "a date where a number is needed",
      accepted,
      suggestion: "the spreadsheet program may have turned a number such as 1.5 into a date",
    };
  if (typeof cell === "boolean" || isCellError(cell)) return {problem: "not a number", accepted, suggestion: null};
  const text = cellText(cell);
  const digits = text.replace(/^−/, "-").replaceAll(/(?<=\d)[\s'’\u00A0\u2009\u202F](?=\d{3}(?!\d))/g, "");
  if (!sure && /^[-+]?[1-9]\d{0,2}[.,]\d{3}$/.test(digits)) return ambiguous(digits, ".");
  if (numberPatterns[mark].test(digits)) {
    const value = Number(digits.replace(",", "."));
    return Number.isFinite(value) ? {value} : {problem: "too large for a number", accepted, suggestion: null};
  }
  return badNumber(text, digits, mark);
}

function ambiguous(digits: string, mark: DecimalMark): NumberOrProblem {
  const whole = digits.replaceAll(/[.,]/g, "");
  return {
    problem: "ambiguous: this may be a decimal or a thousand",
    accepted: "decimals that no thousand looks like, thousands without points or commas",
    suggestion: `write ${whole}, or ${digits.replace(/[.,]/, mark)}0 for the decimal`,
  };
}

function badNumber(text: string, digits: string, mark: DecimalMark): NumberOrProblem {
  const other = mark === "." ? "," : ".";
  const ownName = mark === "." ? "point" : "comma";
  if (/%\s*$/.test(text))
    return {problem: "a percentage", accepted, suggestion: "write the number alone; the unit belongs in the header"};
  if (/^[-+]?(nan|inf(inity)?|#.*)$/i.test(text)) return {problem: "not a finite number", accepted, suggestion: null};
  if (/^[-+]?[1-9]\d{0,2}[.,]\d{3}$/.test(digits)) return ambiguous(digits, mark);
  if (/^[-+]?\d{1,3}([.,]\d{3}){2,}$/.test(digits))
    return {
      problem: "thousands set off by points or commas",
      accepted,
      suggestion: `write ${digits.replaceAll(/[.,]/g, "")}`,
    };
  if (new RegExp(`^[-+]?\\d*\\${other}\\d+(?:e[-+]?\\d+)?$`, "i").test(digits))
    return {
      problem: `not a number: the decimal mark of this file is the ${ownName}`,
      accepted: `one decimal mark throughout the file; the other cells have a ${ownName}`,
      suggestion: `write ${digits.replace(other, mark)}`,
    };
  const hidden = numberInText(text);
  return {
    problem: "not a number",
    accepted,
    suggestion: hidden === null ? null : `write ${hidden}; units and words belong in the header or in the remarks`,
  };
}

import type {Quantity} from "./units.ts";

/** What the cells of a column are. */
export type Content =
  | {readonly kind: "text"}
  | {readonly kind: "flag"} // yes or no
  | {readonly kind: "date"}
  | {readonly kind: "crack"} // a length, or a word such as "through"
  | {
      readonly kind: "quantity";
      readonly quantity: Quantity;
      readonly range: readonly [least: number, most: number]; // SI; what lies outside is refused as a slip
      readonly whole?: true; // counted
    };

/** What a column means. */
export interface Role<Name extends string = string> {
  readonly name: Name;
  readonly label: string; // also the header that templates write
  readonly content: Content;
  readonly needed: "always" | "see text" | "no";
  readonly meaning: string; // for people: a phrase
  readonly synonyms: readonly string[]; // case, accents, blanks and punctuation do not count
  readonly symbols?: readonly string[]; // of the equation: here case counts
}

export type Catalogue<Name extends string> = readonly Role<Name>[];

export const text: Content = {kind: "text"};
export const flag: Content = {kind: "flag"};
export const date: Content = {kind: "date"};
export const crack: Content = {kind: "crack"};

export function quantity(quantity: Quantity, least: number, most: number): Content {
  return {kind: "quantity", quantity, range: [least, most]};
}

/** Cycles, passes, sheets: whole, and no test of the laboratory has more than 10¹⁰. */
export function counted(least: number, most = 1e10): Content {
  return {kind: "quantity", quantity: "count", range: [least, most], whole: true};
}

/** Which quantity's units a column may have; null: it has none. */
export function quantityOf({content}: Role): Quantity | null {
  if (content.kind === "crack") return "length";
  return content.kind === "quantity" ? content.quantity : null;
}

/** What every table may say about where a row comes from. */
export type OriginRole = "setAside" | "testedOn" | "testedBy" | "standard" | "remarks";

export const originRoles: Catalogue<OriginRole> = [
  {
    name: "setAside",
    label: "set aside",
    content: text,
    needed: "no",
    meaning: "why it is left out of the evaluation; empty: it takes part",
    synonyms: [
      "excluded",
      "excluded because",
      "left out",
      "outlier",
      "reason for exclusion",
      "ausgeschlossen",
      "ausgeschieden",
      "Ausreißer",
      "écarté",
      "exclu",
      "excluido",
      "descartado",
    ],
  },
  {
    name: "testedOn",
    label: "tested on",
    content: date,
    needed: "no",
    meaning: "date of the test: 2024-05-31, 31.05.2024 or a date of the workbook",
    synonyms: [
      "date",
      "test date",
      "date of test",
      "tested",
      "Datum",
      "Prüfdatum",
      "date d'essai",
      "date de l'essai",
      "fecha",
      "fecha de ensayo",
    ],
  },
  {
    name: "testedBy",
    label: "tested by",
    content: text,
    needed: "no",
    meaning: "person or laboratory",
    synonyms: [
      "operator",
      "laboratory",
      "lab",
      "technician",
      "Prüfer",
      "Labor",
      "geprüft von",
      "opérateur",
      "laboratoire",
      "operador",
      "laboratorio",
    ],
  },
  {
    name: "standard",
    label: "standard",
    content: text,
    needed: "no",
    meaning: "what the test followed",
    synonyms: ["test standard", "method", "test method", "Norm", "Prüfnorm", "norme", "norma"],
  },
  {
    name: "remarks",
    label: "remarks",
    content: text,
    needed: "no",
    meaning: "anything else",
    synonyms: [
      "remark",
      "comment",
      "comments",
      "note",
      "notes",
      "Bemerkung",
      "Bemerkungen",
      "Anmerkung",
      "remarque",
      "remarques",
      "observations",
      "observaciones",
      "notas",
    ],
  },
];

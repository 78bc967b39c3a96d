import type {DocumentPath} from "../fault.ts";
import {acceptedText, jsonSchema, type SchemaNode, schemaAt} from "../json-schema.ts";

/** What may stand at a place of the document. */
export type FieldShape =
  | {readonly kind: "number" | "words" | "flag"}
  | {readonly kind: "choice"; readonly choices: readonly string[]}
  | {readonly kind: "map"; readonly keys: readonly FieldKey[]}
  | {readonly kind: "names"} // a map from names of the user's to entries
  | {readonly kind: "list"; readonly of: "maps" | "numbers"}
  | {readonly kind: "either"; readonly branches: readonly Branch[]}; // one of several shapes

export interface FieldKey {
  readonly key: string;
  readonly isRequired: boolean;
}

export interface Branch {
  readonly name: string;
  readonly shape: FieldShape;
  readonly fresh: unknown; // to begin with
}

/** What the schema says of one field. */
export interface FieldInfo {
  readonly unit: string | null; // written out: mm, MPa/mm, µε
  readonly description: string;
  readonly accepted: string;
  readonly usual: unknown; // what stands for a field that is left out; undefined: nothing does
  readonly leftOut: string | null; // what it means that the field is left out, where a few words say it
  readonly shape: FieldShape;
}

/** @returns null where nothing belongs */
export function fieldInfo(path: DocumentPath): FieldInfo | null {
  const key = JSON.stringify(path.map(step => (typeof step === "number" ? 0 : step)));
  const found = known.get(key);
  if (found !== undefined) return found;
  root ??= jsonSchema();
  const node = schemaAt(path, root);
  const info = node ? infoOf(node) : null;
  if (known.size >= MOST_KNOWN) known.clear();
  known.set(key, info);
  return info;
}

let root: SchemaNode | undefined;
const known = new Map<string, FieldInfo | null>(); // by path; entries of one list are alike
const MOST_KNOWN = 2000;

function infoOf(node: SchemaNode): FieldInfo {
  return {
    unit: node["x-unit"] ?? null,
    description: node.description ?? "",
    accepted: acceptedText(node),
    usual: node.default,
    leftOut: leftOutWords(node.description ?? ""),
    shape: shapeOf(node),
  };
}

const FEW_WORDS = 44; // characters

/** "Bond to the layer below. Left out: full" → "full" */
function leftOutWords(description: string): string | null {
  const words = /[Ll]eft out: (.+?)(?:[.;] |[.;]?$)/.exec(description)?.[1] ?? null;
  return words !== null && words.length <= FEW_WORDS ? words : null;
}

function shapeOf(node: SchemaNode): FieldShape {
  const texts = [...(node.enum ?? []), node.const].filter(v => typeof v === "string");
  if (texts.length > 0) return {kind: "choice", choices: texts};
  if (node.anyOf) return {kind: "either", branches: node.anyOf.flatMap(branchesOf)};
  switch (node.type) {
    case "number":
    case "integer":
      return {kind: "number"};
    case "boolean":
      return {kind: "flag"};
    case "array":
      return {kind: "list", of: node.items?.properties ? "maps" : "numbers"};
    case "object": {
      const required = new Set(node.required);
      const keys = Object.keys(node.properties ?? {}).map(key => ({key, isRequired: required.has(key)}));
      return node.properties ? {kind: "map", keys} : {kind: "names"};
    }
    default:
      return {kind: "words"};
  }
}

/** Words that may stand alone are branches of their own. */
function branchesOf(node: SchemaNode): Branch[] {
  if (node.anyOf) return node.anyOf.flatMap(branchesOf);
  const shape = shapeOf(node);
  if (shape.kind === "choice") return shape.choices.map(word => ({name: word, shape, fresh: word}));
  if (shape.kind === "map") return [{name: shape.keys.map(k => labelOf(k.key)).join(", "), shape, fresh: {}}];
  if (shape.kind === "list") return [{name: "a list", shape, fresh: []}];
  return [{name: shape.kind === "number" ? "a number" : "other", shape, fresh: ""}];
}

/** Which branch a value is of: by what it is, and a word by itself; −1 for none. */
export function branchOf(branches: readonly Branch[], value: unknown): number {
  return branches.findIndex(({shape, fresh}) => {
    switch (shape.kind) {
      case "choice":
        return value === fresh;
      case "map":
      case "names":
        return typeof value === "object" && value !== null && !Array.isArray(value);
      case "list":
        return Array.isArray(value);
      case "number":
        return typeof value === "number";
      default:
        return false;
    }
  });
}

/** Endings of keys that are units; the unit is told beside the value. */
const UNIT_ENDINGS =
  /_(?:per_m2_and_mm|per_m2|per_m3|per_tonne|MPa_per_mm|MPa_per_m|W_per_m2K|W_per_mK|J_per_kgK|kg_per_m3|km_per_h|mm_per_cycle|kN_per_m|kN_per_mm|m_per_s|W_per_m2|per_C|microstrain|percent|years|GPa|MPa|kPa|kN|mm|um|Hz|m|C|K|s|h)$/;

/** thickness_mm → Thickness */
export function labelOf(key: string): string {
  if (/^kg_CO2e/.test(key)) return "Carbon";
  const words = key
    .replace(/_kg_CO2e.*$/, "")
    .replace(UNIT_ENDINGS, "")
    .replaceAll("_", " ");
  return words.charAt(0).toUpperCase() + words.slice(1);
}

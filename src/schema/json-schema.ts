import {z} from "zod";
import type {DocumentPath} from "./fault.ts";
import {studySchema} from "./study.ts";

/** As much of JSON Schema as the study document uses. */
export interface SchemaNode {
  readonly title?: string;
  readonly type?: string;
  readonly description?: string;
  readonly properties?: Readonly<Record<string, SchemaNode>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: boolean | SchemaNode;
  readonly items?: SchemaNode;
  readonly anyOf?: readonly SchemaNode[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly default?: unknown;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
  readonly exclusiveMaximum?: number;
  readonly "x-unit"?: string;
  readonly "x-typical"?: readonly [number, number];
}

const nodes = new WeakMap<z.ZodType, SchemaNode>();

/** The JSON Schema of what a document takes in; made when it is first asked for. */
export function nodeOf(schema: z.ZodType): SchemaNode {
  const known = nodes.get(schema);
  if (known) return known;
  const node = z.toJSONSchema(schema, {io: "input"}) as SchemaNode;
  nodes.set(schema, node);
  return node;
}

/** The published JSON Schema (draft 2020-12) of a study document. `x-unit` and `x-typical` are ours, for readers. */
export function jsonSchema(): SchemaNode {
  return {title: "Study of an overlay on a jointed or cracked pavement", ...nodeOf(studySchema)};
}

/** The schema of the value at a path of the document, or undefined where nothing belongs. */
export function schemaAt(path: DocumentPath, node: SchemaNode): SchemaNode | undefined {
  if (path.length === 0) return node;
  const [key, ...rest] = path;
  if (node.anyOf) {
    for (const branch of node.anyOf) {
      const found = schemaAt(path, branch);
      if (found) return found;
    }
    return undefined;
  }
  if (typeof key === "number") return node.items && schemaAt(rest, node.items);
  if (node.properties && Object.hasOwn(node.properties, String(key)))
    return schemaAt(rest, node.properties[String(key)]);
  return typeof node.additionalProperties === "object" ? schemaAt(rest, node.additionalProperties) : undefined;
}

/** Keys that may stand in the map at a path. */
export function keysAt(path: DocumentPath, root: SchemaNode): readonly string[] {
  const node = schemaAt(path, root);
  const maps = node?.anyOf ?? (node ? [node] : []);
  return maps.flatMap(map => Object.keys(map.properties ?? {}));
}

/** What is accepted at a node, in words: "a number > 0, ≤ 500000 [MPa], usually 1 to 60000". */
export function acceptedText(node: SchemaNode | undefined): string {
  if (!node) return "nothing here";
  if (node.anyOf) return node.anyOf.map(acceptedText).join(", or ");
  if (node.const !== undefined) return String(node.const);
  if (node.enum) return `one of ${node.enum.join(", ")}`;
  switch (node.type) {
    case "number":
    case "integer":
      return numberText(node);
    case "object":
      return node.properties
        ? `a map with ${Object.keys(node.properties).join(", ")}`
        : "a map from names to their fields";
    case "array":
      return node.items?.properties
        ? `a list of entries with ${Object.keys(node.items.properties).join(", ")}`
        : "a list";
    case "boolean":
      return "true or false";
    default:
      return "a text";
  }
}

/** The limits of a number in words. */
export function limitsText(node: SchemaNode): string {
  const limits = [
    node.exclusiveMinimum !== undefined && `> ${node.exclusiveMinimum}`,
    node.minimum !== undefined && node.minimum > Number.MIN_SAFE_INTEGER && `≥ ${node.minimum}`,
    node.exclusiveMaximum !== undefined && `< ${node.exclusiveMaximum}`,
    node.maximum !== undefined && node.maximum < Number.MAX_SAFE_INTEGER && `≤ ${node.maximum}`,
  ];
  return limits.filter(Boolean).join(", ");
}

function numberText(node: SchemaNode): string {
  const limits = limitsText(node);
  const unit = node["x-unit"];
  const typical = node["x-typical"];
  return [
    node.type === "integer" ? "a whole number" : "a number",
    limits && ` ${limits}`,
    unit && ` [${unit}]`,
    typical && `, usually ${typical[0]} to ${typical[1]}`,
  ]
    .filter(Boolean)
    .join("");
}

import {limitsText, type SchemaNode} from "../../../src/schema/json-schema.ts";

/** Maps that get a table of their own, by heading, in the order of the page. */
const headings: Readonly<Record<string, string>> = {
  "": "Top level",
  "materials.*": "Materials",
  "materials.*.master_curve": "Master curve of a material",
  section: "Section",
  "section.layers[]": "Layers of the section",
  "section.joint": "Joint",
  "treatments[]": "Treatments",
  "treatments[].changes": "Changes of a treatment",
  traffic: "Traffic",
  "traffic.standard_axle": "Standard axle",
  "traffic.load_classes[]": "Load classes",
  "climate.hourly": "Climate, hourly record",
  "climate.daily": "Climate, daily record",
  costs: "Costs",
  "costs.renewals[]": "Renewals",
  "costs.carbon": "Carbon",
  surface: "Surface",
  temperature_bins: "Temperature bins",
  thermal_loading: "Thermal loading",
  uncertainty: "Uncertainty",
  "uncertainty.inputs[]": "Uncertain inputs",
};

/** Markdown tables of every field of the document, from the published JSON Schema. */
export function fieldTables(schema: SchemaNode): string {
  const tables = new Map<string, string[]>();
  collect(schema, "", "", tables);
  return Object.entries(headings)
    .map(([path, heading]) => {
      const rows = tables.get(path);
      if (!rows || rows.length === 0) throw new Error(`no fields under ${path}`);
      return `### ${heading}\n\n| Field | Unit | Values | Meaning |\n| --- | --- | --- | --- |\n${rows.join("\n")}`;
    })
    .join("\n\n");
}

function collect(node: SchemaNode, path: string, table: string, tables: Map<string, string[]>): void {
  const here = path in headings ? path : table;
  const prefix = path === here ? "" : path.slice(here.length).replace(/^\./, "");
  const put = (row: string) => tables.set(here, [...(tables.get(here) ?? []), row]);
  for (const branch of node.anyOf ?? []) if (branch.properties || branch.items) collect(branch, path, table, tables);
  for (const [key, field] of Object.entries(node.properties ?? {})) {
    const name = prefix ? `${prefix}.${key}` : key;
    const needed = node.required?.includes(key) ? "" : defaultText(field);
    put(
      `| \`${name}\` | ${field["x-unit"] ?? ""} | ${values(field)} | ${`${sentence(field.description)}${needed}`.trim()} |`,
    );
    collect(field, path ? `${path}.${key}` : key, here, tables);
  }
  if (node.items) collect(node.items, `${path}[]`, here, tables);
  if (typeof node.additionalProperties === "object") collect(node.additionalProperties, `${path}.*`, here, tables);
}

function sentence(text: string | undefined): string {
  return text ? `${text.replaceAll("|", "\\|")}. ` : "";
}

function defaultText(field: SchemaNode): string {
  const plain = field.default !== undefined && typeof field.default !== "object" && field.default !== "";
  return plain ? `Default: ${field.default}` : "Optional";
}

function values(node: SchemaNode): string {
  if (node.anyOf) return node.anyOf.map(values).join(" or ");
  if (node.const !== undefined) return `\`${node.const}\``;
  if (node.enum) return node.enum.map(value => `\`${value}\``).join(", ");
  switch (node.type) {
    case "number":
    case "integer": {
      const typical = node["x-typical"];
      return (
        [limitsText(node), typical && `usually ${typical[0]} to ${typical[1]}`].filter(Boolean).join("; ") || "number"
      );
    }
    case "object":
      return node.properties ? "map" : "map by name";
    case "array":
      return "list";
    case "boolean":
      return "`true`, `false`";
    default:
      return "text";
  }
}

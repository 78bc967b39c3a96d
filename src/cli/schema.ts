import type {Command} from "commander";
import {jsonSchema} from "../schema/index.ts";
import type {Terminal} from "./terminal.ts";

export function addSchema(program: Command, terminal: Terminal): void {
  program
    .command("schema")
    .summary("print the JSON Schema of a study")
    .description(
      "Prints the JSON Schema of a study document. Editors that know JSON Schema check and complete a study with it.",
    )
    .addHelpText("after", "\nExample:\n  seamwright schema > study.schema.json")
    .action(() => terminal.print(`${JSON.stringify(jsonSchema(), null, 2)}\n`));
}

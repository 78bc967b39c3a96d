import {Argument, type Command} from "commander";
import {programmeTemplate} from "../schema/index.ts";
import {beamsTemplate, fatigueTemplate, readingsTemplate} from "../schema/laboratory/index.ts";
import type {Terminal} from "./terminal.ts";

const TEMPLATES = {
  fatigue: fatigueTemplate,
  beams: beamsTemplate,
  readings: readingsTemplate,
  programme: programmeTemplate,
} as const;

export function addTemplate(program: Command, terminal: Terminal): void {
  program
    .command("template")
    .summary("print an empty laboratory table with its explanations")
    .description(
      "Prints an empty table to be filled in: fatigue (bending tests), beams and readings (wheel-tracked beams) as CSV, programme as YAML. Lines that begin with # explain.",
    )
    .addArgument(new Argument("<kind>", "which one").choices(Object.keys(TEMPLATES)))
    .addHelpText("after", "\nExample:\n  seamwright template fatigue > fatigue.csv")
    .action((kind: keyof typeof TEMPLATES) => terminal.print(TEMPLATES[kind]()));
}

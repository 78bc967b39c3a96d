import {Argument, type Command} from "commander";
import type {Terminal} from "./terminal.ts";

const KINDS = ["fatigue", "beams", "readings", "programme", "bowl"] as const;
type Kind = (typeof KINDS)[number];

export function addTemplate(program: Command, terminal: Terminal): void {
  program
    .command("template")
    .summary("print an empty table or document with its explanations")
    .description(
      "Prints an empty table to be filled in: fatigue (bending tests), beams and readings (wheel-tracked beams) as CSV, programme and bowl (deflections of a road) as YAML. Lines that begin with # explain.",
    )
    .addArgument(new Argument("<kind>", "which one").choices(KINDS))
    .addHelpText("after", "\nExample:\n  seamwright template fatigue > fatigue.csv")
    .action(async (kind: Kind) => terminal.print(await templateText(kind)));
}

async function templateText(kind: Kind): Promise<string> {
  // Loaded only now: other commands start sooner without it.
  if (kind === "bowl") return (await import("../schema/deflections/index.ts")).bowlTemplate();
  const {beamsTemplate, fatigueTemplate, programmeTemplate, readingsTemplate} = await import(
    "../schema/laboratory/index.ts"
  );
  return {fatigue: fatigueTemplate, beams: beamsTemplate, readings: readingsTemplate, programme: programmeTemplate}[
    kind
  ]();
}

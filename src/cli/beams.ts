import type {Command} from "commander";
import {workersOption} from "./flags.ts";
import type {Terminal} from "./terminal.ts";

export interface BeamFlags {
  readonly programme?: string;
  readonly check?: true;
  readonly json?: true;
  readonly report?: string;
  readonly laws?: string;
  readonly workers?: number;
}

export function addBeams(program: Command, terminal: Terminal): void {
  program
    .command("beams")
    .summary("crack growth laws from wheel-tracked beams")
    .description(
      "Reads a programme of wheel-tracked beams, fits the crack growth laws of all materials to all readings of all beams, and predicts each beam by laws fitted without it.",
    )
    .argument("<folder>", "folder with tables of beams and readings (CSV or XLSX) and programme.yaml, or one workbook")
    .option("--programme <file.yaml>", "programme file (default: programme.yaml in the folder)")
    .option("--check", "only show how the columns were understood, and what is wrong")
    .option("--json", "print the whole result as JSON, in SI units, instead of the table")
    .option("--report <file.html>", "write a report: one HTML file that stands alone and prints on A4")
    .option("--laws <folder>", "write a law file for each material, to which studies can refer")
    .addOption(workersOption())
    .addHelpText("after", "\nExample:\n  seamwright beams examples/laboratory --report out/beams.html --laws out/laws")
    .action(async (folder: string, flags: BeamFlags) => {
      // Loaded only now: other commands start sooner without it.
      const {runBeams} = await import("./beamsRun.ts");
      await runBeams(folder, flags, terminal);
    });
}

import {type Command, Option} from "commander";
import type {Terminal} from "./terminal.ts";

export interface FatigueFlags {
  readonly check?: true;
  readonly json?: true;
  readonly report?: string;
  readonly laws?: string;
  readonly name?: string;
  readonly reference?: string;
  readonly confidence: "90" | "95";
}

export function addFatigue(program: Command, terminal: Terminal): void {
  program
    .command("fatigue")
    .summary("fatigue lines from bending tests")
    .description(
      "Reads tables of bending fatigue tests, CSV or XLSX, with their stiffness histories when the tables name them; draws the fatigue line of each material and compares materials at equal strain.",
    )
    .argument("<files...>", "tables of specimens; `seamwright template fatigue` writes an empty one")
    .option("--check", "only show how the columns were understood, and what is wrong")
    .option("--json", "print the whole result as JSON, in SI units, instead of the table")
    .option("--report <file.html>", "write a report: one HTML file that stands alone and prints on A4")
    .option("--laws <folder>", "write a law file for each material, to which studies can refer")
    .option("--name <text>", "name of the programme (default: that of the first file)")
    .option("--reference <material>", "material that the others are compared with (default: the first)")
    .addOption(new Option("--confidence <percent>", "of intervals and bands").choices(["90", "95"]).default("90"))
    .addHelpText(
      "after",
      "\nExample:\n  seamwright fatigue examples/laboratory/fatigue/*.csv --report out/fatigue.html",
    )
    .action(async (files: string[], flags: FatigueFlags) => {
      // Loaded only now: other commands start sooner without it.
      const {runFatigue} = await import("./fatigueRun.ts");
      await runFatigue(files, flags, terminal);
    });
}

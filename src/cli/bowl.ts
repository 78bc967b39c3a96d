import type {Command} from "commander";
import type {Terminal} from "./terminal.ts";

export interface BowlFlags {
  readonly check?: true;
  readonly json?: true;
  readonly report?: string;
}

export function addBowl(program: Command, terminal: Terminal): void {
  program
    .command("bowl")
    .summary("moduli of layers from a deflection bowl")
    .description(
      "Reads the deflections of a surface under a falling weight and finds the moduli of its layers, with intervals, what the bowl cannot tell apart, and other moduli that fit as well.",
    )
    .argument("<file>", "document of the bowl, YAML or JSON; `seamwright template bowl` writes one to be filled in")
    .option("--check", "only read the document and tell what is wrong")
    .option("--json", "print the whole result as JSON, in SI units, instead of the table")
    .option("--report <file.html>", "write a report: one HTML file that stands alone and prints on A4")
    .addHelpText(
      "after",
      "\nExample:\n  seamwright bowl examples/deflections/county-road-bowl.yaml --report out/bowl.html",
    )
    .action(async (file: string, flags: BowlFlags) => {
      // Loaded only now: other commands start sooner without it.
      const {runBowl} = await import("./bowlRun.ts");
      await runBowl(file, flags, terminal);
    });
}

import type {Command} from "commander";
import {workersOption} from "./flags.ts";
import type {Terminal} from "./terminal.ts";

export interface RiskFlags {
  readonly json?: true;
  readonly report?: string;
  readonly csv?: string;
  readonly run?: string;
  readonly laws?: string;
  readonly workers?: number;
}

export function addRisk(program: Command, terminal: Terminal): void {
  program
    .command("risk")
    .summary("how sure the lives are, and what they depend on")
    .description(
      "Draws samples of the uncertain inputs of a study, computes the lives of all treatments for each, and tells the life at 50, 85 and 95 % reliability, the probability of lasting through the analysis period, the ratio to the control, and what the answer depends on. Without `uncertainty` in the study everything has its usual spread.",
    )
    .argument("<study>", "study document, YAML or JSON")
    .option("--json", "print the whole result as JSON, in SI units, instead of the table")
    .option("--report <file.html>", "write a report: one HTML file that stands alone and prints on A4")
    .option("--csv <file>", "write the lives of every sample")
    .option("--run <file>", "keep finished samples in this file; run again with it, and it goes on from there")
    .option("--laws <folder>", "take law files from this folder instead of where the study says")
    .addOption(workersOption())
    .addHelpText(
      "after",
      "\nExample:\n  seamwright risk examples/county-road.yaml --run out/road.run --report out/risk.html",
    )
    .action(async (study: string, flags: RiskFlags) => (await import("./riskRun.ts")).runRisk(study, flags, terminal));
}

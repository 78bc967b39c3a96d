import {type Command, InvalidArgumentError, Option} from "commander";
import type {Terminal} from "./terminal.ts";

export interface StiffnessFlags {
  readonly model?: "2S2P1D" | "Huet-Sayegh" | "sigmoid";
  readonly shift: "WLF" | "Arrhenius";
  readonly referenceC: number; // [°C]
  readonly json?: true;
  readonly report?: string;
  readonly name?: string;
}

export function addStiffness(program: Command, terminal: Terminal): void {
  program
    .command("stiffness")
    .summary("master curve of asphalt from tests of the complex modulus")
    .description(
      "Reads a table of complex modulus tests, CSV with the columns temperature_C, frequency_Hz, modulus_MPa and, if measured, phase_deg; fits a master curve with its shift and prints how well it fits, moduli at 10 Hz and relaxation moduli.",
    )
    .argument("<file>", "table of tests, one row a reading")
    .addOption(
      new Option("--model <name>", "what is fitted (default: 2S2P1D where there is a phase, else sigmoid)").choices([
        "2S2P1D",
        "Huet-Sayegh",
        "sigmoid",
      ]),
    )
    .addOption(
      new Option("--shift <name>", "how it shifts with temperature").choices(["WLF", "Arrhenius"]).default("WLF"),
    )
    .addOption(
      new Option("--reference-C <temperature>", "temperature of the curve").argParser(toTemperature).default(15),
    )
    .option("--json", "print the whole result as JSON, in SI units, instead of the table")
    .option("--report <file.html>", "write a report: one HTML file that stands alone and prints on A4")
    .option("--name <text>", "name of the material (default: that of the file)")
    .addHelpText(
      "after",
      "\nExample:\n  seamwright stiffness examples/stiffness/dense-asphalt.csv --report out/dense-asphalt.html",
    )
    .action(async (file: string, flags: StiffnessFlags) => {
      // Loaded only now: other commands start sooner without it.
      const {runStiffness} = await import("./stiffnessRun.ts");
      await runStiffness(file, flags, terminal);
    });
}

function toTemperature(text: string): number {
  const temperature = Number(text);
  if (text.trim() === "" || !(temperature >= -30 && temperature <= 60))
    throw new InvalidArgumentError("It must be a temperature from -30 to 60 °C.");
  return temperature;
}

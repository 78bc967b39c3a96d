import {type Command, InvalidArgumentError} from "commander";
import {accuracyOption} from "./chart.ts";
import {workersOption} from "./flags.ts";
import type {Terminal} from "./terminal.ts";

export interface SearchFlags {
  readonly target: number; // [years]
  readonly layer?: string;
  readonly from: number; // [mm]
  readonly to: number; // [mm]
  readonly step: number; // [mm]
  readonly treatment?: readonly string[];
  readonly reliability?: number; // [%]
  readonly sections: number;
  readonly accuracy?: number; // [%]
  readonly json?: true;
  readonly report?: string;
  readonly csv?: string;
  readonly run?: string;
  readonly laws?: string;
  readonly workers?: number;
}

export function addSearch(program: Command, terminal: Terminal): void {
  program
    .command("search")
    .summary("the least overlay that reaches a life, for each treatment")
    .description(
      "Finds the least thickness of the overlay, in steps that can be built, for which the governing life of each treatment reaches a target; says so when none does, when the thinnest does already, and where life falls with thickness.",
    )
    .argument("<study>", "study document, YAML or JSON")
    .requiredOption("--target <years>", "life to be reached", positive)
    .option(
      "--layer <name>",
      "layer of the section whose thickness is searched (default: the first course of the overlay)",
    )
    .option("--from <mm>", "thinnest", positive, 40)
    .option("--to <mm>", "thickest", positive, 200)
    .option("--step <mm>", "between thicknesses that can be built", positive, 5)
    .option("--treatment <name...>", "only these treatments, of all that the study has")
    .option(
      "--reliability <percent>",
      "take the life that so many of the samples of the study's uncertain inputs outlive, not that of the study's own values",
      toReliability,
    )
    .option("--sections <n>", "with --reliability: sections solved anew at each thickness, at least 8", toSections, 16)
    .addOption(accuracyOption(" (default: that of the study)"))
    .option("--json", "print the result as JSON")
    .option("--report <file.html>", "write a report: one HTML file that stands alone and prints on A4")
    .option("--csv <file>", "write life against thickness as a CSV file")
    .option("--run <file>", "keep finished points in this file and go on from those that it has")
    .option("--laws <folder>", "take law files from this folder instead of where the study says")
    .addOption(workersOption())
    .addHelpText(
      "after",
      "\nExample:\n  seamwright search examples/county-road.yaml --target 30 --report out/search.html",
    )
    .action(async (study: string, flags: SearchFlags) => {
      const {runSearch} = await import("./searchRun.ts");
      await runSearch(study, flags, terminal);
    });
}

function toReliability(text: string): number {
  const percent = Number(text);
  if (!(percent >= 50 && percent <= 99)) throw new InvalidArgumentError("It must be a number from 50 to 99.");
  return percent;
}

function toSections(text: string): number {
  const count = Number(text);
  if (!(Number.isInteger(count) && count >= 8 && count <= 100_000))
    throw new InvalidArgumentError("It must be a whole number from 8 to 100000.");
  return count;
}

function positive(text: string): number {
  const value = Number(text);
  if (text.trim() === "" || !(value > 0 && Number.isFinite(value)))
    throw new InvalidArgumentError("It must be a number above 0.");
  return value;
}

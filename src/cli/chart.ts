import {type Command, InvalidArgumentError, Option} from "commander";
import {workersOption} from "./flags.ts";
import type {Terminal} from "./terminal.ts";

export interface ChartFlags {
  readonly x: string;
  readonly y: string;
  readonly show: "ratio" | "life" | "cost";
  readonly treatment?: string;
  readonly accuracy: number; // [%]
  readonly allPoints?: true;
  readonly json?: true;
  readonly report?: string;
  readonly csv?: string;
  readonly run?: string;
  readonly laws?: string;
  readonly workers?: number;
}

/** Coarser than a single life by default: what it moves is told in docs/where-it-pays.md [%]. */
const USUAL_ACCURACY = 2;

export function addChart(program: Command, terminal: Terminal): void {
  program
    .command("chart")
    .summary("where a treatment pays, over ranges of two inputs")
    .description(
      "Computes the life with and without a treatment over ranges of two inputs of a study and draws where it pays, where it does harm, and why. Points are computed coarse first: a report is written as soon as there is a picture, and again whenever it gets better.",
    )
    .argument("<study>", "study document, YAML or JSON")
    .requiredOption(
      "--x <path=from:to[:count]>",
      "input along the horizontal axis, by its path in the study, or traffic, loads (factors) or temperature (kelvin added)",
    )
    .requiredOption("--y <path=from:to[:count]>", "the same for the vertical axis")
    .addOption(
      new Option(
        "--show <what>",
        "what the terminal shows: life over the control's, the life itself, or present worth over the control's",
      )
        .choices(["ratio", "life", "cost"])
        .default("ratio"),
    )
    .option("--treatment <name>", "treatment to compare with the control (default: the first after it)")
    .addOption(accuracyOption().default(USUAL_ACCURACY))
    .option("--all-points", "compute every point, also where interpolation between others was found good enough")
    .option("--json", "print lives at all points as JSON, in the units of the study")
    .option("--report <file.html>", "write a report: one HTML file that stands alone and prints on A4")
    .option("--csv <file>", "write lives at all points as a CSV file")
    .option("--run <file>", "keep finished points in this file and go on from those that it has")
    .option("--laws <folder>", "take law files from this folder instead of where the study says")
    .addOption(workersOption())
    .addHelpText(
      "after",
      "\nExample:\n  seamwright chart examples/county-road.yaml --x section.layers.overlay.thickness_mm=40:120 --y traffic=0.25:4 --report out/pays.html --run out/pays.run",
    )
    .action(async (study: string, flags: ChartFlags) => {
      const {runChart} = await import("./chartRun.ts");
      await runChart(study, flags, terminal);
    });
}

/**
 * Of commands that compute many lives; without a default.
 *
 * @param note  after what it is
 */
export function accuracyOption(note = ""): Option {
  return new Option("--accuracy <percent>", `numerical accuracy of the tip strain, 0.1 to 5${note}`).argParser(
    toAccuracy,
  );
}

function toAccuracy(text: string): number {
  const percent = Number(text);
  if (!(percent >= 0.1 && percent <= 5)) throw new InvalidArgumentError("It must be a number from 0.1 to 5.");
  return percent;
}

import type {Command} from "commander";
import {describeSection} from "../schema/index.ts";
import {loadStudy, warningText} from "./study.ts";
import {climateLines, settingLines, trafficLines} from "./summary.ts";
import {heading, type Terminal} from "./terminal.ts";

export function addCheck(program: Command, terminal: Terminal): void {
  program
    .command("check")
    .summary("read a study and show how it was understood")
    .description(
      "Reads a study, lists every fault at once or, when there is none, draws each treatment's section and sums up traffic and climate as they were understood. Computes nothing.",
    )
    .argument("<study>", "study document, YAML or JSON")
    .addHelpText("after", "\nExample:\n  seamwright check examples/county-road.yaml")
    .action((path: string) => terminal.print(checkText(path, terminal)));
}

function checkText(path: string, terminal: Terminal): string {
  const {file, read} = loadStudy(path);
  const {study, inputs} = read;
  const treatments = study.treatments.map(({name, description, section}, i) => {
    const title = i === 0 ? `${name} (the control)` : name;
    return [heading(title, terminal), ...(description ? [description] : []), "", describeSection(section)].join("\n");
  });
  return `${[
    `${heading(study.name, terminal)}\n${path}, input ${file.hash.slice(0, 12)}\n`,
    ...treatments,
    `${heading("Traffic", terminal)}\n${trafficLines(study.traffic, inputs.document.traffic).join("\n")}\n`,
    `${heading("Climate", terminal)}\n${climateLines(study).join("\n")}\n`,
    `${heading("Settings", terminal)}\n${settingLines(inputs.document).join("\n")}\n`,
    warningText(read.warnings).trimEnd() || "No faults, no warnings.",
  ].join("\n")}\n`;
}

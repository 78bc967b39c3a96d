/** The command line: arguments in, exit code out. What goes wrong anywhere is caught here, once. */
import {Command, CommanderError} from "commander";
import {Cancelled, InputError} from "../engine/errors.ts";
import {FileError, softwareVersion} from "../node/index.ts";
import {RunFileError} from "../node/runs/index.ts";
import {addBeams} from "./beams.ts";
import {addBowl} from "./bowl.ts";
import {addChart} from "./chart.ts";
import {addCheck} from "./check.ts";
import {addFatigue} from "./fatigue.ts";
import {addLife} from "./life.ts";
import {addProbe} from "./probe.ts";
import {addRisk} from "./risk.ts";
import {addSchema} from "./schema.ts";
import {addSearch} from "./search.ts";
import {addStiffness} from "./stiffness.ts";
import {Stopped} from "./stopped.ts";
import {BadInput} from "./study.ts";
import {addTemplate} from "./template.ts";
import {openTerminal, type Terminal} from "./terminal.ts";

/** Exit codes: done, anything else, bad input; interrupted as shells tell it, 128 + the signal's number. */
const EXIT = {done: 0, failed: 1, badInput: 2, interrupted: 130, terminated: 143} as const;

const stop = new AbortController();
let stoppedBy: (typeof EXIT)["interrupted" | "terminated"] = EXIT.interrupted;
const onSignal = (code: typeof stoppedBy) => (): void => {
  if (stop.signal.aborted) process.exit(code); // asked twice
  stoppedBy = code;
  stop.abort();
};
process.on("SIGINT", onSignal(EXIT.interrupted));
process.on("SIGTERM", onSignal(EXIT.terminated));

const terminal = openTerminal(process, stop.signal);
try {
  await commandLine(terminal).parseAsync();
} catch (error) {
  terminal.clearStatus();
  process.exitCode = tell(error, terminal);
}

function commandLine(terminal: Terminal): Command {
  const program = new Command("seamwright")
    .description(
      "The life of asphalt overlays on jointed and cracked pavements, with and without a crack-resistant interlayer.",
    )
    .version(softwareVersion())
    .helpCommand(false)
    .showHelpAfterError("Run it with --help for how to use it.")
    .exitOverride()
    .addHelpText("after", "\nExample:\n  seamwright life examples/county-road.yaml --report out/county-road.html");
  addLife(program, terminal);
  addRisk(program, terminal);
  addChart(program, terminal);
  addSearch(program, terminal);
  addCheck(program, terminal);
  addFatigue(program, terminal);
  addBeams(program, terminal);
  addStiffness(program, terminal);
  addBowl(program, terminal);
  addTemplate(program, terminal);
  addProbe(program, terminal);
  addSchema(program, terminal);
  return program;
}

/** Says what went wrong, and with which exit code to end. */
function tell(error: unknown, terminal: Terminal): number {
  if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.done : EXIT.badInput; // told by commander
  if (error instanceof Cancelled) {
    terminal.say(`Interrupted; ${error instanceof Stopped ? error.kept : "nothing was written."}\n`);
    return stoppedBy;
  }
  if (error instanceof BadInput || error instanceof RunFileError) {
    terminal.say(`${error.message}\n`);
    return EXIT.badInput;
  }
  if (error instanceof FileError) {
    terminal.say(`Error: ${error.message}\n`);
    return error.action === "read" ? EXIT.badInput : EXIT.failed;
  }
  if (error instanceof InputError) {
    terminal.say(`This cannot be computed. ${error.message}\n`);
    return error.code === "convergence" ? EXIT.failed : EXIT.badInput;
  }
  return tellUnexpected(error, terminal);
}

function tellUnexpected(error: unknown, terminal: Terminal): number {
  const {message, stack} = error instanceof Error ? error : {message: String(error), stack: undefined};
  if (process.env.SEAMWRIGHT_DEBUG) terminal.say(`${stack ?? message}\n`);
  else terminal.say(`Error: ${message.split("\n")[0]}; run with SEAMWRIGHT_DEBUG=1 for the stack\n`);
  return EXIT.failed;
}

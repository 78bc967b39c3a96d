import {type Command, InvalidArgumentError, Option} from "commander";
import type {ProbeRequest, Study, Treatment} from "../engine/life/index.ts";
import type {LoadClass} from "../engine/traffic/index.ts";
import {computeProbe} from "../node/index.ts";
import {toJson} from "./json.ts";
import {probeTable} from "./probeTable.ts";
import {progressLine} from "./progress.ts";
import {BadInput, loadStudy} from "./study.ts";
import type {Terminal} from "./terminal.ts";

interface ProbeFlags {
  readonly treatment?: string;
  readonly class?: string;
  readonly temperatureC: number;
  readonly xMm?: readonly number[];
  readonly yMm?: readonly number[];
  readonly interlayerMm: number;
  readonly undersideMm: number;
  readonly surfaceMm: number;
  readonly contact: "decide" | "open";
  readonly json?: true;
}

const UNITS =
  "SI: lengths m, tractions and moduli Pa, energy release rates J/m², springs Pa/m; strains and efficiency as plain " +
  "numbers. Thermal cases are for +1 K, and for +1 K/m of gradient: tractions in Pa, openings in m, energies in J/m² for it.";

export function addProbe(program: Command, terminal: Terminal): void {
  program
    .command("probe")
    .summary("look at one section closely, for comparison with another program")
    .description(
      "Computes, for one wheel of a load class at given places and for given crack lengths, the mean tractions over the process zone ahead of each crack tip, tip strain, energy release rates by mode and deflections beside the joint; and the same for a change of temperature of 1 K.",
    )
    .argument("<study>", "study document, YAML or JSON")
    .requiredOption("--temperature-C <number>", "overlay temperature, which sets the moduli under the wheel", toNumber)
    .option("--treatment <name>", "which section (default: the first treatment)")
    .option("--class <name>", "load class whose first wheel is taken (default: the first class)")
    .option("--x-mm <list>", "wheel centres along the lane, from the joint (default: 0)", toNumbers)
    .option("--y-mm <list>", "places along the joint, from the wheel's centre (default: 0)", toNumbers)
    .option("--interlayer-mm <length>", "crack up from the joint, within the interlayer", toNumber, 0)
    .option("--underside-mm <length>", "crack up from the overlay's underside", toNumber, 0)
    .option("--surface-mm <length>", "crack down from the surface", toNumber, 0)
    .addOption(
      new Option("--contact <how>", "decide which cracks and joint faces touch, or take all as open")
        .choices(["decide", "open"])
        .default("decide"),
    )
    .option("--json", "print JSON, in SI units, instead of tables")
    .addHelpText(
      "after",
      '\nExample:\n  seamwright probe examples/county-road.yaml --treatment "With interlayer" --temperature-C 20 --x-mm 0,120 --y-mm 0,100 --interlayer-mm 5',
    )
    .action((study: string, flags: ProbeFlags) => runProbe(study, flags, terminal));
}

async function runProbe(file: string, flags: ProbeFlags, terminal: Terminal): Promise<void> {
  const {study} = loadStudy(file).read;
  const treatment = named<Treatment>(study.treatments, flags.treatment, "treatment");
  const loadClass = named<LoadClass>([...study.traffic.classes, study.traffic.standardAxle], flags.class, "load class");
  const request = requestOf(flags, loadClass, study);
  const progress = progressLine(terminal);
  const result = await computeProbe(treatment.section, request, {
    signal: terminal.signal,
    onProgress: done => progress(done, treatment.name),
  });
  terminal.print(
    flags.json
      ? toJson({treatment: treatment.name, loadClass: loadClass.name, units: UNITS, request, ...result})
      : probeTable({treatment, loadClass, request, result}, terminal),
  );
}

/** Flags come in millimetres; the engine takes metres. */
function requestOf(flags: ProbeFlags, loadClass: LoadClass, study: Study): ProbeRequest {
  const metres = (millimetres: number): number => millimetres / 1000;
  const {load, length, width} = loadClass.wheels[0];
  return {
    moduli: {temperature: flags.temperatureC},
    wheel: {load, length, width},
    x: (flags.xMm ?? [0]).map(metres),
    y: (flags.yMm ?? [0]).map(metres),
    cracks: {
      interlayer: metres(flags.interlayerMm),
      underside: metres(flags.undersideMm),
      surface: metres(flags.surfaceMm),
    },
    contact: flags.contact,
    transfer: null,
    accuracy: study.accuracy,
  };
}

function named<T extends {readonly name: string}>(all: readonly T[], name: string | undefined, what: string): T {
  const found = name === undefined ? all[0] : all.find(one => one.name === name);
  if (found) return found;
  const names = [...new Set(all.map(one => JSON.stringify(one.name)))].join(", ");
  throw new BadInput(`There is no ${what} ${JSON.stringify(name)}; there is: ${names}.`);
}

function toNumber(text: string): number {
  const value = text.trim() === "" ? Number.NaN : Number(text);
  if (!Number.isFinite(value)) throw new InvalidArgumentError("It must be a number.");
  return value;
}

function toNumbers(text: string): number[] {
  return text.split(",").map(toNumber);
}

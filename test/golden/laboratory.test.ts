/** The example laboratory gives the laws that stand beside it; and what is true there is within what it says it knows. */
import {readFileSync} from "node:fs";
import {expect, test} from "vitest";
import {INVENTED} from "../../examples/laboratory/invent.ts";
import {
  assembleCalibration,
  calibrationTasks,
  calibrationWorker,
  fatigueResult,
  REFERENCE_STRAIN,
} from "../../src/engine/laboratory/index.ts";
import {readBeamFiles, readFatigueProgramme} from "../../src/node/laboratory/index.ts";
import {readLaw} from "../../src/schema/index.ts";
import {calibrationRequest, lawDocuments, levelOf, readProgramme} from "../../src/schema/laboratory/index.ts";

const folder = new URL("../../examples/laboratory/", import.meta.url);
const textOf = (name: string): string => readFileSync(new URL(name, folder), "utf8");

const outcome = readProgramme(textOf("programme.yaml"));
if (outcome.kind === "faults") throw new Error(JSON.stringify(outcome.faults));
const {programme} = outcome;
const {beams, faults} = await readBeamFiles(folder.pathname);
const files = await readFatigueProgramme(
  programme.fatigue.map(name => new URL(name, folder).pathname),
  programme.name,
);
const fatigue = fatigueResult(files.programme, levelOf(programme));
const request = calibrationRequest(programme, beams, fatigue);
const [base] = calibrationTasks(request); // the laws; predictions and trials of choices take their time
const calibration = assembleCalibration(request, [calibrationWorker()(base, [], () => true)]);

test("its tables are good", () => {
  expect([...faults, ...files.faults]).toEqual([]);
  expect(beams).toHaveLength(8);
});

test("its laws are those of examples/laboratory/laws", () => {
  const laws = lawDocuments(calibration, fatigue, {software: "", date: "", files: []});
  expect(laws).toHaveLength(3);
  for (const law of laws) {
    const read = readLaw(textOf(`laws/${law.material.replaceAll(" ", "-")}.yaml`));
    if (read.kind === "faults") throw new Error(JSON.stringify(read.faults));
    const close = (ours: object | undefined, theirs: object | undefined): void =>
      expect(JSON.parse(JSON.stringify(ours), nearly)).toEqual(JSON.parse(JSON.stringify(theirs), nearly));
    close(law.crack_growth, read.law.crack_growth);
    close(law.fatigue_line, read.law.fatigue_line);
  }
});

/** Five figures: the last ones are the rounding of the machine's functions. */
function nearly(_: string, value: unknown): unknown {
  return typeof value === "number" ? Number(value.toPrecision(5)) : value;
}

test("the truth is within three standard errors of every law", () => {
  for (const e of calibration.estimates) {
    const {logRate, exponent} = INVENTED.laws[e.material];
    const own = e.logCoefficient + e.exponent.value * Math.log(REFERENCE_STRAIN);
    const {logCoefficient: aa, both, exponent: nn} = e.covariance;
    const L = Math.log(REFERENCE_STRAIN);
    expect(Math.abs(own - logRate)).toBeLessThan(3 * Math.sqrt(aa + 2 * L * both + L * L * nn));
    expect(Math.abs(e.exponent.value - exponent)).toBeLessThan(3 * Math.sqrt(nn));
  }
});

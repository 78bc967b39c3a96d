import {readFileSync} from "node:fs";
import {expect, test} from "vitest";
import {InputError} from "../../../src/engine/errors.ts";
import {fieldAround, fieldRequest, type Study} from "../../../src/engine/life/index.ts";
import {transferSpring} from "../../../src/engine/response/index.ts";
import {interfaceDepths, modulusAt} from "../../../src/engine/section/index.ts";
import {readStudy} from "../../../src/schema/index.ts";

const examples = new URL("../../../examples/", import.meta.url);

function example(name: string): Study {
  const outcome = readStudy(readFileSync(new URL(`${name}.yaml`, examples), "utf8"), {
    fileName: name,
    readCsv: path => readFileSync(new URL(path, examples), "utf8"),
  });
  if (outcome.kind === "faults") throw new Error(outcome.faults.map(f => f.problem).join("; "));
  return outcome.study;
}

const WHOLE = {interlayer: 0, underside: 0, surface: 0};

test("a study's treatment at a temperature, under the standard axle, seen under its first wheel", () => {
  const study = example("county-road");
  const request = fieldRequest(study, {treatment: 1, temperature: 15, cracks: WHOLE});
  const {layers} = study.treatments[1].section;
  expect(request.moduli).toEqual(layers.map(l => modulusAt(l.material, 15)));
  expect(request.transfer).toBe(0); // as the study says
  expect(request.wheels).toBe(study.traffic.standardAxle.wheels);
  expect(request.y).toBe(request.wheels[0].y);
  const depths = interfaceDepths(layers);
  expect(request.view.depth).toBeGreaterThan(depths[depths.length - 2]); // the soil's top is seen
  const field = fieldAround({...request, positions: Float64Array.of(0.15)});
  expect(new Set(field.layer)).toEqual(new Set(layers.keys()).add(-1)); // every layer, and the joint's gap
  expect(field.tips.interlayer!.strain[0]).toBeGreaterThan(field.tips.underside!.strain[0]); // the corner is under the interlayer
});

test("a spring is found for an efficiency", () => {
  const study = example("apron");
  const {section} = study.treatments[0];
  expect(section.joint.transfer.kind).not.toBe("spring");
  const request = fieldRequest(study, {treatment: 0, temperature: 15, cracks: WHOLE});
  const {length, width, load} = study.traffic.standardAxle.wheels[0];
  const exact = transferSpring(section, request.moduli, {length, width, pressure: load / (length * width)}, 0.01);
  expect(Math.abs(request.transfer / exact.stiffness - 1)).toBeLessThan(0.1); // as accurate as a deflection test is
});

test("axles of the traffic may be chosen; what is not there is told", () => {
  const study = example("county-road");
  const choice = {treatment: 0, temperature: 15, cracks: WHOLE};
  expect(fieldRequest(study, {...choice, axle: 3}).wheels).toBe(study.traffic.classes[3].wheels);
  expect(() => fieldRequest(study, {...choice, axle: 1000})).toThrow(InputError);
  expect(() => fieldRequest(study, {...choice, treatment: 7})).toThrow(InputError);
  expect(() => fieldRequest(study, {...choice, temperature: 90})).toThrow(InputError);
});

/** A programme of few beams, drawn from known laws: the dense asphalt of the example, at two loads, each twice. */
import {CHOICES, INVENTED, inventBeams, inventedCases} from "../../../examples/laboratory/invent.ts";
import type {BeamTest, CalibrationRequest} from "../../../src/engine/laboratory/index.ts";

const ACCURACY = 0.04;

/** The fifth beam is set aside. */
export function smallRequest(change: (test: BeamTest) => BeamTest = test => test): CalibrationRequest {
  const plain = inventedCases(ACCURACY).filter(
    ({test: {overlay, interlayer}}) => overlay.material === "dense asphalt" && !interlayer,
  );
  const tests = [3, 4].flatMap(seed =>
    inventBeams(plain, INVENTED, seed).map(c => ({...c.test, name: `${c.test.name} ${seed}`})),
  );
  const all = [...tests, {...tests[0], name: "slipped", setAside: "the clamp slipped"}].map(change);
  return {
    tests: all,
    choices: {...CHOICES, zoneLength: Object.fromEntries(all.map(t => [t.overlay.material, 0.01])), accuracy: ACCURACY},
    shearWeight: 1,
    relative: {},
    exponentPrior: null,
    level: 0.9,
    seed: 1,
  };
}

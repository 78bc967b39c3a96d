/** The springs under a beam: from a deflection measured at rest, and whether they would have to pull. */
import {InputError} from "../errors.ts";
import {ln} from "../numeric/index.ts";
import {beamGeometry, condense, solveDirect, stiffnesses, wheelLoads} from "../response/index.ts";
import type {Section} from "../section/index.ts";
import {type BeamChoices, beamSection, modulusOf} from "./beam.ts";
import type {BeamTest} from "./beamTypes.ts";

const CLOSE = 1e-6; // of the deflection, relative
const LARGEST_ITERATIONS = 40;
const STIFFEST = 1e13; // [Pa/m]: as good as rigid
const SOFTEST = 1e5; // [Pa/m]

/**
 * Stiffness at which this model of the beam, not yet cracked, deflects under the wheel as it was measured.
 *
 * @returns [Pa/m]
 * @throws InputError "domain" when no stiffness does
 */
export function beamFoundation(test: BeamTest, choices: BeamChoices): number {
  const {foundation} = test;
  if (foundation.kind === "stiffness") return foundation.stiffness;
  const {load, deflection, at = 0} = foundation;
  const resting = restingBeam(test, choices, [Math.abs(at)]);
  const deflectionAt = (stiffness: number): number => resting(stiffness)(0, at) * load;
  const where = `${test.name}: foundation.deflection`;
  let [soft, stiff] = [SOFTEST, STIFFEST];
  let [high, low] = [deflectionAt(soft), deflectionAt(stiff)];
  if (low >= deflection)
    throw new InputError("domain", where, deflection, `> ${low}, that of the beam on rigid ground [m]`);
  if (high <= deflection)
    throw new InputError("domain", where, deflection, `< ${high}, that on springs of ${SOFTEST} Pa/m [m]`);
  // False position in ln k and ln w, nearly a straight line while the springs decide, kept within its bracket.
  for (let k = 0; k < LARGEST_ITERATIONS; k++) {
    const part = ln(high / deflection) / ln(high / low);
    const middle = k % 3 === 2 ? 0.5 : part; // halved now and then, so that neither end stays for ever
    const stiffness = soft * (stiff / soft) ** middle;
    const w = deflectionAt(stiffness);
    if (Math.abs(w / deflection - 1) < CLOSE) return stiffness;
    if (w > deflection) [soft, high] = [stiffness, w];
    else [stiff, low] = [stiffness, w];
  }
  throw new InputError("convergence", where, deflection, `met within ${LARGEST_ITERATIONS} iterations`);
}

/**
 * Largest lift of the beam's ends during the travel over its settlement under the wheel at the gap [–]. The springs hold both
 * ways; a beam that lies loose would lose its ground there.
 */
export function beamLift(test: BeamTest, stiffness: number, choices: BeamChoices): number {
  const {from, to} = test.travel;
  const w = restingBeam(test, choices, [0, Math.abs(from), Math.abs(to)])(stiffness);
  const end = test.length / 2;
  const lifts = [1, 2].flatMap(k => [-w(k, end), -w(k, -end)]);
  return Math.max(0, ...lifts) / w(0, 0);
}

/** Stiffness of the springs → deflection of the surface at x under wheel number k [m/N]. */
function restingBeam(test: BeamTest, choices: BeamChoices, centres: readonly number[]) {
  const sectionOn = (stiffness: number): Section => beamSection(test, stiffness, choices);
  const {model} = beamGeometry(sectionOn(SOFTEST), choices.accuracy).meshes[0]; // the same on any springs
  const {surface} = model.mesh;
  const {length} = test.wheel;
  return (stiffness: number) => {
    const section = sectionOn(stiffness);
    const S = condense(model, stiffnesses(section, {moduli: section.layers.map(modulusOf), transfer: 0}), 0);
    const [even, odd] = (["symmetric", "antisymmetric"] as const).map(part => {
      const request = {part, tied: () => true, transfer: 0, interlock: 0, contact: []};
      return solveDirect(model, S, request, wheelLoads(model.mesh, length, centres, part)).displacement;
    });
    return (k: number, x: number): number => {
      const node = surface.reduce(
        (best, s, i) => (Math.abs(s.x - Math.abs(x)) < Math.abs(surface[best].x - Math.abs(x)) ? i : best),
        0,
      );
      const at = k * model.size + model.surface[node];
      return (even[at] + Math.sign(x) * odd[at]) / (length * test.width);
    };
  };
}

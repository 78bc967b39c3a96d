/** Does a material's programme allow what is concluded from it? Findings, never refusals. */
import type {FatiguePoint, Finding, FindingCode, StrainLevel} from "./fatigueTypes.ts";
import type {Specimen} from "./types.ts";

/** EN 12697-24 annex A, from memory. */
const LEAST_LEVELS = 3;
const LEAST_SPECIMENS = 6; // a level
const MILLION = 1e6; // [cycles]
const LEAST_SHARE = 1 / 3; // of specimens, on either side of a million [–]
const SHORTEST = 1e4; // [cycles]
const LONGEST = 2e6; // [cycles]

/** Within one material. EN 12697-24 lets the temperature err by 1 K either way (from memory); the frequency: ours. */
const TEMPERATURE_SPREAD = 2; // [K]
const FREQUENCY_SPREAD = 0.05; // of the lowest [–]

export function programmeFindings(
  points: readonly FatiguePoint[],
  levels: readonly StrainLevel[],
  specimens: readonly Specimen[],
): Finding[] {
  const used = points.filter(point => point.setAside === null);
  const tested = used.map(point => specimens[point.specimen]);
  return [
    ...setAsideFindings(points),
    ...levelFindings(points, levels),
    ...lifeFindings(used),
    ...spread(
      "mixed-temperatures",
      "temperatures",
      tested,
      s => s.temperature,
      (low, high) => high - low > TEMPERATURE_SPREAD,
    ),
    ...spread(
      "mixed-frequencies",
      "frequencies",
      tested,
      s => s.frequency,
      (low, high) => high > (1 + FREQUENCY_SPREAD) * low,
    ),
    ...historyFindings(tested),
  ];
}

const namesOf = (some: readonly {readonly name: string}[]): string[] => some.map(one => one.name);

function setAsideFindings(points: readonly FatiguePoint[]): Finding[] {
  return points
    .filter(point => point.setAside !== null)
    .map(({name, setAside}) => ({code: "set-aside", text: `${name} is left out: ${setAside}.`, specimens: [name]}));
}

function levelFindings(points: readonly FatiguePoint[], levels: readonly StrainLevel[]): Finding[] {
  const findings: Finding[] = [];
  if (levels.length < LEAST_LEVELS) {
    const text = `${levels.length} of the ${LEAST_LEVELS} strain levels that EN 12697-24 asks for.`;
    findings.push({code: "few-levels", text, specimens: []});
  }
  const thin = levels.filter(level => level.points.length < LEAST_SPECIMENS);
  if (thin.length > 0) {
    const text = `Fewer than ${LEAST_SPECIMENS} specimens at ${thin.length} of ${levels.length} strain levels.`;
    const specimens = thin.flatMap(level => level.points.map(i => points[i].name));
    findings.push({code: "few-specimens", text, specimens});
  }
  return findings;
}

function lifeFindings(used: readonly FatiguePoint[]): Finding[] {
  const findings: Finding[] = [];
  const runOuts = used.filter(point => point.runOut);
  if (runOuts.length > 0) {
    const text = `${runOuts.length} of ${used.length} did not fail: the standard line leaves them out and tells lives too short; that of likelihood counts them.`;
    findings.push({code: "run-outs", text, specimens: namesOf(runOuts)});
  }
  const beyond = used.filter(point => point.cycles >= MILLION).length;
  const below = used.filter(point => point.cycles <= MILLION && !point.runOut).length;
  const wanted = "EN 12697-24 asks for a third at least";
  if (beyond < LEAST_SHARE * used.length) {
    const text = `${beyond} of ${used.length} lasted 10⁶ cycles; ${wanted}.`;
    findings.push({code: "few-beyond-million", text, specimens: []});
  }
  if (below < LEAST_SHARE * used.length) {
    const text = `${below} of ${used.length} failed before 10⁶ cycles; ${wanted}.`;
    findings.push({code: "few-below-million", text, specimens: []});
  }
  if (used.length > 0 && used.every(point => point.cycles < SHORTEST || point.cycles > LONGEST)) {
    const text = "No life between 10⁴ and 2·10⁶ cycles, where EN 12697-24 wants them.";
    findings.push({code: "lives-out-of-range", text, specimens: []});
  }
  return findings;
}

function spread(
  code: FindingCode,
  what: string,
  tested: readonly Specimen[],
  read: (specimen: Specimen) => number | null,
  tooWide: (low: number, high: number) => boolean,
): Finding[] {
  const known = tested.flatMap(specimen => read(specimen) ?? []);
  const low = known.reduce((a, b) => Math.min(a, b), Infinity);
  const high = known.reduce((a, b) => Math.max(a, b), -Infinity);
  if (known.length === 0 || !tooWide(low, high)) return [];
  const text = `Tested at different ${what}, ${low} to ${high}: one line for all of them means little.`;
  return [{code, text, specimens: namesOf(tested.filter(specimen => read(specimen) !== low))}];
}

function historyFindings(tested: readonly Specimen[]): Finding[] {
  const kinds = [
    ["starts-late", "startsLate", "The record begins after the 100th cycle; its first row stands for it."],
    ["starts-with-jump", "startsWithJump", "Stiffness jumps near the 100th cycle: the initial modulus is doubtful."],
    ["displacement-drifts", "displacementDrifts", "The amplitude was not held: strain is not what was asked for."],
  ] as const;
  return kinds.flatMap(([code, flag, text]) => {
    const concerned = tested.filter(specimen => specimen.history?.[flag]);
    return concerned.length > 0 ? [{code, text, specimens: namesOf(concerned)}] : [];
  });
}

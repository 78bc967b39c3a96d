/** Errors and times of all families on the cases of one study. */
import {correctionNodes, stiffness} from "../../src/engine/life/plan.ts";
import {combine} from "../../src/engine/response/index.ts";
import type {Example} from "./cases.ts";
import {CHANGES, FAMILIES, type Family, type Member, ownSizes, PLACES, reference} from "./families.ts";
import {benchOf, lifeOf, type Measured, type Piece, pieceOf} from "./measure.ts";

/** One discretisation over all cases of a study. */
export interface Row {
  readonly family: string;
  readonly name: string;
  readonly ms: number; // mean of the cases, of waves and passes in one thread
  readonly life: number; // root mean square of the error in life [–]
  readonly largest: number; // error of any case, at 25, 50, 75 % of the overlay and at the end, with its sign [–]
  readonly tip: number; // largest error of any tip's strain before there are cracks, with its sign [–]
}

export interface Comparison {
  readonly study: string;
  readonly reference: {readonly ms: number; readonly unknowns: number};
  readonly families: readonly Row[];
  readonly changes: readonly Row[];
  readonly places: readonly Row[];
  readonly temperatures: readonly Row[];
}

const WARM_UP = 0.02; // accuracy of what is computed first, and not counted [–]
const TIPS_UNCRACKED = 3; // the first entries of the peaks: no crack has a length

export function compare({name, cases, years}: Example, tell: (text: string) => void): Comparison {
  const benches = cases.map(benchOf);
  const measured = new Map<Member, Measured[]>();
  const references: Measured[] = [];
  // Case by case: discretisations that share a mesh follow one another.
  cases.forEach((one, k) => {
    tell(`${name}: ${one.study.treatments[0].name}, ${one.temperature} °C`);
    benches[k].measure(ownSizes(one.section, WARM_UP));
    references.push(benches[k].measure(reference(one.section)));
    for (const {members} of [...FAMILIES, ...CHANGES, {members: PLACES}])
      for (const member of members) {
        const found = benches[k].measure(member.of(one.section));
        measured.set(member, [...(measured.get(member) ?? []), found]);
      }
    benches[k].forget();
  });
  const rows = (families: readonly Family[]): Row[] =>
    families.flatMap(f => f.members.map(m => rowOf(f.name, m.name, measured.get(m)!, references)));
  const densest = measured.get(PLACES[PLACES.length - 1])!;
  return {
    study: name,
    reference: {ms: mean(references.map(r => r.ms)), unknowns: Math.max(...references.map(r => r.unknowns))},
    families: rows(FAMILIES),
    changes: rows(CHANGES),
    places: PLACES.map(m => rowOf("places of wheels", m.name, measured.get(m)!, densest)),
    temperatures: temperatureRows(years, tell),
  };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, v) => sum + v, 0) / values.length;
}

function largestOf(values: readonly number[]): number {
  return values.reduce((most, v) => (Math.abs(v) > Math.abs(most) ? v : most), 0);
}

function rowOf(family: string, name: string, own: readonly Measured[], references: readonly Measured[]): Row {
  const errors = own.map(({passes}, k) => passes.map((n, i) => n / references[k].passes[i] - 1));
  const tips = own.flatMap(({peak}, k) =>
    [...peak.subarray(0, TIPS_UNCRACKED)].flatMap((strain, tip) => {
      const exact = references[k].peak[tip];
      return exact > 0 ? [strain / exact - 1] : []; // no interlayer, no tip in it
    }),
  );
  return {
    family,
    name,
    ms: mean(own.map(m => m.ms)),
    life: Math.sqrt(mean(errors.map(e => e[e.length - 1] ** 2))),
    largest: largestOf(errors.flat()),
    tip: largestOf(tips),
  };
}

const YEAR_ACCURACY = 0.01; // [–]

/** The study's own temperatures: the companion solved at each of them, or at three and its correction interpolated. */
function temperatureRows(years: Example["years"], tell: (text: string) => void): Row[] {
  const solved: Measured[] = [];
  const between: Measured[] = [];
  for (const {study, cases} of years) {
    tell(`${study.name}: ${study.treatments[0].name}, the study's own ${cases.length} temperatures`);
    const benches = cases.map(benchOf);
    const {nodes, weights} = correctionNodes(cases.map(c => stiffness(c.moduli)));
    const sizes = ownSizes(cases[0].section, YEAR_ACCURACY);
    const corrections = benches.map(b => b.tables(sizes).correction!);
    const pieces = (interpolated: boolean): Piece[] =>
      cases.map((one, t) => {
        const made = benches[t].tables(sizes);
        if (!interpolated) return pieceOf(one, sizes, made);
        const correction = combine(
          weights[t],
          nodes.map(n => corrections[n]),
        );
        const ms = {...made.ms, companion: nodes.includes(t) ? made.ms.companion : 0};
        return pieceOf(one, sizes, {...made, correction, ms});
      });
    solved.push(lifeOf(study, pieces(false)));
    between.push(lifeOf(study, pieces(true)));
  }
  return [
    rowOf("temperatures", "solved at each", solved, solved),
    rowOf("temperatures", "solved at three, interpolated", between, solved),
  ];
}

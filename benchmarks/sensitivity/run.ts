/**
 * How much lives of the examples move when one input changes. Writes the tables of docs/sensitivity.md; a quarter of an hour
 * on two cores.
 *
 *   node benchmarks/sensitivity/run.ts [road | apron]
 */
import {readFileSync, writeFileSync} from "node:fs";
import {parseDocument} from "yaml";
import {computeLife} from "../../src/compute/index.ts";
import type {LifeResult, Study, TreatmentLife} from "../../src/engine/life/index.ts";
import {openLifePool} from "../../src/node/index.ts";
import {formatFaults, readStudy} from "../../src/schema/index.ts";
import {type Case, GROUPS} from "./cases.ts";

const PAGE = new URL("../../docs/sensitivity.md", import.meta.url);
const EXAMPLES = new URL("../../examples/", import.meta.url);
const markers = (file: string) => [`<!-- ${file} -->\n`, `<!-- end of ${file} -->\n`] as const;

const [only] = process.argv.slice(2);
const pool = openLifePool();
let page = readFileSync(PAGE, "utf8");
for (const file of Object.keys(GROUPS)) {
  if (only !== undefined && !file.includes(only)) continue;
  const tables = await tablesOf(file);
  const [from, to] = markers(file);
  const [above, rest] = page.split(from);
  page = `${above}${from}${tables}${to}${rest.split(to)[1]}`;
  writeFileSync(PAGE, page);
}
await pool.close();

async function tablesOf(file: string): Promise<string> {
  const base = await lives(file, {name: "as it is"});
  const names = base.treatments.slice(0, 2).map(t => t.treatment.name);
  const lines = [
    "",
    `| one change | ${names.map(n => `${n}, together`).join(" | ")} | gain | ${names.map(n => `${n}, traffic`).join(" | ")} | ${names.map(n => `${n}, temperature`).join(" | ")} |`,
    `| --- |${" --: |".repeat(7)}`,
    rowOf("**as it is, years**", base, null),
  ];
  for (const {title, cases} of GROUPS[file]) {
    lines.push(`| *${title}* |${" |".repeat(7)}`);
    for (const one of cases) {
      const found = await lives(file, one);
      lines.push(rowOf(one.name, found, base));
      console.log(lines[lines.length - 1]);
    }
  }
  return `${lines.join("\n")}\n\n`;
}

async function lives(file: string, {document: edit, study: change = study => study}: Case): Promise<LifeResult> {
  const fileOf = (name: string): string => readFileSync(new URL(name, EXAMPLES), "utf8");
  const document = parseDocument(fileOf(file));
  edit?.(document);
  const outcome = readStudy(String(document), {fileName: file, readCsv: fileOf});
  if (outcome.kind === "faults") throw new Error(formatFaults(outcome.faults));
  const study: Study = {...outcome.study, treatments: outcome.study.treatments.slice(0, 2)};
  return computeLife(change(study), {pool});
}

/** Lives in years without a base, over the base's with one. */
function rowOf(name: string, result: LifeResult, base: LifeResult | null): string {
  const [plain, treated] = result.treatments;
  const yearsOf = (t: TreatmentLife, scenario: string): number =>
    t.histories.find(h => h.scenario === scenario)!.life.years;
  const cell = (k: number, scenario: string): string => {
    const years = yearsOf(result.treatments[k], scenario);
    return base ? `×${(years / yearsOf(base.treatments[k], scenario)).toFixed(2)}` : years.toPrecision(3);
  };
  const gain = (yearsOf(treated, "together") / yearsOf(plain, "together")).toPrecision(3);
  const cells = [
    cell(0, "together"),
    cell(1, "together"),
    gain,
    ...["traffic", "thermal"].flatMap(s => [cell(0, s), cell(1, s)]),
  ];
  return `| ${name} | ${cells.join(" | ")} |`;
}

/**
 * Error in life against milliseconds of computing: elements linear and quadratic, one mesh and an extrapolated pair, and
 * everything else that accuracy decides. Writes the tables of docs/precision.md and its picture; a quarter of an hour.
 *
 *   node benchmarks/precision/run.ts [--quick]
 *
 * With --quick one study alone, its numbers on standard output and nothing written.
 */
import {readFileSync, writeFileSync} from "node:fs";
import {cpus} from "node:os";
import {tell} from "../line.ts";
import {APRON, ROAD} from "../section.ts";
import {readExample} from "./cases.ts";
import {precisionChart} from "./chart.ts";
import {compare} from "./compare.ts";
import {checkLinear} from "./linearCheck.ts";
import {MARKER, tablesPage} from "./page.ts";

const STUDIES = [ROAD, APRON];
const PAGE = new URL("../../docs/precision.md", import.meta.url);
const PICTURE = new URL("../../docs/images/precision.svg", import.meta.url);

const quick = process.argv.includes("--quick");
tell({what: "linear element", ...checkLinear()});
const comparisons = STUDIES.slice(0, quick ? 1 : undefined).map(file =>
  compare(readExample(file), text => console.error(text)),
);
for (const {study, families, changes, places, temperatures} of comparisons)
  for (const row of [...families, ...changes, ...places, ...temperatures]) tell({what: study, ...row});
if (!quick) {
  const [above] = readFileSync(PAGE, "utf8").split(MARKER);
  const machine = `${cpus()[0].model}, Node ${process.versions.node}`;
  writeFileSync(PAGE, `${above}${MARKER}\n${tablesPage(comparisons, machine)}`);
  writeFileSync(PICTURE, precisionChart(comparisons));
}

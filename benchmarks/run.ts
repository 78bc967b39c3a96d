/**
 * Measures everything that docs/benchmarks.md tells, prints its table and writes the page with its pictures.
 *
 *   npm run bench
 *   npm run bench -- --without calculix,chromium     leave parts out
 *   npm run bench -- --dry                           write nothing
 */
import {writeFileSync} from "node:fs";
import path from "node:path";
import {parseArgs} from "node:util";
import {type Line, linesOf, missing} from "./collect.ts";
import {ROOT} from "./compiled.ts";
import {documentOf, terminalTable} from "./document.ts";
import {browserGroup} from "./figures/browser.ts";
import {calculixGroup} from "./figures/calculix.ts";
import {climateGroup} from "./figures/climate.ts";
import {eliminationGroup} from "./figures/elimination.ts";
import type {Group} from "./figures/group.ts";
import {growthGroup} from "./figures/growth.ts";
import {laboratoryGroup} from "./figures/laboratory.ts";
import {lifeGroup} from "./figures/life.ts";
import {responseGroup} from "./figures/response.ts";
import type {GrowthLine} from "./growth/line.ts";
import {machineRows} from "./machine.ts";

/** In the order in which they run: what is held against each other stands together. */
const PARTS = {
  openblas: {program: "openblas/run.ts", needs: "openblas", about: "three minutes"},
  response: {program: "response/run.ts", needs: null, about: "a minute"},
  chromium: {program: "browser/run.ts", needs: "chromium", about: "three minutes"},
  life: {program: "life/run.ts", needs: null, about: "three minutes"},
  calculix: {program: "calculix/run.ts", needs: "calculix", about: "two minutes"},
  laboratory: {program: "laboratory/run.ts", needs: null, about: "two minutes"},
  climate: {program: "climate/run.ts", needs: null, about: "half a minute"},
  growth: {program: "growth/run.ts", needs: null, about: "a minute"},
} as const;

type PartName = keyof typeof PARTS;
const NAMES = Object.keys(PARTS) as PartName[];
const OPTIONAL: readonly string[] = NAMES.filter(name => name !== "response"); // all others are held against it

const {values: options} = parseArgs({
  options: {without: {type: "string", default: ""}, dry: {type: "boolean", default: false}},
});
const without = options.without.split(",").filter(name => name !== "");
const unknown = without.find(name => !OPTIONAL.includes(name));
if (unknown !== undefined) throw new Error(`--without: got ${unknown}, need some of ${OPTIONAL.join(",")}`);

const leftOut: string[] = [];
const measured = Object.fromEntries(NAMES.map(name => [name, measure(name)])) as Record<PartName, Line[]>;
const {openblas, response, chromium, life, calculix, laboratory, climate, growth} = measured;
const groups: Group[] = [eliminationGroup(openblas, response), responseGroup(openblas, response)];
if (life.length > 0) groups.push(lifeGroup(life));
if (calculix.length > 0) groups.push(calculixGroup(calculix, response, life));
if (chromium.length > 0) groups.push(browserGroup(chromium, response));
if (laboratory.length > 0) groups.push(laboratoryGroup(laboratory));
if (climate.length > 0) groups.push(climateGroup(climate));
if (growth.length > 0) groups.push(growthGroup(growth as unknown as GrowthLine[]));

const benchmarks = {machine: machineRows(Object.values(measured).flat()), groups, leftOut};
console.log(`\n${terminalTable(benchmarks)}`);
if (!options.dry) {
  writeFileSync(path.join(ROOT, "docs", "benchmarks.md"), documentOf(benchmarks));
  for (const {name, svg} of groups.flatMap(g => g.pictures))
    writeFileSync(path.join(ROOT, "docs", "images", name), svg);
}

/** @returns no lines when the part is not wanted or what it needs is missing */
function measure(name: PartName): Line[] {
  const {program, needs, about} = PARTS[name];
  const absent = without.includes(name) ? `${name}, as asked for` : needs && missing(needs);
  if (absent) {
    console.error(`Left out: ${absent}.`);
    leftOut.push(absent);
    return [];
  }
  if (name === "life" && missing("time")) leftOut.push(missing("time")!);
  console.error(`${program}: about ${about} …`);
  return linesOf(program);
}

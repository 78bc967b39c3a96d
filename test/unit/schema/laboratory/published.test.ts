import {readFileSync} from "node:fs";
import {expect, test} from "vitest";
import {beamRoles, readingRoles} from "../../../../src/schema/laboratory/beam-roles.ts";
import {fatigueRoles} from "../../../../src/schema/laboratory/fatigue-roles.ts";
import {historyRoles} from "../../../../src/schema/laboratory/history-roles.ts";
import {readBeamTables, readFatigueTable} from "../../../../src/schema/laboratory/index.ts";
import {type Catalogue, quantityOf, type Role} from "../../../../src/schema/laboratory/roles.ts";
import {fromSi, type Quantity, units} from "../../../../src/schema/laboratory/units.ts";
import {crackWords, flagWords} from "../../../../src/schema/laboratory/words.ts";
import {csvFile} from "./tables.ts";

const page = readFileSync(new URL("../../../../docs/laboratory-files.md", import.meta.url), "utf8");
const marker = "<!-- From here on written by test/unit/schema/laboratory/published.test.ts; vitest -u renews it. -->";

const cell = (text: string): string => text.replaceAll("|", "\\|");
const need = {always: "yes", "see text": "see above", no: ""} as const;
const short = (value: number): string => String(Number(value.toPrecision(4)));

function valuesOf({content}: Role): string {
  if (content.kind === "flag") return "yes or no";
  if (content.kind === "date") return "date";
  if (content.kind === "crack") return "length or word";
  if (content.kind === "text") return "text";
  const unit = units[content.quantity][0];
  const [least, most] = content.range.map(limit => short(fromSi(limit, unit)));
  return `${content.whole ? "whole, " : ""}${least} to ${most}${unit.shown === "–" ? "" : ` ${unit.shown}`}`;
}

function columns(roles: Catalogue<string>): string {
  const rows = roles.map(role => {
    const others = [...role.synonyms, ...(role.symbols ?? []).map(symbol => `**${symbol}**`)];
    return [`**${role.label}**`, need[role.needed], valuesOf(role), role.meaning, others.join(", ")]
      .map(cell)
      .join(" | ");
  });
  return `| Column | Needed | Values | Meaning | Also called |\n| --- | --- | --- | --- | --- |\n${rows.map(row => `| ${row} |`).join("\n")}`;
}

const titles: Readonly<Record<Quantity, string>> = {
  length: "Lengths",
  strain: "Strains",
  temperature: "Temperatures",
  frequency: "Frequencies",
  modulus: "Moduli",
  angle: "Angles",
  force: "Forces",
  speed: "Speeds",
  foundation: "Foundation stiffness",
  count: "Counts",
  ratio: "Ratios",
};

function unitTable(): string {
  const rows = (Object.keys(units) as Quantity[]).map(quantity => {
    const names = units[quantity].map(
      ({shown, names}) => `**${shown}**${names.length > 0 ? ` (${names.join(", ")})` : ""}`,
    );
    return `| ${titles[quantity]} | ${cell(names.join("; "))} |`;
  });
  return `| Quantity | Units |\n| --- | --- |\n${rows.join("\n")}`;
}

function wordTable(): string {
  const all = {...flagWords, ...crackWords};
  const titles = {
    yes: "yes",
    no: "no",
    "not visible": "not visible",
    through: "through",
    stopped: "test stopped",
  } as const;
  const rows = (Object.keys(titles) as (keyof typeof titles)[]).map(
    key => `| ${titles[key]} | ${cell(all[key].join(", "))} |`,
  );
  return `| Meaning | Words |\n| --- | --- |\n${rows.join("\n")}`;
}

test("the tables of docs/laboratory-files.md are current", async () => {
  const [written] = page.split(marker);
  const text = `${written}${marker}

## Columns of fatigue specimens

${columns(fatigueRoles)}

## Columns of histories

${columns(historyRoles)}

## Columns of beams

${columns(beamRoles)}

## Columns of readings

${columns(readingRoles)}

## Units

${unitTable()}

## Words in cells

${wordTable()}
`;
  await expect(text).toMatchFileSnapshot("../../../../docs/laboratory-files.md");
});

test("every column that needs one has a quantity whose units are in the table", () => {
  for (const role of [...fatigueRoles, ...historyRoles, ...beamRoles, ...readingRoles]) {
    const quantity = quantityOf(role);
    if (quantity !== null) expect(page).toContain(`| ${titles[quantity]} |`);
  }
});

test("the examples of docs/laboratory-files.md are read without a fault", () => {
  const [fatigue, beams, readings] = [...page.matchAll(/```csv\n([\s\S]*?)```/g)].map(([, text]) => text);
  const programme = readFatigueTable(csvFile(fatigue), "example");
  expect([programme.faults, programme.warnings, programme.refused]).toEqual([[], [], []]);
  expect(programme.programme.specimens.map(({runOut}) => runOut)).toEqual([false, false, true]);
  const outcome = readBeamTables([csvFile(beams, "beams.csv"), csvFile(readings, "readings.csv")]);
  expect([outcome.faults, outcome.warnings, outcome.refused]).toEqual([[], [], []]);
  expect(outcome.beams[0].readings).toHaveLength(4);
});

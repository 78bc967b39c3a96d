/** The tables of docs/precision.md. */
import type {Comparison, Row} from "./compare.ts";
import {PAIR} from "./families.ts";

/** What stands above it is written by hand. */
export const MARKER = "<!-- From here on written by benchmarks/precision/run.ts. -->\n";

/** @param machine processor and version of Node */
export function tablesPage(comparisons: readonly Comparison[], machine: string): string {
  const section = (title: string, what: string, rows: (c: Comparison) => readonly Row[]): string =>
    `## ${title}\n\n${what}\n\n${table(comparisons, rows)}\n`;
  const sizes = comparisons.map(
    c => `${c.study} ${c.reference.unknowns.toLocaleString("en")} unknowns, ${(c.reference.ms / 1e3).toFixed(0)} s`,
  );
  return [
    `## Tables

\`npm run precision\` on ${machine}, one thread. Each cell: milliseconds; root mean square of the error in life over both
treatments and both temperatures; the largest error of any of them at 25, 50, 75 % of the overlay's depth and at the end;
the largest error of the tip strain of any front before there is a crack. Reference, on average: ${sizes.join("; ")}.
`,
    section(
      "Families",
      `Names give the accuracy whose sizes are taken; ${PAIR.replace(" (the product)", "")} is what the product does.`,
      c => c.families,
    ),
    section("One thing changed at a time", "From accuracy 1 %; what it has in brackets.", c => c.changes),
    section(
      "Places of wheels",
      "At accuracy 1 %, against the last line: steps of the wheel's positions along the pass and of the offsets across the " +
        "lane, which accuracy does not rule.",
      c => c.places,
    ),
    section(
      "Temperatures",
      "The study's own bins at accuracy 1 %, all of them together, against the first line: the companion's correction solved " +
        "at each temperature, or at three and interpolated.",
      c => c.temperatures,
    ),
  ].join("\n");
}

function table(comparisons: readonly Comparison[], rowsOf: (c: Comparison) => readonly Row[]): string {
  const titles = comparisons.flatMap(c => [`${c.study}: ms`, "life", "largest", "tip"]);
  const lines = rowsOf(comparisons[0]).map((row, k) => {
    const cells = comparisons.flatMap(c => {
      const {ms, life, largest, tip} = rowsOf(c)[k];
      return [ms.toFixed(0), percent(life), signed(largest), signed(tip)];
    });
    return `| ${row.family} | ${row.name} | ${cells.join(" | ")} |`;
  });
  const rule = ["---", "---", ...titles.map(() => "--:")];
  return [`| | | ${titles.join(" | ")} |`, `| ${rule.join(" | ")} |`, ...lines].join("\n");
}

function percent(part: number): string {
  return `${(100 * part).toFixed(2)} %`;
}

function signed(part: number): string {
  return `${part < 0 ? "−" : "+"}${percent(Math.abs(part))}`;
}

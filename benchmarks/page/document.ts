/** The page docs/page-start.md. */
import type {Start} from "./visit.ts";

export interface Starts {
  readonly machine: readonly (readonly [what: string, which: string])[];
  readonly slower: number; // times, main thread of the page
  readonly runs: number;
  readonly first: Start; // medians
  readonly again: Start;
}

export function startPage({machine, slower, runs, first, again}: Starts): string {
  const seconds = (ms: number): string => `${(ms / 1e3).toFixed(2)} s`;
  const row = (what: string, of: (start: Start) => string): string => `| ${what} | ${of(first)} | ${of(again)} |`;
  return `# How fast the page starts

Written by \`node benchmarks/page/run.ts\`. The built page, given out by its own server on the same machine, in Chromium
with the main thread of the page slowed down ${slower} times, which stands for a laptop of the middle; its computing threads
run at full speed. Medians of ${runs} visits, each with a new profile, and of ${runs} visits after those.

| | first visit | again |
| --- | --: | --: |
${row("first content", s => seconds(s.painted))}
${row("section drawn", s => seconds(s.drawn))}
${row("ready for use", s => seconds(s.interactive))}
${row("tasks over 50 ms until then, together", s => seconds(s.busy))}
${row("from pressing “Open” to the dialog", s => seconds(s.dialog))}
${row("first answer: lives of the example road", s => seconds(s.answer))}
${row("sent until ready", s => `${s.kilobytes.toFixed(0)} kB`)}
${row("sent until the answer", s => `${s.allKilobytes.toFixed(0)} kB`)}

Ready for use: the section is drawn, and for half a second from then on no task takes more than 50 ms. Sent: bodies of
answers as they went over the line, packed. The first answer takes the time to compute it: two treatments of the road, at
every temperature of a year. Other work on the machine lengthens all times: read them with the load below.

| machine | |
| --- | --- |
${machine.map(([what, which]) => `| ${what} | ${which} |`).join("\n")}
`;
}

import path from "node:path";
import {expect, test} from "vitest";

/**
 * How well a value is known: `read` in the source named, `derived` from first principles by an independent
 * computation, `memory` recalled and not seen (then for plausibility), `practice` a fact of the trade without a source.
 */
export type Standing = "read" | "derived" | "memory" | "practice";

export interface Comparison {
  readonly name: string; // the case, in a few words
  readonly source: string; // where the expected value comes from
  readonly standing: Standing;
  readonly unit: string; // "–" when there is none
  readonly expected: number;
  readonly computed: number;
  /** Largest accepted |computed − expected|, relative to |expected| unless `absolute`. */
  readonly tolerance: number;
  readonly absolute?: boolean;
}

export type Compare = (c: Comparison) => void;

/**
 * Collects comparisons, asserts each, and at the end holds the page made of them against the committed one in
 * docs/verification (`npx vitest run -u` writes it anew). Call `page()` after the last test of the file.
 */
export function verificationTable(file: string, title: string, introduction: string) {
  const rows: string[] = [];
  return {
    compare(c: Comparison): void {
      const difference = c.computed - c.expected;
      const error = c.absolute ? Math.abs(difference) : Math.abs(difference / c.expected);
      // Rounding differs from machine to machine: a difference far below what is allowed is shown as none.
      const told = error < 1e-3 * c.tolerance ? 0 : difference;
      const shown = c.absolute ? format(told, 2) : `${format((100 * told) / c.expected, 2)} %`;
      const allowed = c.absolute ? format(c.tolerance, 2) : `${format(100 * c.tolerance, 2)} %`;
      const cells = [
        c.name,
        c.source,
        c.standing,
        c.unit,
        format(c.expected, 6),
        format(c.computed, 5),
        shown,
        allowed,
      ];
      rows.push(`| ${cells.map(cell => cell.replaceAll("|", "\\|")).join(" | ")} |`);
      expect(error, `${c.name}: expected ${c.expected}, computed ${c.computed}`).toBeLessThanOrEqual(c.tolerance);
    },
    /** A loose bound: what is known is only that the value lies between two others. */
    between(
      c: Omit<Comparison, "expected" | "tolerance" | "absolute"> & {readonly low: number; readonly high: number},
    ): void {
      const range = Number.isFinite(c.high) ? `${format(c.low, 6)} to ${format(c.high, 6)}` : `> ${format(c.low, 6)}`;
      const cells = [c.name, c.source, c.standing, c.unit, range, format(c.computed, 3), "–", "–"];
      rows.push(`| ${cells.map(cell => cell.replaceAll("|", "\\|")).join(" | ")} |`);
      expect(c.computed, `${c.name}: expected ${range}`).toBeGreaterThanOrEqual(c.low);
      expect(c.computed, `${c.name}: expected ${range}`).toBeLessThanOrEqual(c.high);
    },
    /** A comparison without pass or fail: how far the relation it is held against can be trusted is not known. */
    show(c: Omit<Comparison, "tolerance" | "absolute">): void {
      const cells = [c.name, c.source, c.standing, c.unit, format(c.expected, 3), format(c.computed, 3)];
      const difference = Math.round(10 * (c.computed - c.expected)) / 10;
      rows.push(`| ${[...cells, format(difference, 2), "–"].map(cell => cell.replaceAll("|", "\\|")).join(" | ")} |`);
    },
    /** A paragraph after a table. */
    remark(text: string): void {
      rows.push("", text);
    },
    /** Free text between rows: a convergence study, a remark on the theories compared. */
    heading(text: string): void {
      rows.push("", `### ${text}`, "", HEAD);
    },
    page(): void {
      test(`docs/verification/${file}.md is what these tests computed`, async () => {
        const lines = ["<!-- Written by the verification tests; do not edit. -->", `# ${title}`, "", introduction, ""];
        if (!rows[0]?.startsWith("\n") && rows[0] !== "") lines.push(HEAD);
        const target = path.resolve(import.meta.dirname, "../docs/verification", `${file}.md`);
        await expect(`${[...lines, ...rows].join("\n")}\n`).toMatchFileSnapshot(target);
      });
    },
  };
}

const HEAD = [
  "| case | source | standing | unit | expected | computed | difference | allowed |",
  "| --- | --- | --- | --- | ---: | ---: | ---: | ---: |",
].join("\n");

/** Few enough digits that another machine prints the same. */
function format(x: number, digits: number): string {
  if (!Number.isFinite(x)) return String(x);
  if (x === 0) return "0";
  const size = Math.abs(x);
  if (size < 1e-12) return "0";
  return size >= 1e5 || size < 1e-3 ? x.toExponential(digits - 1) : Number(x.toPrecision(digits)).toString();
}

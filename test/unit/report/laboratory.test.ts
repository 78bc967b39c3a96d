/** Reports and terminal tables of laboratory programmes. */
import {parseHTML} from "linkedom";
import {describe, expect, test} from "vitest";
import {calibrate, fatigueResult} from "../../../src/engine/laboratory/index.ts";
import {beamsReport, beamsTable, type ChartDocument, fatigueReport, fatigueTable} from "../../../src/report/index.ts";
import {specimen} from "../../../verification/laboratory/programmes.ts";
import {smallRequest} from "../laboratory/smallProgramme.ts";

const context = {
  document: parseHTML("<html><body></body></html>").document as unknown as ChartDocument,
  software: "0.1.0",
  inputHash: "3f9c1b7e22d0",
  date: "14 March 2025",
  sources: {"tables.csv": "a <b>text</b>"},
  warnings: ["a warning of the reader"],
};

/** Two materials at equal strains, one specimen a run-out and one set aside. */
const fatigue = fatigueResult(
  {
    name: "Bending <b>tests</b>",
    specimens: ["coarse <b>", "fine"].flatMap((material, m) =>
      [9e-5, 1.1e-4, 1.4e-4].flatMap(strain =>
        [-0.1, 0.02, 0.08].map((departure, i) =>
          specimen(`<i>${m}-${strain}-${i}`, strain, (1 + m) * 1e6 * (1e-4 / strain) ** 5 * 10 ** departure, {
            material,
            runOut: strain === 9e-5 && i === 2,
            setAside: m === 1 && strain === 1.4e-4 && i === 0 ? "clamp <u>slipped</u>" : null,
          }),
        ),
      ),
    ),
  },
  0.9,
);

const calibration = calibrate(
  smallRequest(t => ({...t, name: `<b>${t.name}`, overlay: {...t.overlay, material: "dense <i>"}})),
);

type Page = ReturnType<typeof parseHTML>["document"];

/** Nothing of a name is markup, nothing is loaded or runs. */
function inert(text: string): Page {
  const page = parseHTML(text).document;
  expect(page.querySelectorAll("script, link, img, iframe, object, embed, [src], [href]").length).toBe(0);
  expect(text).not.toMatch(/<b>(tests|text|D\d)|<i>(0-|1-)|dense <i>|<u>/);
  return page;
}

const rowsOf = (page: Page, caption: string): string[] => {
  const tables = [...page.querySelectorAll("table")];
  const table = tables.find(t => t.querySelector("caption")?.textContent?.includes(caption));
  return [...(table?.querySelectorAll("tbody tr") ?? [])].map(row => row.textContent ?? "");
};

describe("bending tests", () => {
  const text = fatigueReport(fatigue, context);
  const page = inert(text);

  test("title, answer, caution and findings", () => {
    expect(page.querySelector("title")?.textContent).toBe("Bending <b>tests</b>: fatigue lines");
    expect(page.querySelector(".headline")?.textContent).toContain("Strain for a million cycles, ε₆: coarse <b> ");
    expect(page.querySelector(".caution")?.textContent).toContain("qualified pavement engineer");
    expect(text).toContain("a warning of the reader");
  });

  test("a row for each material and for each specimen", () => {
    expect(rowsOf(page, "N = 10⁶")).toHaveLength(2);
    expect(rowsOf(page, "coarse <b>")).toHaveLength(9);
    const fine = rowsOf(page, "fine");
    expect(fine).toHaveLength(9);
    expect(fine.filter(r => r.includes("set aside: clamp <u>slipped</u>"))).toHaveLength(1);
    expect(fine.filter(r => r.includes("> "))).toHaveLength(1); // the run-out
    expect(page.querySelectorAll("svg").length).toBeGreaterThan(1);
  });
});

describe("beams", () => {
  const text = beamsReport("Beams <b>here</b>", calibration, fatigue, context);
  const page = inert(text);

  test("title, answer, caution and warnings", () => {
    expect(page.querySelector("title")?.textContent).toBe("Beams <b>here</b>: crack growth laws");
    expect(page.querySelector(".headline")?.textContent).toContain("from 4 beams: dense <i> n = ");
    expect(page.querySelector(".caution")?.textContent).toContain("A and n belong together");
    expect(text).toContain("Set aside by hand: &lt;b&gt;slipped (the clamp slipped).");
  });

  test("a row for each law, for each beam and its prediction, for each choice", () => {
    expect(rowsOf(page, "dc/dN")).toHaveLength(1);
    expect(rowsOf(page, "Passes to breaking")).toHaveLength(4);
    expect(rowsOf(page, "Beams as they were computed")).toHaveLength(5);
    expect(rowsOf(page, "Fall of ln likelihood")).toHaveLength(2);
    expect(rowsOf(page, "N = 10⁶")).toHaveLength(2); // its bending tests
  });
});

describe("terminal", () => {
  const tables = (width: number, colour = false): string[] => [
    fatigueTable(fatigue, {colour, width}),
    beamsTable("Beams", calibration, {colour, width}),
  ];

  test("tables within their width, texts wrapped", () => {
    for (const width of [60, 80, 100, 200])
      for (const text of tables(width))
        for (const line of text.split("\n")) expect(line.length, line).toBeLessThanOrEqual(Math.min(width, 110));
  });

  test("the numbers are there, the caution last, no colour codes when off", () => {
    const [bending, beams] = tables(100);
    expect(bending).toContain("ε₆ µε");
    expect(bending).toMatch(/fine .* 8 \(1 run-out\)/);
    expect(beams).toMatch(/<b>D30 plain 4 .* (yes|no|–) /);
    expect(beams.trimEnd()).toMatch(/qualified pavement engineer\.$/);
    for (const text of tables(100)) expect(text).not.toContain("\u001b");
    for (const text of tables(100, true)) expect(text).toContain("\u001b[1m");
  });

  test("a name cannot send control codes", () => {
    expect(beamsTable("a\u001b[2Jb", calibration, {colour: false, width: 100})).not.toContain("\u001b");
  });
});

/** What takes the page minutes is the command line's too: samples and maps. Expected are the reports of the other program. */
import {mkdtempSync, readFileSync, rmSync, writeFileSync} from "node:fs";
import {tmpdir} from "node:os";
import path from "node:path";
import {expect, onTestFinished, test} from "vitest";
import {openStudy, solved, stage, toView} from "./harness.ts";
import {smallFiles} from "./smallStudy.ts";
import {button, commandLine, differences, downloaded, write} from "./steps.ts";
import {TWO} from "./studies.ts";

const {open} = stage();

interface Computation {
  readonly files: ReturnType<typeof smallFiles>; // the study first
  readonly words: readonly string[]; // of the command line, around the study
  readonly view: string;
  readonly start: string; // the button
}

const COMPUTATIONS: readonly Computation[] = [
  {files: smallFiles(), words: ["risk"], view: "How sure", start: "Draw samples"},
  {
    files: [{name: "two.yaml", text: TWO}],
    words: ["chart", "--x", "section.layers.overlay.thickness_mm=70:90", "--y", "traffic=0.25:4"],
    view: "Where it pays",
    start: "Draw the map",
  },
];

test.each(COMPUTATIONS)(
  "$view: the report is the command line's",
  async ({files, words, view, start}) => {
    const folder = mkdtempSync(path.join(tmpdir(), "seamwright-surveys-"));
    onTestFinished(() => rmSync(folder, {recursive: true}));
    for (const {name, text} of files) writeFileSync(path.join(folder, name), text);
    const report = path.join(folder, "report.html");
    await commandLine([...words, path.join(folder, files[0].name), "--report", report]);
    const page = await open();
    await openStudy(page, files);
    await page.getByRole("heading", {level: 1, name: /^name: (.*)$/m.exec(files[0].text)![1]}).waitFor();
    await solved(page);
    await toView(page, view);
    if (view === "Where it pays") {
      // So narrow that few points have to be computed.
      const across = page.getByRole("group", {name: "Across"});
      await write(across.getByLabel("from"), "70");
      await write(across.getByLabel("to", {exact: true}), "90");
    }
    await button(page, start).click();
    await button(page, "Stop").waitFor();
    await button(page, start).waitFor({timeout: 240_000});
    const {bytes} = await downloaded(page, () => button(page, "Download the report").click());
    expect(differences(bytes.toString("utf8"), readFileSync(report, "utf8"))).toEqual([]);
    await page.context().close();
  },
  400_000,
);

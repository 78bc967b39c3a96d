import {spawn} from "node:child_process";
import {existsSync, readFileSync, writeFileSync} from "node:fs";
import {beforeAll, describe, expect, test} from "vitest";
import {testFolder} from "../folder.ts";
import {root, seamwright} from "./run.ts";
import {tinyText} from "./tinyStudy.ts";

const at = testFolder("file");
const study = () => at("tiny.yaml");
beforeAll(() => writeFileSync(study(), tinyText));

const THICKNESS = "section.layers.overlay.thickness_mm";
const chart = (...args: readonly string[]) => seamwright(["chart", study(), "--accuracy", "5", ...args]);

describe("chart", () => {
  const axes = ["--x", `${THICKNESS}=50:90:3`, "--y", "traffic=0.5:2:3"] as const;

  test("draws a map coarse first, keeps its points, and goes on from them with the same result", async () => {
    const [run, report, csv] = [at("a.run"), at("a.html"), at("a.csv")];
    const child = spawn(
      process.execPath,
      ["src/cli/main.ts", "chart", study(), "--accuracy", "5", ...axes, "--run", run],
      {
        cwd: root,
        stdio: ["ignore", "ignore", "pipe"],
      },
    );
    let said = "";
    child.stderr.on("data", chunk => {
      said += chunk;
    });
    const ended = new Promise(resolve => child.on("exit", resolve));
    while (!existsSync(run) || readFileSync(run, "utf8").split("\n").length < 4)
      await new Promise(r => setTimeout(r, 50));
    child.kill("SIGINT");
    expect(await ended).toBe(130);
    expect(said).toMatch(/Interrupted; \d+ finished points are in \S+: the same command goes on from there/);

    const went = chart(...axes, "--run", run, "--report", report, "--csv", csv, "--json");
    expect(went.code).toBe(0);
    expect(went.err).toContain("A picture from 4 points is in");
    const resumed = JSON.parse(went.out);
    expect(resumed.points.length).toBe(9);
    expect(resumed.computed).toBe(9);
    expect(readFileSync(report, "utf8")).toContain("as in the study");
    expect(readFileSync(csv, "utf8").split("\r\n").length).toBe(11);

    // One load and no temperature: the passes to the end are the same whatever their number a year. Growing by g a year, they
    // are p·((1 + g)^t − 1)/ln(1 + g) after t years.
    // Beyond the analysis period of 20 years they stay as they are.
    const grown = (years: number): number => (1.02 ** years - 1) / Math.log(1.02);
    const passes = (years: number): number => grown(Math.min(years, 20)) + Math.max(0, years - 20) * 1.02 ** 20;
    const lives: number[] = resumed.points.map(
      (p: {judgement: {treated: {years: number}}}) => p.judgement.treated.years,
    );
    for (const column of [0, 1, 2]) {
      const [few, more, most] = [0, 1, 2].map(row => lives[3 * row + column]);
      expect((1.25 * passes(more)) / (0.5 * passes(few)) - 1).toBeCloseTo(0, 2);
      expect((2 * passes(most)) / (0.5 * passes(few)) - 1).toBeCloseTo(0, 2);
    }
    expect(lives[7]).toBeGreaterThan(lives[6]); // thicker

    const known = chart(...axes, "--run", run, "--json"); // from the file alone
    expect(JSON.parse(known.out)).toEqual(resumed);
  }, 240_000);

  test("a run file of other settings is refused with the difference", () => {
    const {code, err} = seamwright(["chart", study(), "--accuracy", "4", ...axes, "--run", at("a.run")]);
    expect(code).toBe(2);
    expect(err).toContain("accuracy in % was 5 and is 4");
  });

  test("faults of the options are told at once, before anything is computed", () => {
    const {code, out, err} = chart(
      "--x",
      "section.layers.overlay.thicknes_mm=40:90",
      "--y",
      "trafic=1:2",
      "--treatment",
      "none",
    );
    expect(code).toBe(2);
    expect(out).toBe("");
    expect(err).toContain("has no thicknes_mm; it has name, role, material, thickness_mm");
    expect(err).toContain("did you mean thickness_mm?");
    expect(err).toContain("did you mean traffic?");
    expect(err).toContain(
      "--treatment none: the study has no such treatment beside the control\n  accepted: with interlayer",
    );
    for (const [axis, told] of [
      ["traffic=1", "accepted: PATH=FROM:TO"],
      ["traffic=one:2", '"one" is not a number'],
      ["traffic=2:1", "it does not go up, from 2 to 1"],
      ["traffic=1:2:1.5", "1.5 points"],
      ["traffic", "there is no ="],
      ["section.joint=1:2", "section.joint is a map with"],
      ["temperature=1:2", "the study has no temperature record to add to"],
    ])
      expect(chart("--x", `${THICKNESS}=40:90`, "--y", axis).err).toContain(told);
  }, 60_000);

  test("ranges that leave a field's limits are told before anything is computed", () => {
    const {code, err} = chart("--x", `${THICKNESS}=5:90:3`, "--y", "traffic=1:2:2");
    expect(code).toBe(2);
    expect(err).toContain(
      `The study cannot be computed at ${THICKNESS} = 5, traffic = 1; 2 of the 6 points have faults:`,
    );
    expect(err).toContain("within the overlay but is thicker than it");
  });
});

describe("search", () => {
  const search = (...args: readonly string[]) => seamwright(["search", study(), "--accuracy", "5", ...args]);
  const range = ["--from", "50", "--to", "80", "--step", "10", "--run"] as const;

  test("at a reliability takes the life that so many samples outlive; the best estimate without", () => {
    const uncertain = at("uncertain.yaml");
    writeFileSync(
      uncertain,
      `${tinyText}uncertainty:\n  most_samples: 2048\n  inputs: [{scale: passes, lognormal: {cv_percent: 30}}]\n`,
    );
    const ask = (...args: readonly string[]) => {
      const ran = seamwright([
        "search",
        uncertain,
        "--accuracy",
        "5",
        "--target",
        "0.01",
        "--from",
        "50",
        "--to",
        "50",
        "--json",
        ...args,
      ]);
      expect(ran.code, ran.err).toBe(0);
      return JSON.parse(ran.out);
    };
    const best: number[] = ask().treatments.map((t: {lives: {years: number}[]}) => t.lives[0].years);
    const sure = ask("--reliability", "85");
    expect(sure.sampling.reliability).toBe(0.85);
    // 85 % of the samples have fewer passes than e^(1.0364·s), s² = ln(1 + 0.3²): tables. One load and no temperature: the
    // passes to the end are the same.
    const factor = Math.exp(1.036433 * Math.sqrt(Math.log(1 + 0.3 ** 2)));
    const passes = (years: number): number =>
      (1.02 ** Math.min(years, 20) - 1) / Math.log(1.02) + Math.max(0, years - 20) * 1.02 ** 20;
    best.forEach((years, k) => {
      const reached: number = sure.treatments[k].lives[0].years;
      expect((factor * passes(reached)) / passes(years) - 1).toBeCloseTo(0, 2);
    });
  }, 60_000);

  test("finds the least thickness, which the next thinner misses; says when there is none, or the thinnest does", () => {
    const run = at("s.run");
    const ask = (target: number) =>
      JSON.parse(search("--target", String(target), ...range, run, "--json").out).treatments;
    const easy = ask(0.01);
    expect(easy.map((t: {least_mm: number}) => t.least_mm)).toEqual([50, 50]);
    const lives: {thickness_mm: number; years: number}[] = easy[0].lives;
    expect(lives.map(l => l.thickness_mm)).toEqual([50, 60, 70, 80]);
    const between = Math.sqrt(lives[1].years * lives[2].years);
    expect(ask(between)[0].least_mm).toBe(70);
    expect(ask(100).map((t: {least_mm: unknown}) => t.least_mm)).toEqual([null, null]);
    const {out} = search("--target", "100", ...range, run, "--report", at("s.html"), "--csv", at("s.csv"));
    expect(out).toContain("none reaches it: the longest life has 80 mm, where reflective cracking by traffic governs");
    expect(readFileSync(at("s.html"), "utf8")).toContain("<svg");
    expect(readFileSync(at("s.csv"), "utf8").split("\r\n").length).toBe(10);
  }, 240_000);

  test("faults of the options are told at once", () => {
    const {code, err} = search("--target", "10", "--layer", "top", "--from", "90", "--to", "50", "--treatment", "none");
    expect(code).toBe(2);
    expect(err).toContain("--layer top: the section has no such layer\n  accepted: overlay, base, ground");
    expect(err).toContain("the thickest is thinner than the thinnest");
    expect(err).toContain("--treatment none: the study has none of that name");
  });
});

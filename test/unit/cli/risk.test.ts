import {spawn} from "node:child_process";
import {existsSync, readFileSync, writeFileSync} from "node:fs";
import {beforeAll, describe, expect, test} from "vitest";
import {testFolder} from "../folder.ts";
import {root, seamwright} from "./run.ts";
import {tinyText} from "./tinyStudy.ts";

const at = testFolder("file");
const light = `${tinyText}numerical: {accuracy_percent: 5}
uncertainty:
  most_samples: 512
  standard_error_percent: 0.1
  inputs:
    - {scale: passes, lognormal: {cv_percent: 30}}
    - {law: asphalt, ln_A_deviation: 0.4, n_deviation: 0.1, correlation: -0.8}
`;
const solved = `${tinyText}numerical: {accuracy_percent: 5}
uncertainty:
  most_samples: 64
  most_solutions: 16
  inputs:
    - {field: section.layers.overlay.thickness_mm, uniform: {low: -20, high: 110}}
`;
beforeAll(() => {
  writeFileSync(at("light.yaml"), light);
  writeFileSync(at("solved.yaml"), solved);
});

describe("risk", () => {
  test("lives at reliabilities in order, ratio and what they depend on; a row a sample and treatment as CSV", () => {
    const ran = seamwright([
      "risk",
      at("light.yaml"),
      "--csv",
      at("light.csv"),
      "--report",
      at("light.html"),
      "--json",
    ]);
    expect(ran.code, ran.err).toBe(0);
    expect(ran.err).toContain("A picture from 256 samples is in");
    const {treatments, samples, swings, indices} = JSON.parse(ran.out);
    for (const {reliabilities} of treatments) {
      const lives = reliabilities.map((r: {life: {low: number}}) => r.life.low);
      expect(lives).toEqual([...lives].sort((a, b) => b - a));
    }
    expect(treatments[0].ratio).toBeNull();
    expect(swings.map((s: {name: string}) => s.name)).toEqual(["number of passes", "law of asphalt"]);
    const alone = indices.lives[0].groups.reduce((sum: number, g: {first: number}) => sum + g.first, 0);
    expect(alone).toBeGreaterThan(0.9); // ln life is nearly a sum of both
    const rows = readFileSync(at("light.csv"), "utf8").trim().split("\r\n");
    expect(rows).toHaveLength(1 + 2 * samples.length);
    expect(readFileSync(at("light.html"), "utf8")).toContain("How sure the lives of an overlay are");
  });

  test("killed in the middle it goes on from what it had, with the same numbers, whatever the threads; impossible samples are counted", async () => {
    const whole = seamwright(["risk", at("solved.yaml"), "--json", "--workers", "2", "--report", at("solved.html")]);
    expect(whole.code, whole.err).toBe(0);
    expect(readFileSync(at("solved.html"), "utf8")).toContain("What the answer depends on");
    const run = at("solved.run");
    const child = spawn(
      process.execPath,
      ["src/cli/main.ts", "risk", at("solved.yaml"), "--run", run, "--workers", "1"],
      {
        cwd: root,
        stdio: "ignore",
      },
    );
    const ended = new Promise(resolve => child.on("exit", resolve));
    while (!existsSync(run) || readFileSync(run, "utf8").split("\n").length < 4)
      await new Promise(r => setTimeout(r, 50));
    child.kill("SIGKILL");
    await ended;
    const before = readFileSync(run, "utf8").split("\n").length;
    const resumed = seamwright(["risk", at("solved.yaml"), "--json", "--run", run, "--workers", "1"]);
    expect(resumed.code, resumed.err).toBe(0);
    expect(resumed.out).toBe(whole.out);
    expect(before).toBeGreaterThanOrEqual(3);
    const {solutions, refused, samples} = JSON.parse(whole.out);
    expect(solutions).toBe(samples.length); // solved ones
    expect(samples.length + refused.count).toBe(16);
    expect(refused.first).toMatch(/thickness_mm/); // samples that are no possible study are left out and counted
    expect(refused.count).toBeGreaterThan(0);

    writeFileSync(at("solved.yaml"), solved.replace("high: 110", "high: 100"));
    const other = seamwright(["risk", at("solved.yaml"), "--run", run]);
    expect(other.code).not.toBe(0);
    expect(other.err).toMatch(/has changed since/);
  });
});

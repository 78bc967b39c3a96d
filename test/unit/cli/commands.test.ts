import {spawn, spawnSync} from "node:child_process";
import {existsSync, readdirSync, readFileSync, writeFileSync} from "node:fs";
import path from "node:path";
import {describe, expect, test} from "vitest";
import {testFolder} from "../folder.ts";
import {csv, goodText, lineOf} from "../schema/good-study.ts";
import {root, seamwright} from "./run.ts";

const example = "examples/county-road.yaml";

const at = testFolder("file");

/** A study with its record in a folder of its own. */
function studyWith(name: string, text: string): string {
  const file = at(`${name}.yaml`);
  writeFileSync(at("record.csv"), csv());
  writeFileSync(file, text.replace(/file: \S+\.csv/, "file: record.csv"));
  return file;
}

describe("schema", () => {
  test("prints the published schema", () => {
    const {code, out, err} = seamwright(["schema"]);
    expect(code).toBe(0);
    expect(err).toBe("");
    expect(JSON.parse(out)).toEqual(JSON.parse(readFileSync(path.join(root, "docs/study.schema.json"), "utf8")));
  });

  test.skipIf(process.platform === "win32")("a reader that stops reading is no error", () => {
    const command = `"${process.execPath}" src/cli/main.ts schema | head -c 10; echo; echo "\${PIPESTATUS[0]}"`;
    const {stdout, stderr} = spawnSync("bash", ["-c", command], {cwd: root, encoding: "utf8"});
    expect(stderr).toBe("");
    expect(stdout.trim().split("\n").at(-1)).toBe("0");
  });
});

describe("check", () => {
  test("draws every treatment and sums up traffic and climate", () => {
    const {code, out, err} = seamwright(["check", example]);
    expect(err).toBe("");
    expect(code).toBe(0);
    expect(out).toContain("Plain overlay (the control)");
    expect(out).toContain("interlayer: 10 mm interlayer");
    expect(out).toMatch(
      /single axle with dual tyres: \d+,\d+ passes a year, growing by 2 % a year\n {6}\d+ loads of \d+ to \d+ kN on the group, fixed area; wander as usual on a road/,
    );
    expect(out).toContain("8,760 hours of air temperature, with sunshine, wind and dew point");
    // examples/climate/README.md, added up anew in docs/verification/cycles.md
    expect(out).toContain("mean 14.4 °C, from −16.7 to 35.6 °C; mean daily range 10.7 K");
    expect(out).toContain("No faults, no warnings.");
  });

  test("shows warnings and is done all the same", () => {
    const {code, out} = seamwright([
      "check",
      studyWith("warned", goodText.replace("modulus_MPa: 9000", "modulus_MPa: 70000")),
    ]);
    expect(out).toMatch(/\n1 warning:\n/);
    expect(out).toContain("found 70000");
    expect(code).toBe(0);
  });

  test("uses no colours where the output is no terminal", () => {
    expect(seamwright(["check", example], {FORCE_COLOR: "1"}).out).not.toContain("\u001b");
  });
});

describe("bad input ends with 2 and says what and where", () => {
  test("every fault at once, each with its line, and no table", () => {
    const text = goodText.replace("poisson: 0.35", "poisson: 0.6").replace("thickness_mm: 200", "thicknes_mm: 200");
    const file = studyWith("faulty", text);
    for (const command of ["check", "life"]) {
      const {code, out, err} = seamwright([command, file]);
      expect(code).toBe(2);
      expect(out).toBe("");
      expect(err).toContain(`2 faults in ${file}:`);
      expect(err).toContain(`${lineOf(text, "poisson: 0.6")} |`);
      expect(err).toContain(`${lineOf(text, "thicknes_mm")} |`);
      expect(err).toContain("thickness_mm");
      expect(err).not.toMatch(/\bat .*\.ts:\d+/); // no stack
    }
  });

  test.each([
    [["life", "none.yaml"], "cannot read none.yaml: there is no such file"],
    [["check", "examples"], "it is a folder"],
    [["life"], "missing required argument 'study'"],
    [["life", example, "--workers", "0"], "a whole number from 1 to 256"],
    [["life", example, "--wrokers", "2"], "Did you mean --workers?"],
    [["lief", example], "Did you mean life?"],
    [["probe", example], "required option '--temperature-C <number>' not specified"],
    [["probe", example, "--temperature-C", "warm"], "It must be a number."],
    [["probe", example, "--temperature-C", "20", "--x-mm", "0,"], "It must be a number."],
    [
      ["probe", example, "--temperature-C", "20", "--treatment", "Plain"],
      'there is: "Plain overlay", "With interlayer".',
    ],
    [
      ["probe", example, "--temperature-C", "20", "--underside-mm", "500"],
      "cracks.underside + cracks.surface: got 0.5, need <",
    ],
    [[], "Usage: seamwright"],
  ])("%j", (args, message) => {
    const {code, out, err} = seamwright(args);
    expect(code).toBe(2);
    expect(out).toBe("");
    expect(err).toContain(message);
  });
});

test("a report that cannot be written is told before anything is computed, and leaves nothing", () => {
  const before = readdirSync(at());
  writeFileSync(at("file"), "");
  const start = Date.now();
  const {code, out, err} = seamwright(["life", example, "--report", at("file", "r.html")]);
  expect(code).toBe(1);
  expect(out).toBe("");
  expect(err).toContain("part of the path is a file, not a folder");
  expect(err).not.toContain("SEAMWRIGHT_DEBUG");
  expect(Date.now() - start).toBeLessThan(10_000); // the computation alone takes longer
  expect(readdirSync(at()).filter(name => name !== "file")).toEqual(before.filter(name => name !== "file"));
});

test.skipIf(process.platform === "win32")("Ctrl-C ends with 130 at once and leaves nothing", async () => {
  const target = at("interrupted");
  const args = ["life", example, "--report", path.join(target, "r.html"), "--csv", target];
  const child = spawn(process.execPath, ["src/cli/main.ts", ...args], {cwd: root});
  let err = "";
  child.stderr.on("data", text => {
    err += text;
  });
  setTimeout(() => child.kill("SIGINT"), 4000); // threads are computing by then, and far from done
  const code = await new Promise(resolve => child.on("close", resolve));
  expect(err).toBe("Interrupted; nothing was written.\n");
  expect(code).toBe(130);
  expect(existsSync(target)).toBe(false);
});

describe("help", () => {
  test.each([[["--help"]], [["life", "--help"]], [["check", "--help"]], [["probe", "--help"]], [["schema", "--help"]]])(
    "%j has an example",
    args => {
      const {code, out} = seamwright(args);
      expect(code).toBe(0);
      expect(out).toMatch(/Examples?:\n {2}seamwright /);
    },
  );

  test("--version", () => {
    expect(seamwright(["--version"]).out).toMatch(/^\d+\.\d+\.\d+\n$/);
  });
});

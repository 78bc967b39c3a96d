/** Which step is taken towards a browser; nothing is installed here. */
import {spawnSync} from "node:child_process";
import path from "node:path";
import {expect, test} from "vitest";
import {BROWSERS, foundBrowser, type Machine, stepFor} from "../../../scripts/browser.mjs";

const bare: Machine = {found: undefined, platform: "linux", isDebian: true, hasApt: true, isRoot: true};

test("a browser that is there is enough, whoever asks", () => {
  for (const isRoot of [true, false])
    for (const isDebian of [true, false])
      expect(stepFor({...bare, found: BROWSERS[0], isRoot, isDebian})).toEqual({kind: "nothing"});
});

test("only root on a system of Debian's kind has it installed", () => {
  expect(stepFor(bare)).toEqual({kind: "install"});
  const others: Partial<Machine>[] = [
    {isRoot: false},
    {isDebian: false},
    {hasApt: false},
    {isDebian: false, hasApt: false, platform: "darwin"},
    {isDebian: false, hasApt: false, platform: "win32", isRoot: false},
  ];
  for (const other of others) expect(stepFor({...bare, ...other}).kind).toBe("tell");
});

test("everybody else is told what to do on their system", () => {
  const told = (other: Partial<Machine>): string => {
    const step = stepFor({...bare, ...other});
    return step.kind === "tell" ? step.message : "";
  };
  expect(told({isRoot: false})).toMatch(/sudo apt-get update && sudo apt-get install .*chromium$/);
  expect(told({isDebian: false})).toContain("the package chromium of your distribution");
  expect(told({isDebian: false, platform: "darwin"})).toContain("They run on Linux");
});

test("on a machine that has it, the script is silent and well", () => {
  const script = path.join(import.meta.dirname, "../../../scripts/browser.mjs");
  const {status, stdout, stderr} = spawnSync(process.execPath, [script], {
    encoding: "utf8",
    env: {PATH: ""}, // no apt-get is found, so that nothing can be installed by a test
  });
  if (foundBrowser()) expect({status, stdout, stderr}).toEqual({status: 0, stdout: "", stderr: ""});
  else
    expect({status, told: stderr.startsWith("The tests of the page need Chromium")}).toEqual({status: 1, told: true});
});

/** The program itself: where it listens, what it says, how it ends. */
import {type ChildProcess, spawn} from "node:child_process";
import {existsSync, readFileSync, writeFileSync} from "node:fs";
import {createServer, type Server} from "node:net";
import {networkInterfaces} from "node:os";
import path from "node:path";
import {afterEach, beforeEach, expect, test} from "vitest";
import {testFolder} from "../folder.ts";
import {writePage} from "./workbench.ts";

const at = testFolder("test");
const program = path.resolve(import.meta.dirname, "../../../src/server/main.ts");
const children: ChildProcess[] = [];
const servers: Server[] = [];
beforeEach(() => writePage(at("page")));
afterEach(async () => {
  for (const child of children.splice(0)) child.kill("SIGKILL");
  for (const server of servers.splice(0)) await new Promise(resolve => server.close(resolve));
});

interface Running {
  readonly child: ChildProcess;
  readonly said: () => string;
  readonly address: Promise<string>; // as soon as it is said
  readonly ended: Promise<number | null>; // exit code
}

function start(...args: string[]): Running {
  const child = spawn(process.execPath, [program, "--page", at("page"), ...args], {cwd: at()});
  children.push(child);
  let said = "";
  const ended = new Promise<number | null>(resolve => child.on("close", resolve));
  const address = new Promise<string>((resolve, reject) => {
    const hear = (part: Buffer): void => {
      said += part;
      const found = /http:\/\/\S+/.exec(said);
      if (found) resolve(found[0]);
    };
    child.stdout.on("data", hear);
    child.stderr.on("data", hear);
    void ended.then(() => reject(new Error(said)));
  });
  address.catch(() => {}); // not everybody waits for it
  return {child, said: () => said, address, ended};
}

/** Takes a port of the machine, any or a certain one; null when that is taken already. */
function takePort(port = 0): Promise<number | null> {
  const server = createServer();
  return new Promise(resolve => {
    server.on("error", () => resolve(null));
    server.listen(port, "127.0.0.1", () => {
      servers.push(server);
      resolve((server.address() as {port: number}).port);
    });
  });
}

test("serves the page and the folder, says where, and ends without a fault", async () => {
  for (const signal of ["SIGINT", "SIGTERM"] as const) {
    const workbench = start("roads", "--port", "0");
    const address = await workbench.address;
    expect(address).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/$/);
    expect(workbench.said().trimEnd().split("\n").length).toBe(1);
    expect(workbench.said()).toContain(`${path.sep}roads, which is made when you first save`);
    expect(await (await fetch(address)).text()).toContain("Workbench");
    expect(await (await fetch(`${address}api/workspace`)).json()).toMatchObject({name: "roads"});
    workbench.child.kill(signal);
    expect(await workbench.ended).toBe(0);
  }
  expect(existsSync(at("roads"))).toBe(false);
});

test("saves into the folder given, and into workspace without one", async () => {
  for (const [args, folder] of [
    [["my roads"], "my roads"],
    [[], "workspace"],
  ] as const) {
    const workbench = start(...args, "--port", "0");
    const headers = {"X-Seamwright": "1", "If-None-Match": "*"};
    const answer = await fetch(`${await workbench.address}api/files/a.yaml`, {method: "PUT", headers, body: "abc"});
    expect(answer.status).toBe(201);
    expect(readFileSync(at(folder, "a.yaml"), "utf8")).toBe("abc");
    workbench.child.kill("SIGTERM");
    await workbench.ended;
  }
});

test("is not reached from other machines", async () => {
  const workbench = start("--port", "0");
  const {port} = new URL(await workbench.address);
  const others = Object.values(networkInterfaces()).flatMap(list => list ?? []);
  const outward = others.find(one => one.family === "IPv4" && !one.internal)?.address ?? "127.0.0.2";
  await expect(fetch(`http://${outward}:${port}/`)).rejects.toThrow();
});

test("a port asked for that is taken is told; without one another is found", async () => {
  const taken = await takePort();
  const refused = start("--port", String(taken));
  expect(await refused.ended).toBe(1);
  expect(refused.said()).toBe(
    `Port ${taken} is taken, perhaps by a workbench that is still open: take another, or leave --port out.\n`,
  );

  await takePort(7436); // or somebody else has it: taken either way
  const other = start();
  expect(await other.address).not.toContain(":7436/");
  expect(other.said()).toContain("Port 7436 is taken, so this is another one");
  expect((await fetch(await other.address)).status).toBe(200);
});

test.each([
  [["--port", "ninety"], "whole number", 2],
  [["--port", "65536"], "whole number", 2],
  [["--port", "-1"], "whole number", 2],
  [["a", "b"], "too many arguments", 2],
  [["--none"], "unknown option", 2],
  [["file.txt"], "is a file; a folder is needed", 1],
  [["--page", "none"], "The page has not been built yet", 1],
])("%j is told plainly", async (args, words, code) => {
  writeFileSync(at("file.txt"), "");
  const workbench = start(...args);
  expect(await workbench.ended).toBe(code);
  expect(workbench.said()).toContain(words);
  expect(workbench.said()).not.toMatch(/\n\s+at /); // no stack
});

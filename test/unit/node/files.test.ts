import {mkdirSync, readdirSync, readFileSync, writeFileSync} from "node:fs";
import path from "node:path";
import {describe, expect, test} from "vitest";
import {inputHash} from "../../../src/node/hash.ts";
import {
  FileError,
  readStudyFile,
  requireWritable,
  requireWritableFolder,
  softwareVersion,
  writeFiles,
} from "../../../src/node/index.ts";
import {testFolder} from "../folder.ts";
import {csv, goodText} from "../schema/good-study.ts";

const at = testFolder("test");
const failure = (run: () => unknown): FileError => {
  try {
    run();
  } catch (error) {
    expect(error).toBeInstanceOf(FileError);
    return error as FileError;
  }
  throw new Error("nothing was thrown");
};

describe("writing", () => {
  test("writes all files, making folders, over older ones", () => {
    writeFileSync(at("a.txt"), "old");
    writeFiles([
      {path: at("a.txt"), text: "new"},
      {path: at("deep", "er", "b.txt"), text: "b"},
    ]);
    expect(readFileSync(at("a.txt"), "utf8")).toBe("new");
    expect(readFileSync(at("deep", "er", "b.txt"), "utf8")).toBe("b");
    expect(readdirSync(at()).sort()).toEqual(["a.txt", "deep"]);
  });

  test("leaves everything as it was when one of them cannot be written", () => {
    writeFileSync(at("a.txt"), "old");
    mkdirSync(at("folder.html"));
    const error = failure(() =>
      writeFiles([
        {path: at("a.txt"), text: "new"},
        {path: at("deep", "er", "b.txt"), text: "b"},
        {path: at("folder.html"), text: "c"},
      ]),
    );
    expect(error.message).toBe(`cannot write ${at("folder.html")}: it is a folder`);
    expect(error.action).toBe("write");
    expect(readFileSync(at("a.txt"), "utf8")).toBe("old");
    expect(readdirSync(at()).sort()).toEqual(["a.txt", "folder.html"]);
  });

  test("tells beforehand where nothing can be written, and makes nothing", () => {
    writeFileSync(at("file"), "");
    requireWritable(at("new", "folder", "report.html"));
    requireWritableFolder(at("new", "folder"));
    expect(failure(() => requireWritable(at("file", "report.html"))).message).toContain("a file, not a folder");
    expect(failure(() => requireWritable(at())).message).toContain("it is a folder");
    expect(failure(() => requireWritableFolder(at("file"))).message).toContain("a file, not a folder");
    expect(readdirSync(at())).toEqual(["file"]);
  });
});

describe("reading", () => {
  const named = /file: (\S+\.csv)/.exec(goodText)?.[1] ?? "";

  test("finds the table beside the study and knows it in the hash", () => {
    mkdirSync(path.dirname(at(named)), {recursive: true});
    writeFileSync(at("study.yaml"), goodText);
    writeFileSync(at(named), csv());
    const {outcome, tables, hash} = readStudyFile(at("study.yaml"));
    expect(outcome.kind).toBe("study");
    expect(Object.keys(tables)).toEqual([named]);
    expect(hash).toBe(inputHash(goodText, {[named]: csv()}));
    expect(hash).toMatch(/^[0-9a-f]{64}$/);
  });

  test("a table that is not there is a fault of the study", () => {
    writeFileSync(at("study.yaml"), goodText);
    const {outcome} = readStudyFile(at("study.yaml"));
    expect(outcome.kind).toBe("faults");
    expect(JSON.stringify(outcome)).toContain("there is no such file");
  });

  test("a study that is not there, is a folder or is not UTF-8 cannot be read", () => {
    writeFileSync(at("latin1.yaml"), Buffer.from([0x6e, 0xe9]));
    expect(failure(() => readStudyFile(at("none.yaml"))).message).toContain("there is no such file");
    expect(failure(() => readStudyFile(at())).message).toContain("it is a folder");
    expect(failure(() => readStudyFile(at("latin1.yaml"))).message).toContain("save it as UTF-8");
  });

  test("a byte order mark does not count", () => {
    writeFileSync(at("study.yaml"), `\ufeff${goodText}`);
    expect(readStudyFile(at("study.yaml")).text).toBe(goodText);
  });
});

test("the hash is SHA-256 over lengths and texts", () => {
  // Expected: printf '3\nabc' | sha256sum; and 3\nabc5\nt.csv1\nd.
  expect(inputHash("abc", {})).toBe("b00c078ef550998002854805b6d1fac35a8601ebe3d9a9b32bf6f6157038e1b9");
  expect(inputHash("abc", {"t.csv": "d"})).toBe("59c74b779ce156b497f7a2ece5f0f902a3e3d4758709638433bb72435133eb84");
  expect(inputHash("ab", {"t.csv": "cd"})).not.toBe(inputHash("abc", {"t.csv": "d"}));
});

test("the version is that of package.json", () => {
  expect(softwareVersion()).toMatch(/^\d+\.\d+\.\d+$/);
});

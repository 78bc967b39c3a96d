/** Files that are dropped beside a study find the names by which it asks for them. */
import {beforeEach, expect, test} from "vitest";
import {useNotice} from "../../../src/web/state/notices.ts";
import {namedFiles, openFiles} from "../../../src/web/state/opening.ts";
import {present} from "../../../src/web/state/workbook.ts";

const study = (...files: string[]): File =>
  new File(
    [`name: road\ntreatments: {}\ntraffic: {counts: [${files.map(f => `{file: ${f}}`).join(", ")}]}\n`],
    "s.yaml",
  );
const table = (name: string, text = `content of ${name}`): File => new File([text], name);

beforeEach(() => useNotice.setState({notice: null}));

test("a file's own name is enough", async () => {
  await openFiles([study("tables/a.csv", "tables/b.csv"), table("b.csv")]);
  expect(present().files).toEqual({"tables/b.csv": "content of b.csv"});
  expect(useNotice.getState().notice).toBeNull();
});

test("two files of one name are told apart by their folders, and not guessed without", async () => {
  await openFiles([study("north/a.csv", "south/a.csv"), table("a.csv")]);
  expect(present().files).toEqual({"a.csv": "content of a.csv"});
  expect(useNotice.getState().notice).toMatchObject({kind: "bad"});
  expect(useNotice.getState().notice?.text).toContain("north/a.csv, south/a.csv");
  await openFiles([study("north/a.csv", "south/a.csv"), table("x/south/a.csv"), table("x/north/a.csv")]);
  expect(present().files).toEqual({
    "south/a.csv": "content of x/south/a.csv",
    "north/a.csv": "content of x/north/a.csv",
  });
});

test("two studies at once are refused, a table that is no text too", async () => {
  await expect(openFiles([study("a.csv"), study("b.csv")])).rejects.toThrow(/2 of the files are studies/);
  await expect(openFiles([new File([Uint8Array.of(0xff, 0xfe, 0x00)], "t.csv")])).rejects.toThrow(/not text in UTF-8/);
  await expect(openFiles([])).rejects.toThrow(/Nothing was chosen/);
});

test("files are named wherever they stand, each once", () => {
  const raw = {climate: {file: "air.csv"}, materials: [{law_file: "l.yaml"}, {law_file: "l.yaml"}], file: 3};
  expect(namedFiles(raw)).toEqual(["air.csv", "l.yaml"]);
});

import {expect, test} from "vitest";
import {readStudy, studyReader} from "../../../src/schema/index.ts";
import {csv, goodText} from "./good-study.ts";

/** A reader of one file that can be replaced; what a plain reader makes of the same is what it should make of it. */
function reading() {
  const state = {file: csv()};
  const options = {fileName: "study.yaml", readCsv: () => state.file};
  const {read, variations} = studyReader(options);
  return {
    state,
    read,
    variations,
    weather: (text: string) => {
      const outcome = read(text);
      return outcome.kind === "study" ? outcome.study.weather : null;
    },
    plain: (text: string) => readStudy(text, options),
  };
}

const thicker = goodText.replace("thickness_mm: 80", "thickness_mm: 90");

test("another thickness: the record is not read again, all else is as by a plain reader", () => {
  const {read, weather, plain} = reading();
  expect(thicker).not.toBe(goodText);
  const record = weather(goodText);
  expect(record).not.toBeNull();
  expect(weather(thicker)).toBe(record);
  expect(read(thicker)).toEqual(plain(thicker));
  expect(read(goodText)).toEqual(plain(goodText));
});

test("a file replaced under its name is read; the old one is remembered", () => {
  const {state, weather, read, plain} = reading();
  const record = weather(goodText);
  const before = state.file;
  state.file = before.replace(/(\n[^,\n]+,)([-\d.]+)/, (_, start) => `${start}1.25`);
  expect(state.file).not.toBe(before);
  expect(weather(goodText)).not.toBe(record);
  expect(read(goodText)).toEqual(plain(goodText));
  state.file = before;
  expect(weather(goodText)).toBe(record);
});

test("another description of the same file is read anew", () => {
  const {weather} = reading();
  const record = weather(goodText);
  const other = goodText.replace(/label: .*/, "label: another");
  expect(other).not.toBe(goodText);
  expect(weather(other)).not.toBe(record);
  expect(weather(other)?.label).toBe("another");
});

test("faults and warnings of the record are told each time, at their own lines", () => {
  const {state, read, plain} = reading();
  const good = state.file;
  state.file = good.replace(/(\n[^,\n]+,)[-\d.]+/, "$1warm");
  const later = `# a line more\n${goodText}`;
  for (const text of [goodText, goodText, later]) {
    const outcome = read(text);
    expect(outcome.kind).toBe("faults");
    expect(outcome).toEqual(plain(text));
  }
  state.file = good;
  expect(read(later).kind).toBe("study");
});

test("variations share the memory", () => {
  const {weather, variations} = reading();
  const record = weather(goodText);
  const {base} = variations(thicker);
  expect(base.kind === "study" && base.study.weather).toBe(record);
});

/** The documentation's links lead somewhere, its pages are all in the contents, its study is one. */
import {existsSync, readdirSync, readFileSync} from "node:fs";
import path from "node:path";
import {expect, test} from "vitest";
import {readStudy} from "../src/schema/index.ts";

const root = path.resolve(import.meta.dirname, "..");
const textOf = (file: string): string => readFileSync(path.join(root, file), "utf8");

const inDocs = readdirSync(path.join(root, "docs"), {recursive: true, encoding: "utf8"})
  .map(name => `docs/${name.split(path.sep).join("/")}`)
  .filter(name => name.endsWith(".md"))
  .sort();
const pages = [
  "README.md",
  "CONTRIBUTING.md",
  "CHANGELOG.md",
  "examples/climate/README.md",
  "examples/stiffness/README.md",
  ...inDocs,
];

/** Text without what stands as code: no links there. */
function prose(markdown: string): string {
  return markdown.replace(/^```[\s\S]*?^```/gm, "").replace(/`[^`\n]*`/g, "");
}

/** Targets of [text](target) and ![text](target). */
function linksOf(page: string): string[] {
  return [...prose(textOf(page)).matchAll(/\]\(([^()\s]+(?:\([^()\s]*\)[^()\s]*)*)\)/g)].map(match => match[1]);
}

/** What a heading is called in an address: lower case, hyphens for blanks, no punctuation. */
function anchorsOf(page: string): string[] {
  const text = textOf(page).replace(/^```[\s\S]*?^```/gm, "");
  return [...text.matchAll(/^#{1,6} +(.+)$/gm)].map(([, heading]) =>
    heading
      .toLowerCase()
      .replace(/[^\p{L}\p{N}\s_-]/gu, "")
      .trim()
      .replace(/\s/g, "-"),
  );
}

function faultOf(page: string, link: string): string | null {
  if (/^[a-z][a-z0-9+.-]*:/i.test(link)) return null; // another site
  const [file, anchor] = decodeURI(link).split("#");
  const to = file === "" ? page : path.posix.join(path.posix.dirname(page), file);
  if (to.startsWith("..") || !existsSync(path.join(root, to))) return `${page}: ${link} leads nowhere`;
  if (anchor && to.endsWith(".md") && !anchorsOf(to).includes(anchor)) return `${page}: ${link} has no such heading`;
  return null;
}

test("every relative link leads to a file, and to a heading where it names one", () => {
  const links = pages.flatMap(page => linksOf(page).map(link => ({page, link})));
  expect(links.length).toBeGreaterThan(20); // the expression still finds them
  expect(links.flatMap(({page, link}) => faultOf(page, link) ?? [])).toEqual([]);
});

const marker = "<!-- From here on written by test/docs.test.ts; vitest -u renews it. -->\n";

/** One line a page of a folder of docs, by its heading. */
function contentsOf(folder: string): string {
  const own = inDocs.filter(page => path.posix.dirname(page) === `docs/${folder}`);
  const titleOf = (page: string): string => /^# (.+)$/m.exec(textOf(page))?.[1] ?? page;
  return own.map(page => `- [${titleOf(page)}](${path.posix.relative("docs", page)})`).join("\n");
}

test("the contents of the docs are current", async () => {
  const [written] = textOf("docs/README.md").split(marker);
  const page = `${written}${marker}
## Theory

The equations as they are implemented, with their sources; a page for each folder of the engine.

${contentsOf("theory")}

## Verification

Exact and published values against computed ones, with the difference and how much of it is allowed. The tests write
these pages.

${contentsOf("verification")}
`;
  await expect(page).toMatchFileSnapshot("../docs/README.md");
  const unlisted = inDocs.filter(
    one => one !== "docs/README.md" && !page.includes(`(${path.posix.relative("docs", one)})`),
  );
  expect(unlisted).toEqual([]);
});

test("the README's study is one", () => {
  const yaml = /```yaml\n([\s\S]*?)```/.exec(textOf("README.md"))?.[1] ?? "";
  const readCsv = (name: string): string => textOf(`examples/${name}`);
  const outcome = readStudy(yaml, {fileName: "README", readCsv});
  expect(outcome.kind === "faults" ? outcome.faults : []).toEqual([]);
  expect(outcome.kind === "study" && outcome.study.treatments.length).toBe(2);
  expect(outcome.warnings).toEqual([]);
});

test("the README's two commands are the first that it shows, and exist", () => {
  const commands = /```sh\n([\s\S]*?)```/.exec(textOf("README.md"))?.[1] ?? "";
  expect(commands.match(/^npm .*?(?= {2,}#)/gm)).toEqual(["npm run demo", "npm test"]);
  const {scripts} = JSON.parse(textOf("package.json")) as {scripts: Record<string, string>};
  expect(Object.keys(scripts)).toEqual(expect.arrayContaining(["predemo", "demo", "pretest", "test"]));
});

/** Studies that come with the page, fetched when they are opened. */
import type {Workbook} from "./workbook.ts";

const addresses = import.meta.glob<string>(
  ["../../../examples/*.yaml", "../../../examples/{climate,traffic,stiffness,laboratory/laws}/*.{csv,yaml}"],
  {query: "?url", import: "default", eager: true},
);

export interface Example {
  readonly file: string;
  readonly title: string;
  readonly about: string;
  readonly needs: readonly string[]; // folders of the files that it names
}

export const EXAMPLES: readonly Example[] = [
  {
    file: "county-road.yaml",
    title: "County road",
    about: "60 mm of asphalt over a cracked cement-bound base: does a 10 mm interlayer pay?",
    needs: ["climate/", "traffic/", "stiffness/", "laboratory/laws/"],
  },
  {
    file: "apron.yaml",
    title: "Apron",
    about: "Asphalt over jointed concrete slabs under a mix of aircraft gears.",
    needs: ["climate/", "stiffness/"],
  },
];

export async function exampleWorkbook({file, needs}: Example): Promise<Workbook> {
  const own = Object.entries(addresses).map(([path, url]) => ({name: path.replace("../../../examples/", ""), url}));
  const wanted = own.filter(({name}) => name === file || needs.some(folder => name.startsWith(folder)));
  const texts = await Promise.all(wanted.map(async ({name, url}) => [name, await fetched(url)] as const));
  const {[file]: text, ...files} = Object.fromEntries(texts);
  return {name: file, text, files};
}

async function fetched(url: string): Promise<string> {
  const answer = await fetch(url);
  if (!answer.ok) throw new Error(`the example could not be fetched: ${answer.status} ${answer.statusText}`);
  return answer.text();
}

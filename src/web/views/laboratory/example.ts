/** The invented laboratory that comes with the page, fetched when it is asked for. */
import type {LaboratoryFile} from "../../../schema/laboratory/index.ts";

const FOLDER = "../../../../examples/laboratory/";

const texts = import.meta.glob<string>(
  [
    "../../../../examples/laboratory/{beams,readings}.csv",
    "../../../../examples/laboratory/programme.yaml",
    "../../../../examples/laboratory/fatigue/**/*.csv",
  ],
  {query: "?raw", import: "default"},
);

export function exampleLaboratory(): Promise<LaboratoryFile[]> {
  return Promise.all(
    Object.entries(texts).map(async ([path, load]) => ({
      name: path.replace(FOLDER, ""),
      bytes: new TextEncoder().encode(await load()),
    })),
  );
}

/** The laboratory, and the way of its laws into the study. */

import type {DocumentEdit} from "../../schema/editing/index.ts";
import type {LawText} from "../../schema/laboratory/index.ts";
import {tell} from "../state/notices.ts";
import {keysAt, textAt} from "../state/value.ts";
import {addFiles, useWorkbook} from "../state/workbook.ts";
import {LaboratoryView} from "./laboratory/index.tsx";
import "../style/plot.css";

/** What becomes of one law: a file of the study, and edits that take it up. */
interface Taken {
  readonly law: LawText;
  readonly edits: readonly DocumentEdit[];
  readonly words: string; // what was done, or why nothing could be
}

/**
 * Laws become files of the study; a material of the same name takes its own, in place of those it had. A file with a fatigue line
 * alone does not take the place of one that tells the growth of cracks.
 */
function takenLaw(document: unknown, law: LawText): Taken {
  const {material, replaces} = law;
  const path = ["materials", material];
  if (!keysAt(document, ["materials"]).includes(material))
    return {
      law,
      edits: [],
      words: `the study has no material ${material}: name one so, or choose its law file by hand`,
    };
  const isWhole = replaces.includes("crack_growth");
  if (!isWhole && textAt(document, [...path, "law_file"]) !== "")
    return {
      law,
      edits: [],
      words: `${material} keeps its law file, which holds a growth law too: fit beams, then take the laws over together`,
    };
  return {
    law,
    edits: [
      ...replaces.map(key => ({path: [...path, key], value: undefined})),
      {path: [...path, "law_file"], value: fileOf(law)},
    ],
    words: `${material} has its ${isWhole ? "laws" : "fatigue line"} from the laboratory`,
  };
}

const fileOf = ({fileName}: LawText): string => `laboratory/laws/${fileName}`;

function takeLaws(laws: readonly LawText[]): void {
  const {raw} = useWorkbook.getState();
  const taken = laws.map(law => takenLaw(raw, law));
  const used = taken.filter(({edits}) => edits.length > 0);
  if (used.length > 0)
    addFiles(
      "laws from the laboratory",
      Object.fromEntries(used.map(({law}) => [fileOf(law), law.text])),
      used.flatMap(({edits}) => edits),
    );
  tell({
    kind: used.length > 0 ? "good" : "bad",
    text: taken.map(({words}) => `${words.charAt(0).toUpperCase()}${words.slice(1)}.`).join(" "),
  });
}

export default function LaboratoryPage() {
  return <LaboratoryView onLaws={takeLaws} />;
}

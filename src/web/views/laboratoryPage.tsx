/** The laboratory, and the way of its laws into the study. */

import {tell} from "../state/notices.ts";
import {keysAt} from "../state/value.ts";
import {addFiles, useWorkbook} from "../state/workbook.ts";
import {LaboratoryView} from "./laboratory/index.tsx";
import "../style/plot.css";

interface Law {
  readonly material: string;
  readonly fileName: string;
  readonly text: string;
}

/** Laws become files of the study; a material of the same name takes its own, in place of the laws that it had. */
function takeLaws(laws: readonly Law[]): void {
  const materials = keysAt(useWorkbook.getState().raw, ["materials"]);
  const known = laws.filter(law => materials.includes(law.material));
  const file = ({fileName}: Law): string => `laboratory/laws/${fileName}`;
  addFiles(
    "laws from the laboratory",
    Object.fromEntries(laws.map(law => [file(law), law.text])),
    known.flatMap(law => [
      {path: ["materials", law.material, "crack_growth"], value: undefined},
      {path: ["materials", law.material, "fatigue_line"], value: undefined},
      {path: ["materials", law.material, "law_file"], value: file(law)},
    ]),
  );
  const others = laws.filter(law => !known.includes(law)).map(law => law.material);
  tell({
    kind: "good",
    text: [
      known.length > 0 ? `Laws taken over: ${known.map(law => law.material).join(", ")}.` : "",
      others.length > 0
        ? `The study has no material ${others.join(", no ")}: name one so, or choose the law file in the view “Materials”.`
        : "",
    ]
      .filter(Boolean)
      .join(" "),
  });
}

export default function LaboratoryPage() {
  return <LaboratoryView onLaws={takeLaws} />;
}

import {fileWord} from "../file-word.ts";
import {type LawDocument, lawText} from "../law-file.ts";

/** A law file as it is kept beside a study. */
export interface LawText {
  readonly material: string;
  readonly fileName: string; // such as dense-asphalt.yaml; each once
  readonly text: string;
  readonly replaces: readonly ("crack_growth" | "fatigue_line")[]; // fields of a study's material that `law_file` stands for
}

/** Texts and names of law files. Materials whose names differ in signs only get numbers. */
export function lawTexts(laws: readonly LawDocument[]): LawText[] {
  const taken = new Set<string>();
  return laws.map(law => {
    const word = fileWord(law.material, "material");
    let name = word;
    for (let k = 2; taken.has(name); k++) name = `${word}-${k}`;
    taken.add(name);
    const replaces = (["crack_growth", "fatigue_line"] as const).filter(field => law[field] !== undefined);
    return {material: law.material, fileName: `${name}.yaml`, text: lawText(law), replaces};
  });
}

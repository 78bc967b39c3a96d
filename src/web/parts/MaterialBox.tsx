import {keysAt, type Path} from "../state/value.ts";
import {useWorkbook} from "../state/workbook.ts";
import {ChoiceBox} from "./Field.tsx";

/** One of the study's materials. */
export function MaterialBox({path, label}: {readonly path: Path; readonly label: string}) {
  const names = useWorkbook(({raw}) => keysAt(raw, ["materials"]).join("\n"));
  const options = names
    .split("\n")
    .filter(Boolean)
    .map(name => ({id: name, text: name}));
  return <ChoiceBox path={path} label={label} options={options} />;
}

/** What was found, on its way into a study, into law files and into a report. */
import {useMemo, useState} from "react";
import {Group} from "react-aria-components";
import {type LawText, lawTexts} from "../../../schema/laboratory/index.ts";
import {Button} from "../../parts/Button.tsx";
import {Check} from "../../parts/Check.tsx";
import {download} from "../../state/download.ts";
import {useLaboratory} from "../../state/laboratory.ts";
import {type Found, foundLaws, reportOf} from "./found.ts";

export interface LawsProps {
  readonly found: Found;
  readonly onLaws: (laws: readonly LawText[]) => void;
}

export function Laws({found, onLaws}: LawsProps) {
  const [left, setLeft] = useState<readonly string[]>([]);
  const laws = useMemo(() => lawTexts(foundLaws(found)), [found]);
  const chosen = laws.filter(({material}) => !left.includes(material));
  const {calibration} = found;
  if (laws.length === 0) return null;
  return (
    <section className="card stack" aria-labelledby="laboratory-laws">
      <h2 id="laboratory-laws">Laws found</h2>
      <p className="muted">
        {calibration
          ? "A and n belong together, with their process zone. They support, and never replace, the judgement of a qualified pavement engineer."
          : "A fatigue line holds at its temperature and frequency, over the strains that were tested. It ranks materials; it is not the life of a pavement."}
      </p>
      <Group aria-label="Materials whose laws are used" className="stack">
        {laws.map(({material, fileName, replaces}) => (
          <div key={material} className="row">
            <Check
              isSelected={!left.includes(material)}
              onChange={isSelected => setLeft(isSelected ? left.filter(l => l !== material) : [...left, material])}
            >
              {material}: {replaces.map(field => FIELD[field]).join(" and ")}
            </Check>
            <Button
              look="bare"
              onPress={() => download(fileName, laws.find(l => l.material === material)!.text, "text/yaml")}
            >
              Save {fileName}
            </Button>
          </div>
        ))}
      </Group>
      <div className="row">
        <Button look="main" isDisabled={chosen.length === 0} onPress={() => onLaws(chosen)}>
          Put these laws into the study
        </Button>
        <Button onPress={() => void saveReport(found)}>Save the report</Button>
      </div>
    </section>
  );
}

const FIELD = {crack_growth: "growth law", fatigue_line: "fatigue line"} as const;

async function saveReport(found: Found): Promise<void> {
  try {
    const {name, text} = await reportOf(found);
    download(name, text, "text/html");
  } catch (error) {
    useLaboratory.setState({problem: `The report could not be written: ${(error as Error).message}`});
  }
}

/** From laboratory files to fatigue lines and growth laws, and on into the study. */
import {useMemo} from "react";
import type {LawText} from "../../../schema/laboratory/index.ts";
import {isSameTask, laboratoryTask, programmeState, useLaboratory} from "../../state/laboratory.ts";
import {Beams} from "./Beams.tsx";
import {Fatigue} from "./Fatigue.tsx";
import {Files} from "./Files.tsx";
import {foundBy} from "./found.ts";
import {Laws} from "./Laws.tsx";
import {Programme} from "./Programme.tsx";
import "./laboratory.css";

export interface LaboratoryViewProps {
  /** Puts law files beside the study and names them in its materials. */
  readonly onLaws: (laws: readonly LawText[]) => void;
}

export function LaboratoryView({onLaws}: LaboratoryViewProps) {
  const {fatigue, beams, fitted, programmeText} = useLaboratory();
  const current = fitted !== null && isSameTask(fitted.task, laboratoryTask()) ? fitted : null; // laws of other tables are no laws of these
  const found = useMemo(
    () => foundBy(fatigue, current, programmeState(programmeText).programme),
    [fatigue, current, programmeText],
  );
  const materials = useMemo(() => {
    const courses = (beams?.reading.beams ?? []).flatMap(b => [b.overlay, ...(b.interlayer ? [b.interlayer] : [])]);
    return [...new Set(courses.map(c => c.material))];
  }, [beams]);
  return (
    <>
      <div className="view-head">
        <h2>Laboratory</h2>
        <p>Bending fatigue tests and wheel-tracked beams: from tables as they are to laws with their intervals.</p>
      </div>
      <Files />
      {(programmeText !== null || materials.length > 0) && <Programme materials={materials} />}
      {fatigue && <Fatigue answer={fatigue} />}
      {beams && <Beams look={beams} />}
      {found && <Laws found={found} onLaws={onLaws} />}
    </>
  );
}

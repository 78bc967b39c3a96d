/** From laboratory files to fatigue lines and growth laws, and on into the study. */
import {useMemo} from "react";
import {useShallow} from "zustand/react/shallow";
import type {LawText} from "../../../schema/laboratory/index.ts";
import {useCurrentFit, useLaboratory, useProgramme} from "../../state/laboratory.ts";
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
  const {fatigue, beams, programmeText} = useLaboratory(
    useShallow(({fatigue, beams, programmeText}) => ({fatigue, beams, programmeText})),
  );
  const current = useCurrentFit(); // laws of other tables are no laws of these
  const {programme} = useProgramme();
  const found = useMemo(() => foundBy(fatigue, current, programme), [fatigue, current, programme]);
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

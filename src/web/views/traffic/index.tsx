/** Traffic: loads and counts, what each is worth, and what if there were more of it. */
import {useCallback} from "react";
import type {TreatmentLife} from "../../../engine/life/types.ts";
import {
  binsChart,
  type Canvas,
  equivalenceChart,
  loadGroups,
  spectrumChart,
  strainDomain,
  tipStrainChart,
} from "../../../report/charts/index.ts";
import {binsCsv, equivalenceCsv, tipStrainCsv} from "../../../report/data/index.ts";
import {fileWord} from "../../../schema/editing/index.ts";
import {Files} from "../../parts/Files.tsx";
import {Legend} from "../../parts/Legend.tsx";
import {PlotFrame} from "../../parts/PlotFrame.tsx";
import {SchemaForm} from "../../parts/SchemaForm.tsx";
import {Stale} from "../../parts/Stale.tsx";
import {ViewHead} from "../../parts/ViewHead.tsx";
import {useAnswers} from "../../state/answers.ts";
import {WhatIfPanel} from "./WhatIfPanel.tsx";
import "../../style/plot.css";

export default function Traffic() {
  const result = useAnswers(s => s.result);
  return (
    <>
      <ViewHead title="Traffic">
        Axles and gears, how often they pass, and when. Lives follow every count at once.
      </ViewHead>
      <div className="columns results-first">
        <div className="stack">
          <div className="card stack">
            <SchemaForm path={["traffic"]} />
          </div>
          <div className="card">
            <Files />
          </div>
        </div>
        <Stale>
          <WhatIfPanel />
          {result ? (
            <>
              <Spectrum life={result.treatments[0]} />
              {result.treatments.map(life => (
                <Strains key={life.treatment.name} life={life} />
              ))}
            </>
          ) : (
            <p className="card empty">Pictures follow when the study is solved.</p>
          )}
        </Stale>
      </div>
    </>
  );
}

function Spectrum({life}: {readonly life: TreatmentLife}) {
  const {equivalence, bins} = life;
  const passes = useCallback(
    (canvas: Canvas) => (equivalence ? spectrumChart(equivalence, "passes", canvas) : ""),
    [equivalence],
  );
  const damage = useCallback(
    (canvas: Canvas) => (equivalence ? spectrumChart(equivalence, "damage", canvas) : ""),
    [equivalence],
  );
  const worth = useCallback(
    (canvas: Canvas) => (equivalence ? (equivalenceChart(equivalence, canvas) ?? "") : ""),
    [equivalence],
  );
  const shares = useCallback((canvas: Canvas) => binsChart(bins, canvas), [bins]);
  const csv = (): string => equivalenceCsv(life) ?? "";
  const key = equivalence && <Legend names={loadGroups(equivalence)} />;
  return (
    <>
      {equivalence && equivalence.classes.length > 1 && (
        <>
          <div className="card columns">
            <PlotFrame title="How often each load passes" name="loads-passes" draw={passes} csv={csv} note={key} />
            <PlotFrame title="What it does" name="loads-damage" draw={damage} csv={csv} note={key} />
          </div>
          <div className="card">
            <PlotFrame
              title={`Worth of one pass, in passes of the ${equivalence.reference}`}
              name="loads-worth"
              draw={worth}
              csv={csv}
              note={<>{key} Dotted: the fourth-power law.</>}
            />
          </div>
        </>
      )}
      <div className="card">
        <PlotFrame
          title="At which overlay temperature it passes"
          name="temperature-bins"
          draw={shares}
          csv={() => binsCsv(bins)}
        />
      </div>
    </>
  );
}

function Strains({life}: {readonly life: TreatmentLife}) {
  const fronts = (["interlayer", "underside", "surface"] as const).filter(f => life.tipStrain.some(c => c.front === f));
  return fronts.map(front => <StrainPlot key={front} life={life} front={front} />);
}

const FRONT_WORDS = {
  interlayer: "in the interlayer",
  underside: "from the underside",
  surface: "from the surface",
} as const;

function StrainPlot({
  life,
  front,
}: {
  readonly life: TreatmentLife;
  readonly front: "interlayer" | "underside" | "surface";
}) {
  const {tipStrain, treatment} = life;
  const draw = useCallback(
    (canvas: Canvas) =>
      tipStrainChart(
        tipStrain.filter(c => c.front === front),
        strainDomain(tipStrain),
        canvas,
      ),
    [tipStrain, front],
  );
  return (
    <div className="card">
      <PlotFrame
        title={`Tip strain of the crack ${FRONT_WORDS[front]}, ${treatment.name}`}
        name={`${fileWord(treatment.name, "treatment")}-${front}-strain`}
        draw={draw}
        csv={() => tipStrainCsv([life])}
      />
    </div>
  );
}

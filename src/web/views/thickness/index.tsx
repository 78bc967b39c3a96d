/** How thick: the least thickness with which each treatment reaches a life. */
import {useCallback, useMemo} from "react";
import {
  LIFE_CAP,
  MOST_THICKNESSES,
  type ThicknessFault,
  type ThicknessRange,
  thicknessFaults,
} from "../../../engine/survey/index.ts";
import {type Canvas, frontierChart, searchChart} from "../../../report/charts/index.ts";
import {searchCsv} from "../../../report/data/index.ts";
import {
  CAUTION_LINE,
  costsCaption,
  displayUnit,
  lifeWords,
  livesCaption,
  percent,
  pricedDesigns,
  type SearchCase,
  safetySentence,
  searchAnswer,
  searchDots,
  searchMethod,
  searchRows,
  searchWarnings,
  type UnitSystem,
} from "../../../report/live/index.ts";
import {fileWord} from "../../../schema/editing/index.ts";
import {Button} from "../../parts/Button.tsx";
import {Choice} from "../../parts/Choice.tsx";
import {courseStep} from "../../parts/courseStep.ts";
import {Legend} from "../../parts/Legend.tsx";
import {NumberEntry} from "../../parts/NumberEntry.tsx";
import {PlainTable} from "../../parts/PlainTable.tsx";
import {PlotFrame} from "../../parts/PlotFrame.tsx";
import {RunBar} from "../../parts/RunBar.tsx";
import {ViewHead} from "../../parts/ViewHead.tsx";
import {isCurrent, obstacleOf, useAnswers} from "../../state/answers.ts";
import {download} from "../../state/download.ts";
import {startThickness, stop, useThickness} from "../../state/longRuns.ts";
import {makeSearchReport} from "../../state/reports.ts";
import {useSettings} from "../../state/settings.ts";
import {useValue} from "../../state/value.ts";
import {type ThicknessQuestion, useAsked} from "../../state/view.ts";
import {useWorkbook} from "../../state/workbook.ts";
import "../../style/plot.css";

export default function Thickness() {
  const run = useThickness();
  const present = useWorkbook(s => s.present);
  const isFresh = isCurrent(run.of, present);
  const obstacle = obstacleOf(useAnswers(s => s.reading));
  const reliability = useAnswers(s => s.study?.risk.reliability ?? null);
  const question = useQuestion();
  const isSound = question !== null && thicknessFaults(question).length === 0;
  const start = (): void => {
    if (!question) return;
    const {layer, from, to, step, target, isSampled} = question;
    startThickness({layer, from, to, step, target, reliability: isSampled ? reliability : null});
  };
  return (
    <>
      <ViewHead title="How thick">
        The least thickness with which each treatment reaches a life, in steps that can be built.
      </ViewHead>
      <div className="card stack">
        {question && <Question question={question} reliability={reliability} />}
        {question?.isSampled && (
          <p className="small muted">Every thickness that is looked at is sampled by itself, which takes minutes.</p>
        )}
        <RunBar
          run={run}
          label="Find the thickness"
          obstacle={
            obstacle ??
            (question === null
              ? "The section has no layer above the foundation whose thickness is a number."
              : isSound
                ? null
                : "What is asked has faults: mend them first.")
          }
          onStart={start}
          onStop={() => stop("thickness")}
        />
      </div>
      {run.result ? (
        <div className={isFresh ? "stack" : "stack stale"} aria-busy={run.progress !== null}>
          {!isFresh && <p className="tag warn">Of the study before its last edits.</p>}
          <Result found={run.result} isFresh={isFresh} />
        </div>
      ) : (
        <p className="card empty">
          {run.progress
            ? "Searching: a few thicknesses over the whole range first, then the gap in which the life is reached."
            : "Nothing searched yet. Say how long the overlay has to last; every thickness that is looked at takes as long as the study itself."}
        </p>
      )}
    </>
  );
}

interface Course {
  readonly name: string;
  readonly role: string;
  readonly thickness: number; // [mm]
}

/** Layers of the study's section that can be thicker, from the surface down to the foundation. */
function useCourses(): readonly Course[] {
  const layers = useValue(["section", "layers"]);
  return useMemo(() => {
    const all: readonly unknown[] = Array.isArray(layers) ? layers : [];
    return all.flatMap((layer): Course[] => {
      if (typeof layer !== "object" || layer === null) return [];
      const {name, role, thickness_mm: thickness} = layer as Readonly<Record<string, unknown>>;
      return typeof name === "string" && role !== "foundation" && typeof thickness === "number" && thickness > 0
        ? [{name, role: String(role), thickness}]
        : [];
    });
  }, [layers]);
}

/** What was asked last of this study, if its section still has the layer; else the overlay's first course, about what it is. */
function useQuestion(): ThicknessQuestion | null {
  const courses = useCourses();
  const study = useWorkbook(s => s.present.name);
  const last = useAsked(s => s.thickness);
  const period = useValue(["analysis_period_years"]);
  const units = useSettings(s => s.units);
  return useMemo(() => {
    if (last?.study === study && courses.some(c => c.name === last.layer)) return last;
    const course = courses.find(c => c.role === "overlay") ?? courses[0];
    const target = typeof period === "number" ? period : 20;
    return course ? {study, ...rangeAbout(course, units), target, isSampled: false} : null;
  }, [courses, study, last, period, units]);
}

function rangeAbout({name, thickness}: Course, units: UnitSystem): ThicknessRange & {readonly layer: string} {
  const step = courseStep(thickness, units);
  const rounded = (value: number): number => Number((step * Math.max(1, Math.round(value / step))).toPrecision(12));
  return {layer: name, from: rounded(thickness / 2), to: rounded(2 * thickness), step};
}

interface QuestionProps {
  readonly question: ThicknessQuestion;
  readonly reliability: number | null; // of the study [–]; null: it is not known yet
}

function Question({question, reliability}: QuestionProps) {
  const courses = useCourses();
  const units = useSettings(s => s.units);
  const length = displayUnit("mm", units);
  const ask = (change: Partial<ThicknessQuestion>): void => useAsked.setState({thickness: {...question, ...change}});
  const faults = thicknessFaults(question);
  const entry = (label: string, which: keyof ThicknessRange) => (
    <NumberEntry
      label={label}
      unit={length.unit}
      value={length.toDisplay(question[which])}
      onChange={value => ask({[which]: length.fromDisplay(value)})}
      fault={faultText(faults.find(f => f.which === which))}
    />
  );
  return (
    <div className="fields">
      <NumberEntry
        label="Life to be reached"
        unit="years"
        value={question.target}
        onChange={target => ask({target})}
        fault={faultText(faults.find(f => f.which === "target"))}
      />
      <Choice
        label="Lives"
        options={[
          {id: "best", text: "study’s values"},
          ...(reliability === null ? [] : [{id: "sure", text: `${percent(reliability)} reliability`}]),
        ]}
        value={question.isSampled && reliability !== null ? "sure" : "best"}
        onChange={id => ask({isSampled: id === "sure"})}
      />
      <Choice
        label="Thickness of"
        options={courses.map(({name}) => ({id: name, text: name}))}
        value={question.layer}
        onChange={name => ask(rangeAbout(courses.find(c => c.name === name)!, units))}
      />
      {entry("Thinnest", "from")}
      {entry("Thickest", "to")}
      {entry("In steps of", "step")}
    </div>
  );
}

function faultText(fault: ThicknessFault | undefined): string | null {
  switch (fault?.kind) {
    case undefined:
      return null;
    case "not positive":
      return "It must be above 0.";
    case "too long":
      return `Lives are told up to ${LIFE_CAP} years.`;
    case "reversed":
      return "It is thicker than the thickest.";
    case "too wide":
      return "It is longer than the range.";
    case "too many":
      return `${fault.count} thicknesses; at most ${MOST_THICKNESSES} can be searched.`;
  }
}

function Result({found, isFresh}: {readonly found: SearchCase; readonly isFresh: boolean}) {
  const units = useSettings(s => s.units);
  const one = useMemo(() => ({...found, units}), [found, units]);
  const {headline, details} = searchAnswer(one);
  const warnings = searchWarnings(one);
  return (
    <>
      <section className="card stack" aria-label="Answer">
        <p role="status" style={{fontSize: 17, fontWeight: 600}}>
          {headline}
        </p>
        {details.map(text => (
          <p key={text}>{text}</p>
        ))}
        <PlainTable
          columns={[
            {title: "Treatment"},
            {title: "Least", isNumber: true},
            {title: "Life, years", isNumber: true},
            {title: "One step less, years", isNumber: true},
            {title: "Remarks"},
          ]}
          rows={searchRows(one).map(r => ({key: r.name, cells: [r.name, r.least, r.life, r.below, r.remark]}))}
        />
        {warnings.length > 0 && (
          <ul className="note warn" aria-label="Warnings">
            {warnings.map(text => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        )}
        <p className="small muted">{CAUTION_LINE}</p>
        <div className="row">
          <Button
            isDisabled={!isFresh} // it tells what it was made from
            onPress={() =>
              void makeSearchReport(found).then(text =>
                download(`${fileWord(found.study, "study")}-thickness.html`, text, "text/html"),
              )
            }
          >
            Download the report
          </Button>
          <span className="small muted">
            {safetySentence(one)} {searchMethod(one)}
          </span>
        </div>
      </section>
      <Pictures one={one} />
    </>
  );
}

function Pictures({one}: {readonly one: SearchCase}) {
  const drawLives = useCallback(
    (canvas: Canvas) =>
      searchChart({dots: searchDots(one), target: one.target, label: one.layer, life: lifeWords(one)}, canvas),
    [one],
  );
  const {prices, target} = one;
  const priced = useMemo(() => pricedDesigns(one), [one]);
  const drawCosts = useCallback(
    (canvas: Canvas) => frontierChart({...priced, target, currency: prices?.currency ?? ""}, canvas),
    [priced, target, prices],
  );
  const legend = <Legend names={one.treatments.map(t => t.name)} />;
  const csv = (): string => searchCsv(one);
  return (
    <div className="columns">
      <div className="card">
        <PlotFrame
          title="Life against thickness"
          name="life-by-thickness"
          draw={drawLives}
          csv={csv}
          note={
            <>
              {legend} {livesCaption(one)}
            </>
          }
        />
      </div>
      {prices && priced.designs.length > 0 && (
        <div className="card">
          <PlotFrame
            title="What a longer life costs"
            name="life-by-cost"
            draw={drawCosts}
            csv={csv}
            note={
              <>
                {legend} {costsCaption(one, priced.dearer)}
              </>
            }
          />
        </div>
      )}
    </div>
  );
}

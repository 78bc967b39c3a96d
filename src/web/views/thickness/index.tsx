/** How thick: the least thickness with which each treatment reaches a life. */
import {useCallback, useMemo} from "react";
import {type Canvas, frontierChart, searchChart} from "../../../report/charts/index.ts";
import {searchCsv} from "../../../report/data/index.ts";
import {
  CAUTION_LINE,
  dearerText,
  displayUnit,
  percent,
  pricedDesigns,
  type SearchCase,
  safetySentence,
  searchAnswer,
  searchDots,
  searchMethod,
  searchRows,
  type UnitSystem,
  years,
} from "../../../report/live/index.ts";
import {fileWord} from "../../../schema/editing/index.ts";
import {Button} from "../../parts/Button.tsx";
import {Choice} from "../../parts/Choice.tsx";
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
import {useAsked} from "../../state/view.ts";
import {useWorkbook} from "../../state/workbook.ts";
import type {AskedThickness} from "../../worker/channel.ts";
import "../../style/plot.css";

export default function Thickness() {
  const run = useThickness();
  const present = useWorkbook(s => s.present);
  const isFresh = isCurrent(run.of, present);
  const obstacle = obstacleOf(useAnswers(s => s.reading));
  const asked = useAskedThickness();
  return (
    <>
      <ViewHead title="How thick">
        The least thickness with which each treatment reaches a life, in steps that can be built.
      </ViewHead>
      <div className="card stack">
        {asked && <Question asked={asked} />}
        {asked && asked.reliability !== null && (
          <p className="small muted">Every thickness that is looked at is sampled by itself, which takes minutes.</p>
        )}
        <RunBar
          run={run}
          label="Find the thickness"
          obstacle={obstacle ?? (asked ? null : "The section has no layer whose thickness is a number.")}
          onStart={() => asked && startThickness(asked)}
          onStop={() => stop("thickness")}
        />
      </div>
      {run.result ? (
        <div className={isFresh ? "stack" : "stack stale"} aria-busy={!isFresh}>
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

/** Layers of the study's section that have a thickness. */
function useCourses(): readonly Course[] {
  const layers = useValue(["section", "layers"]);
  return useMemo(() => {
    const all: readonly unknown[] = Array.isArray(layers) ? layers : [];
    return all.flatMap((layer): Course[] => {
      if (typeof layer !== "object" || layer === null) return [];
      const {name, role, thickness_mm: thickness} = layer as Readonly<Record<string, unknown>>;
      return typeof name === "string" && typeof thickness === "number" ? [{name, role: String(role), thickness}] : [];
    });
  }, [layers]);
}

/** Usual steps of courses [mm]: 5 mm, a quarter of an inch (common practice, no source). */
const STEPS: Readonly<Record<UnitSystem, number>> = {metric: 5, us: 6.35};

/** What was asked last, if the section still has the layer; else the overlay's first course, about what it is. */
function useAskedThickness(): AskedThickness | null {
  const courses = useCourses();
  const last = useAsked(s => s.thickness);
  const period = useValue(["analysis_period_years"]);
  const units = useSettings(s => s.units);
  return useMemo(() => {
    if (last && courses.some(c => c.name === last.layer)) return last;
    const course = courses.find(c => c.role === "overlay") ?? courses[0];
    const target = typeof period === "number" ? period : 20;
    return course ? {...rangeAbout(course, units), target, reliability: null} : null;
  }, [courses, last, period, units]);
}

function rangeAbout(
  {name, thickness}: Course,
  units: UnitSystem,
): Pick<AskedThickness, "layer" | "from" | "to" | "step"> {
  const step = STEPS[units];
  const rounded = (value: number): number => Number((step * Math.max(1, Math.round(value / step))).toPrecision(12));
  return {layer: name, from: rounded(thickness / 2), to: rounded(2 * thickness), step};
}

function Question({asked}: {readonly asked: AskedThickness}) {
  const courses = useCourses();
  const risk = useAnswers(s => s.study?.risk);
  const units = useSettings(s => s.units);
  const length = displayUnit("mm", units);
  const ask = (change: Partial<AskedThickness>): void => useAsked.setState({thickness: {...asked, ...change}});
  const entry = (label: string, which: "from" | "to" | "step") => (
    <NumberEntry
      label={label}
      unit={length.unit}
      value={length.toDisplay(asked[which])}
      onChange={value => ask({[which]: length.fromDisplay(value)})}
    />
  );
  const sure = asked.reliability ?? risk?.reliability ?? null;
  return (
    <div className="fields">
      <NumberEntry label="Life to be reached" unit="years" value={asked.target} onChange={target => ask({target})} />
      <Choice
        label="Lives"
        options={[
          {id: "best", text: "best estimate"},
          ...(sure === null ? [] : [{id: "sure", text: `reached by ${percent(sure)} of samples`}]),
        ]}
        value={asked.reliability === null ? "best" : "sure"}
        onChange={id => ask({reliability: id === "sure" ? sure : null})}
      />
      <Choice
        label="Thickness of"
        options={courses.map(({name}) => ({id: name, text: name}))}
        value={asked.layer}
        onChange={name => ask(rangeAbout(courses.find(c => c.name === name)!, units))}
      />
      {entry("Thinnest", "from")}
      {entry("Thickest", "to")}
      {entry("In steps of", "step")}
    </div>
  );
}

function Result({found, isFresh}: {readonly found: SearchCase; readonly isFresh: boolean}) {
  const units = useSettings(s => s.units);
  const one = useMemo(() => ({...found, units}), [found, units]);
  const {headline, details} = searchAnswer(one);
  return (
    <>
      <section className="card stack" aria-label="Answer">
        <p style={{fontSize: 17, fontWeight: 600}}>{headline}</p>
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
    (canvas: Canvas) => searchChart({dots: searchDots(one), target: one.target, label: one.layer}, canvas),
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
          note={<>{legend} At the thicknesses that were computed. Dashed: the target.</>}
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
                {legend} Present worth over {years(prices.period)}
                {one.sampling && ", with lives as best estimated"}. Line: designs of which none lasts longer for less.{" "}
                {dearerText(priced.dearer)}
              </>
            }
          />
        </div>
      )}
    </div>
  );
}

/** Where it pays: the ratio of lives over two inputs of the study, with the reasons. */
import {useCallback, useEffect, useMemo, useState} from "react";
import {ComboBox, Input, Label, ListBox, ListBoxItem, Button as Plain, Popover} from "react-aria-components";
import {type Canvas, mapKey, surveyChart} from "../../../report/charts/index.ts";
import {surveyCsv} from "../../../report/data/index.ts";
import {
  costMap,
  interpolationSentence,
  lifeMaps,
  lifeRange,
  percent,
  ratioMap,
  ratioRange,
  regionReason,
  type SurveyCase,
  surveyAnswer,
  surveyView,
} from "../../../report/live/index.ts";
import {fileWord} from "../../../schema/editing/index.ts";
import {Button} from "../../parts/Button.tsx";
import {Choice} from "../../parts/Choice.tsx";
import {NumberEntry} from "../../parts/NumberEntry.tsx";
import {PlainTable} from "../../parts/PlainTable.tsx";
import {PlotFrame} from "../../parts/PlotFrame.tsx";
import {RunBar} from "../../parts/RunBar.tsx";
import {ViewHead} from "../../parts/ViewHead.tsx";
import {isCurrent, obstacleOf, useAnswers} from "../../state/answers.ts";
import {computer} from "../../state/computer.ts";
import {download} from "../../state/download.ts";
import {startMap, stop, useMap} from "../../state/longRuns.ts";
import {makeSurveyReport} from "../../state/reports.ts";
import {useSettings} from "../../state/settings.ts";
import {MAP_POINTS, TRAFFIC, useAsked} from "../../state/view.ts";
import {useWorkbook} from "../../state/workbook.ts";
import type {AskedAxis, MapResult, VariableField} from "../../worker/channel.ts";
import "../../style/plot.css";

export default function Pays() {
  const run = useMap();
  const present = useWorkbook(s => s.present);
  const isFresh = isCurrent(run.of, present);
  const study = useAnswers(s => s.study?.study);
  const obstacle = obstacleOf(useAnswers(s => s.reading));
  const fields = useVariables();
  const {across: x, up, treatment} = useAsked();
  const treated = study?.treatments.slice(1).map(t => t.name) ?? [];
  const chosen = treatment !== null && treated.includes(treatment) ? treatment : (treated[0] ?? null);
  const usual = useMemo(() => usualAxis(fields), [fields]);
  // What was asked of another study may not be in this one.
  const isKnown = ({name}: AskedAxis): boolean => fields.length === 0 || fields.some(f => f.name === name);
  const across = x && isKnown(x) ? x : usual;
  const y = isKnown(up) ? up : TRAFFIC;
  return (
    <>
      <ViewHead title="Where it pays">
        On which pavements of this kind the treatment lasts longer, on which it does harm, and why.
      </ViewHead>
      <div className="card stack">
        {treated.length === 0 ? (
          <p>The study has the control alone. Add a treatment in the view “Pavement” to compare it with.</p>
        ) : (
          <>
            <div className="axes">
              <Choice
                label="Treatment, against the control"
                options={treated.map(name => ({id: name, text: name}))}
                value={chosen}
                onChange={id => useAsked.setState({treatment: id})}
              />
              <Axis label="Across" fields={fields} axis={across} onChange={axis => useAsked.setState({across: axis})} />
              <Axis label="Up" fields={fields} axis={y} onChange={axis => useAsked.setState({up: axis})} />
            </div>
            <RunBar
              run={run}
              label="Draw the map"
              obstacle={obstacle ?? (across === null || chosen === null ? "The study has no number to vary." : null)}
              onStart={() => across && chosen && startMap({x: across, y, treatment: chosen})}
              onStop={() => stop("map")}
            />
          </>
        )}
      </div>
      {run.result ? (
        <div className={isFresh ? "stack" : "stack stale"}>
          {!isFresh && <p className="tag warn">Of the study before its last edits.</p>}
          <MapCards map={run.result} isFresh={isFresh} />
        </div>
      ) : (
        <p className="card empty">
          No map yet. It is computed where it is needed and drawn finer step by step; the first picture comes in
          seconds, all of it in minutes.
        </p>
      )}
    </>
  );
}

function useVariables(): readonly VariableField[] {
  const present = useWorkbook(s => s.present);
  const [fields, setFields] = useState<readonly VariableField[]>([]);
  useEffect(() => {
    let isLate = false;
    void computer()
      .variables(present)
      .then(found => !isLate && setFields(found));
    return () => {
      isLate = true;
    };
  }, [present]);
  return fields;
}

/** The overlay's thickness, about what it is. */
function usualAxis(fields: readonly VariableField[]): AskedAxis | null {
  const found = fields.find(f => f.name.startsWith("section.layers") && f.name.endsWith("thickness_mm"));
  return found ? axisAbout(found) : null;
}

function axisAbout({name, base}: VariableField): AskedAxis {
  if (base === 0) return {name, from: 0, to: 1, count: MAP_POINTS};
  const [a, b] = [Number((base * 0.6).toPrecision(2)), Number((base * 1.8).toPrecision(2))];
  return {name, from: Math.min(a, b), to: Math.max(a, b), count: MAP_POINTS};
}

interface AxisProps {
  readonly label: string;
  readonly fields: readonly VariableField[];
  readonly axis: AskedAxis | null;
  readonly onChange: (axis: AskedAxis) => void;
}

function Axis({label, fields, axis, onChange}: AxisProps) {
  return (
    <fieldset className="group-of-fields stack">
      <legend>{label}</legend>
      <ComboBox
        className="field"
        defaultItems={fields.map(f => ({...f, id: f.name}))}
        key={`${fields.length} ${axis?.name ?? ""}`}
        defaultSelectedKey={axis?.name ?? null}
        onSelectionChange={key => {
          const field = fields.find(f => f.name === key);
          if (field && field.name !== axis?.name) onChange(axisAbout(field));
        }}
      >
        <Label>Number of the study</Label>
        <div className="entry">
          <Input />
          <Plain className="button bare">▾</Plain>
        </div>
        <Popover className="pop">
          <ListBox<VariableField & {id: string}>>
            {field => <ListBoxItem className="item">{field.label}</ListBoxItem>}
          </ListBox>
        </Popover>
      </ComboBox>
      <span className="small muted">In the units of the study, which are metric.</span>
      {axis && (
        <div className="row" style={{flexWrap: "nowrap"}}>
          <NumberEntry label="from" value={axis.from} onChange={from => onChange({...axis, from})} />
          <NumberEntry label="to" value={axis.to} onChange={to => onChange({...axis, to})} />
        </div>
      )}
    </fieldset>
  );
}

function caseOf(map: MapResult): SurveyCase {
  const outcomes = new Map(map.outcomes.map(({i, j, outcome}) => [`${i},${j}`, outcome]));
  return {
    study: map.study,
    x: map.x.input,
    y: map.y.input,
    treatments: map.treatments,
    interlayer: map.hasInterlayer,
    accuracy: map.accuracy,
    survey: {x: map.x, y: map.y, level: map.level, outcome: (i, j) => outcomes.get(`${i},${j}`)},
    missed: map.missed,
    computed: map.computed,
    finished: map.isFinished,
  };
}

const HEIGHT = 420; // [px]

function MapCards({map, isFresh}: {readonly map: MapResult; readonly isFresh: boolean}) {
  const units = useSettings(s => s.units);
  const one = useMemo(() => caseOf(map), [map]);
  const view = useMemo(() => surveyView(one), [one]);
  const {headline, details} = surveyAnswer({...one, units}, view);
  const ratios = useMemo(() => ratioMap(one, view, {height: HEIGHT, units}), [one, view, units]);
  const lives = useMemo(() => lifeMaps(one, view, {height: HEIGHT * 0.75, units}).maps, [one, view, units]);
  const costs = useMemo(() => costMap(one, view, {height: HEIGHT * 0.75, units}), [one, view, units]);
  const csv = (): string => surveyCsv(one);
  return (
    <>
      <section className="card stack" aria-label="Answer">
        <p style={{fontSize: 17, fontWeight: 600}}>{headline}</p>
        {details.map(text => (
          <p key={text}>{text}</p>
        ))}
        <div className="row">
          <Button
            isDisabled={!isFresh} // it tells what it was made from
            onPress={() =>
              void makeSurveyReport(one).then(text =>
                download(`${fileWord(map.study, "study")}-where-it-pays.html`, text, "text/html"),
              )
            }
          >
            Download the report
          </Button>
          <span className="small muted">{interpolationSentence(one)}</span>
        </div>
      </section>
      <div className="columns">
        <div className="card stack">
          <MapPlot title="Life with the treatment over life without" name="ratio-map" map={ratios} csv={csv} />
          <Regions one={one} view={view} />
        </div>
        <div className="stack">
          {lives.map((own, k) => (
            <div className="card" key={one.treatments[k]}>
              <MapPlot title={`Life with ${one.treatments[k]}`} name={`life-map-${k + 1}`} map={own} csv={csv} />
            </div>
          ))}
          {costs && (
            <div className="card">
              <MapPlot title="Present worth over the control’s" name="cost-map" map={costs} csv={csv} />
            </div>
          )}
        </div>
      </div>
    </>
  );
}

interface MapPlotProps {
  readonly title: string;
  readonly name: string;
  readonly map: Parameters<typeof surveyChart>[0];
  readonly csv: () => string;
}

function MapPlot({title, name, map, csv}: MapPlotProps) {
  const draw = useCallback(
    (canvas: Canvas) => `<div class="map-key">${mapKey(map.scale)}</div>${surveyChart(map, canvas)}`,
    [map],
  );
  return <PlotFrame title={title} name={name} draw={draw} csv={csv} />;
}

function Regions({one, view: {regions}}: {readonly one: SurveyCase; readonly view: ReturnType<typeof surveyView>}) {
  return (
    <PlainTable
      columns={[
        {title: "Region", isNumber: true},
        {title: "What rules there"},
        {title: "Ratio", isNumber: true},
        {title: "Treated life, years", isNumber: true},
        {title: "Of the map", isNumber: true},
      ]}
      rows={regions.map((r, k) => ({
        key: `${r.cause} ${r.effect}`,
        cells: [
          k + 1,
          regionReason(r, one),
          ratioRange(r),
          lifeRange(r),
          percent(Math.max(0.01, Math.round(r.share * 100) / 100)),
        ],
      }))}
    />
  );
}

/** Climate: the record, what it does to the pavement's temperature, and the cycles that strain the tip. */
import {useCallback, useMemo, useState} from "react";
import type {LifeResult} from "../../../engine/life/types.ts";
import {
  type Canvas,
  cycleBins,
  cycleDamageChart,
  cyclesChart,
  envelopeChart,
  extremeWeeks,
  temperatureChart,
  weekChart,
} from "../../../report/charts/index.ts";
import {cyclesCsv, depthTemperaturesCsv, envelopeCsv, temperatureCsv} from "../../../report/data/index.ts";
import {frontExponent, percent, quantityText} from "../../../report/live/index.ts";
import {fileWord} from "../../../schema/editing/index.ts";
import {Files} from "../../parts/Files.tsx";
import {PlainTable} from "../../parts/PlainTable.tsx";
import {PlotFrame, type Span} from "../../parts/PlotFrame.tsx";
import {SchemaForm} from "../../parts/SchemaForm.tsx";
import {Stale} from "../../parts/Stale.tsx";
import {ViewHead} from "../../parts/ViewHead.tsx";
import {useAnswers} from "../../state/answers.ts";
import {useSettings} from "../../state/settings.ts";
import {useCursor} from "../../state/view.ts";
import "../../style/plot.css";

export default function Climate() {
  const result = useAnswers(s => s.result);
  return (
    <>
      <ViewHead title="Climate">
        An hourly or daily record of temperature, from which the temperature at every depth and its daily and yearly
        swings follow.
      </ViewHead>
      <div className="columns results-first">
        <div className="card stack">
          <SchemaForm path={["climate"]} />
          <h3>Surface, strain-free temperature and bins</h3>
          <SchemaForm path={[]} without={WITHOUT} />
          <Files />
        </div>
        <Stale>
          {result ? (
            <Pictures result={result} />
          ) : (
            <p className="card empty">Pictures follow when the study is solved.</p>
          )}
        </Stale>
      </div>
    </>
  );
}

/** Keys of the study that other views have. */
const WITHOUT = [
  "format",
  "name",
  "materials",
  "section",
  "treatments",
  "traffic",
  "climate",
  "uncertainty",
  "analysis_period_years",
  "costs",
  "numerical",
];

function Pictures({result}: {readonly result: LifeResult}) {
  const {weather} = result.study;
  const {temperatures, treatment, bins} = result.treatments[0];
  if (!weather || !temperatures)
    return (
      <div className="card empty">
        <p>Without a record only traffic is computed. Add “Hourly” or “Daily” under Climate, and its table below.</p>
      </div>
    );
  return (
    <>
      <Record result={result} />
      <Weeks result={result} />
      <Envelope result={result} />
      <Cycles result={result} />
      <div className="card stack">
        <h3>Temperatures at which wheels are computed</h3>
        <BinTable bins={bins} />
        <p className="small muted">
          Of the overlay of “{treatment.name}”, with the share of the year’s passes at each.
        </p>
      </div>
    </>
  );
}

function Record({result}: {readonly result: LifeResult}) {
  const {weather} = result.study;
  const {temperatures} = result.treatments[0];
  const years = useCursor(s => s.years);
  const units = useSettings(s => s.units);
  const days = weather!.temperature.length / 24;
  const whole: Span = useMemo(() => [0, days], [days]);
  const [span, setSpan] = useState<Span>(whole);
  const isWhole = span[0] <= 0 && span[1] >= days;
  const draw = useCallback(
    (canvas: Canvas) =>
      temperatureChart({weather: weather!, temperatures: temperatures!, ...(!isWhole && {window: span})}, canvas),
    [weather, temperatures, span, isWhole],
  );
  // The slider's time stands at a day of the year; the record begins on one.
  const first = weather!.startDay ?? 0;
  const cursor = ((((years % 1) * 365 - first) % 365) + 365) % 365;
  const text = (value: number): string => quantityText(value, "temperature", units);
  const move = (day: number | null): void => {
    if (day === null) return;
    const whole = Math.floor(useCursor.getState().years);
    useCursor.setState({years: whole + ((((day + first) % 365) + 365) % 365) / 365});
  };
  return (
    <div className="card">
      <PlotFrame
        title="The year’s temperatures"
        name="temperatures"
        draw={draw}
        csv={() => temperatureCsv({weather: weather!, temperatures: temperatures!})}
        zoom={{whole, span, onZoom: setSpan}}
        cursor={cursor < days ? cursor : null}
        onCursor={move}
        readout={day => {
          const hour = Math.min(weather!.temperature.length - 1, Math.max(0, Math.floor(day * 24)));
          return [
            `hour ${(hour + weather!.startHour) % 24}`,
            `${weather!.kind}: ${text(weather!.temperature[hour])}`,
            ...temperatures!.atDepth.map(
              ({depth, temperature}) => `${quantityText(depth, "length", units)} down: ${text(temperature[hour])}`,
            ),
          ];
        }}
        note={`${weather!.label}. The dashed line is the day of the time below the sections; pointing moves it.`}
      />
    </div>
  );
}

function Weeks({result}: {readonly result: LifeResult}) {
  const {temperatures, treatment} = result.treatments[0];
  const {layers} = treatment.section;
  const {warm, cold} = extremeWeeks(temperatures!.surface);
  const drawWarm = useCallback(
    (canvas: Canvas) => weekChart(temperatures!.atDepth, {layers, day: warm}, canvas),
    [temperatures, layers, warm],
  );
  const drawCold = useCallback(
    (canvas: Canvas) => weekChart(temperatures!.atDepth, {layers, day: cold}, canvas),
    [temperatures, layers, cold],
  );
  const csv = (day: number) => () => depthTemperaturesCsv(temperatures!.atDepth, layers, [day, day + 7]);
  return (
    <div className="card stack">
      <PlotFrame title="The warmest week" name="warmest-week" draw={drawWarm} csv={csv(warm)} />
      <PlotFrame title="The coldest week" name="coldest-week" draw={drawCold} csv={csv(cold)} />
    </div>
  );
}

function Envelope({result}: {readonly result: LifeResult}) {
  const {temperatures, treatment} = result.treatments[0];
  const draw = useCallback(
    (canvas: Canvas) => envelopeChart(temperatures!, treatment.section.layers, canvas),
    [temperatures, treatment],
  );
  return (
    <div className="card">
      <PlotFrame
        title="Lowest, mean and highest by depth"
        name="temperature-by-depth"
        draw={draw}
        csv={() => envelopeCsv(temperatures!)}
      />
    </div>
  );
}

function Cycles({result}: {readonly result: LifeResult}) {
  return result.treatments.map(life => {
    const {thermalCycles, treatment} = life;
    return thermalCycles ? <TreatmentCycles key={treatment.name} life={life} /> : null;
  });
}

function TreatmentCycles({life}: {readonly life: LifeResult["treatments"][number]}) {
  const {thermalCycles, treatment} = life;
  const exponent = frontExponent(life);
  const bins = useMemo(() => cycleBins(thermalCycles!, exponent), [thermalCycles, exponent]);
  const draw = useCallback((canvas: Canvas) => cyclesChart(bins, canvas), [bins]);
  const drawDamage = useCallback((canvas: Canvas) => cycleDamageChart(bins, canvas), [bins]);
  if (bins.length === 0) return null;
  const name = fileWord(treatment.name, "treatment");
  return (
    <div className="card columns">
      <PlotFrame
        title={`Cycles of tip strain, ${treatment.name}`}
        name={`${name}-cycles`}
        draw={draw}
        csv={() => cyclesCsv(bins)}
      />
      <PlotFrame title="What they do" name={`${name}-cycle-damage`} draw={drawDamage} csv={() => cyclesCsv(bins)} />
    </div>
  );
}

function BinTable({bins}: {readonly bins: LifeResult["treatments"][number]["bins"]}) {
  const units = useSettings(s => s.units);
  return (
    <PlainTable
      columns={[{title: "Overlay temperature"}, {title: "Share of passes", isNumber: true}]}
      rows={bins.map(({temperature, share}) => ({
        key: temperature,
        cells: [quantityText(temperature, "temperature", units), percent(share)],
      }))}
    />
  );
}

/** How sure: lives at a reliability, their spread, and what they depend on. */
import {useCallback, useMemo} from "react";
import {studyCosts} from "../../../engine/cost/index.ts";
import type {RiskResult} from "../../../engine/uncertainty/index.ts";
import {
  type Canvas,
  fanChart,
  ratioNumber,
  survivalChart,
  swingChart,
  yearsText,
} from "../../../report/charts/index.ts";
import {fanCsv, survivalCsv, swingsCsv} from "../../../report/data/index.ts";
import {
  CAUTION_LINE,
  cheapestText,
  dependence,
  estimateText,
  intervalAt,
  lifeAt,
  mechanismText,
  percent,
  ratioBoundText,
  riskHeadlines,
  samplingText,
  survivalText,
  swingsOfLife,
  swingsOfRatio,
} from "../../../report/live/index.ts";
import {fileWord} from "../../../schema/editing/index.ts";
import {Button} from "../../parts/Button.tsx";
import {Fold} from "../../parts/Fold.tsx";
import {Legend} from "../../parts/Legend.tsx";
import {PlainTable} from "../../parts/PlainTable.tsx";
import {PlotFrame} from "../../parts/PlotFrame.tsx";
import {RunBar} from "../../parts/RunBar.tsx";
import {SchemaForm} from "../../parts/SchemaForm.tsx";
import {ViewHead} from "../../parts/ViewHead.tsx";
import {isCurrent, obstacleOf, useAnswers} from "../../state/answers.ts";
import {download} from "../../state/download.ts";
import {startRisk, stop, useRisk} from "../../state/longRuns.ts";
import {makeRiskReport} from "../../state/reports.ts";
import {useWorkbook} from "../../state/workbook.ts";
import "../../style/plot.css";

export default function Certainty() {
  const run = useRisk();
  const reading = useAnswers(s => s.reading);
  const present = useWorkbook(s => s.present);
  const isFresh = isCurrent(run.of, present);
  return (
    <>
      <ViewHead title="How sure">
        Many studies in place of one: every uncertain input is drawn from its spread. A first picture comes after a few
        sections; all of them take minutes.
      </ViewHead>
      <div className="card stack">
        <RunBar
          run={run}
          label="Draw samples"
          obstacle={obstacleOf(reading)}
          onStart={startRisk}
          onStop={() => stop("risk")}
        />
        <Fold title="What is uncertain, and by how much" level={3} path={["uncertainty"]}>
          <p className="small muted">
            Left out, everything has the usual spread of its kind. Values are in the units of the study, which are
            metric.
          </p>
          <SchemaForm path={["uncertainty"]} />
        </Fold>
      </div>
      {run.result ? (
        <div className={isFresh ? "stack" : "stack stale"} aria-busy={run.progress !== null}>
          {!isFresh && <p className="tag warn">Of the study before its last edits.</p>}
          <Result result={run.result} isFresh={isFresh} />
        </div>
      ) : (
        <p className="card empty">No samples yet. Before you tell a client a life, ask here how sure it is.</p>
      )}
    </>
  );
}

function Result({result, isFresh}: {readonly result: RiskResult; readonly isFresh: boolean}) {
  const [headline, ...details] = riskHeadlines(result);
  const costs = useOwnCosts();
  const more = [...details, estimateText(result), cheapestText(result), isFresh ? costs : null, ...dependence(result)];
  return (
    <>
      <section className="card stack" aria-label="Answer">
        <p style={{fontSize: 17, fontWeight: 600}}>{headline}</p>
        {more.map(text => text !== null && <p key={text}>{text}</p>)}
        <LifeTable result={result} />
        <p className="small muted">{CAUTION_LINE}</p>
        <div className="row">
          <Button
            isDisabled={!isFresh} // it tells what it was made from
            onPress={() =>
              void makeRiskReport(result).then(text =>
                download(`${fileWord(result.study.name, "study")}-risk.html`, text, "text/html"),
              )
            }
          >
            Download the report
          </Button>
          <span className="small muted">{samplingText(result)}</span>
        </div>
      </section>
      <div className="columns">
        <div className="card">
          <Survival result={result} />
        </div>
        {result.treatments.map(t => (
          <div className="card" key={t.name}>
            <Fan treatment={t} />
          </div>
        ))}
      </div>
      {result.finished && (
        <div className="columns">
          {result.treatments.map((t, k) => (
            <div className="card stack" key={t.name}>
              <SwingPlot result={result} treatment={k} isRatio={false} />
              {k > 0 && <SwingPlot result={result} treatment={k} isRatio />}
            </div>
          ))}
        </div>
      )}
    </>
  );
}

/** Which treatment is the cheapest with the study's own values: samples may say another. */
function useOwnCosts(): string | null {
  const present = useWorkbook(s => s.present);
  const result = useAnswers(s => (isCurrent(s.resultOf, present) ? s.result : null));
  return useMemo(() => {
    const told = result && studyCosts(result);
    if (!told || told.treatments.length < 2) return null;
    const cheapest = told.treatments.reduce((best, t) => (t.presentWorth < best.presentWorth ? t : best));
    return `With the study’s values as they are, the cheapest is “${cheapest.name}”, as the view “Costs” tells.`;
  }, [result]);
}

function LifeTable({result}: {readonly result: RiskResult}) {
  const {reliability} = result.plan;
  const shown = [...new Set([0.5, 0.85, 0.95, reliability])].sort((a, b) => a - b);
  return (
    <PlainTable
      caption="Lives in years at so much reliability: that part of the samples lasts longer."
      columns={[
        {title: "Treatment"},
        ...shown.map(r => ({title: percent(r), isNumber: true})),
        {title: `90 % interval at ${percent(reliability)}`, isNumber: true},
        {title: `Lasts ${result.study.analysisPeriod} years`, isNumber: true},
        {title: "Ratio, and its middle 90 %", isNumber: true},
        {title: "Ends by"},
      ]}
      rows={result.treatments.map(t => ({
        key: t.name,
        cells: [
          t.name,
          ...shown.map(r => lifeAt(t, r)),
          intervalAt(t, reliability),
          survivalText(t),
          t.ratio
            ? `${ratioBoundText(t.ratio.quantiles[1].ratio)} (${ratioBoundText(t.ratio.quantiles[0].ratio)} to ${ratioBoundText(t.ratio.quantiles[2].ratio)})`
            : "×1",
          mechanismText(t),
        ],
      }))}
    />
  );
}

function Survival({result: {samples, treatments, study}}: {readonly result: RiskResult}) {
  const lives = useMemo(
    () =>
      treatments.map(({name}, k) => ({
        name,
        years: samples.map(s => (s.lives[k].censored ? Infinity : s.lives[k].years)),
      })),
    [treatments, samples],
  );
  const draw = useCallback((canvas: Canvas) => survivalChart(lives, study.analysisPeriod, canvas), [lives, study]);
  return (
    <PlotFrame
      title="Part of the samples that still last"
      name="survival"
      draw={draw}
      csv={() => survivalCsv(lives)}
      note={<Legend names={treatments.map(t => t.name)} />}
    />
  );
}

function Fan({treatment}: {readonly treatment: RiskResult["treatments"][number]}) {
  const draw = useCallback((canvas: Canvas) => fanChart(treatment, canvas), [treatment]);
  return (
    <PlotFrame
      title={`Cracked depth, ${treatment.name}`}
      name={`${fileWord(treatment.name, "treatment")}-depth`}
      draw={draw}
      csv={() => fanCsv([treatment])}
      note="Line: half of the samples are cracked deeper. Band: the middle 80 % of them."
    />
  );
}

function SwingPlot({
  result,
  treatment,
  isRatio,
}: {
  readonly result: RiskResult;
  readonly treatment: number;
  readonly isRatio: boolean;
}) {
  const swings = useMemo(
    () => (isRatio ? swingsOfRatio(result, treatment) : swingsOfLife(result, treatment)),
    [result, treatment, isRatio],
  );
  const own = result.base[treatment].years;
  const base = isRatio ? own / result.base[0].years : own;
  const {name} = result.treatments[treatment];
  const draw = useCallback(
    (canvas: Canvas) =>
      swingChart(
        swings,
        {base, label: isRatio ? "Ratio to the control" : "Life, years", write: isRatio ? ratioNumber : yearsText},
        canvas,
      ),
    [swings, base, isRatio],
  );
  return (
    <PlotFrame
      title={isRatio ? `What the ratio of ${name} depends on` : `What the life of ${name} depends on`}
      name={`${fileWord(name, "treatment")}-${isRatio ? "ratio" : "life"}-depends-on`}
      draw={draw}
      csv={() => swingsCsv(swings, {quantity: isRatio ? "ratio" : "life_years", base})}
      note="One input at its 10 % and at its 90 % quantile, all others as in the study."
    />
  );
}

/** Costs: prices in, present worth and break-even out. */
import {useCallback, useMemo} from "react";
import {type CostResult, studyCosts} from "../../../engine/cost/index.ts";
import type {LifeResult} from "../../../engine/life/types.ts";
import {type Canvas, costsChart} from "../../../report/charts/index.ts";
import {costsCsv} from "../../../report/data/index.ts";
import {cheapestText, money, years, yearsNumber} from "../../../report/live/index.ts";
import {Button} from "../../parts/Button.tsx";
import {Legend} from "../../parts/Legend.tsx";
import {PlainTable} from "../../parts/PlainTable.tsx";
import {PlotFrame} from "../../parts/PlotFrame.tsx";
import {SchemaForm} from "../../parts/SchemaForm.tsx";
import {Stale} from "../../parts/Stale.tsx";
import {ViewHead} from "../../parts/ViewHead.tsx";
import {isCurrent, useAnswers} from "../../state/answers.ts";
import {useRisk} from "../../state/longRuns.ts";
import {useValue} from "../../state/value.ts";
import {edit, useWorkbook} from "../../state/workbook.ts";
import "../../style/plot.css";

export default function Costs() {
  const result = useAnswers(s => s.result);
  const hasCosts = useValue(["costs"]) !== undefined;
  return (
    <>
      <ViewHead title="Costs">
        What each treatment costs over a period, and up to what price an interlayer is worth having.
      </ViewHead>
      <div className="columns results-first">
        <div className="card stack">
          {hasCosts ? (
            <SchemaForm path={["costs"]} />
          ) : (
            <div className="empty">
              <p>The study has no prices.</p>
              <Button
                look="main"
                onPress={() =>
                  edit("add prices", [
                    {
                      path: ["costs"],
                      value: {
                        currency: "EUR",
                        price_date: "not stated",
                        discount_percent: 3,
                        analysis_period_years: 40,
                      },
                    },
                  ])
                }
              >
                Add prices
              </Button>
            </div>
          )}
        </div>
        <Stale>
          {result ? <Told result={result} /> : <p className="card empty">Costs follow when the study is solved.</p>}
        </Stale>
      </div>
    </>
  );
}

function Told({result}: {readonly result: LifeResult}) {
  const told = useMemo(() => studyCosts(result), [result]);
  if (told === null)
    return <p className="card empty">Costs follow when every price is there; lives do not wait for them.</p>;
  return (
    <>
      <CostTable told={told} />
      <Worth told={told} />
      <Sampled />
    </>
  );
}

/** What samples say of the same, which may be another thing: these costs are of the study's own values. */
function Sampled() {
  const {result, of} = useRisk();
  const present = useWorkbook(s => s.present);
  const text = useMemo(() => (result?.finished ? cheapestText(result) : null), [result]);
  return (
    <p className="card small">
      Lives here are those of the study’s own values.{" "}
      {text !== null && isCurrent(of, present)
        ? `Over the samples of “How sure”: ${text}`
        : "Over samples of what is uncertain another treatment may be the cheapest: “How sure” tells it."}
    </p>
  );
}

function CostTable({told: {costs, treatments, warnings}}: {readonly told: CostResult}) {
  const {currency, period} = costs;
  const cheapest = Math.min(...treatments.map(t => t.presentWorth));
  return (
    <div className="card stack">
      <h3>
        A square metre over {years(period)}, in {currency}
      </h3>
      <PlainTable
        columns={[
          {title: "Treatment"},
          {title: "First construction", isNumber: true},
          {title: "Life, years", isNumber: true},
          {title: "Renewals", isNumber: true},
          {title: "Present worth", isNumber: true},
          {title: "Annual cost", isNumber: true},
        ]}
        rows={treatments.map(t => {
          const isCheapest = t.presentWorth === cheapest;
          return {
            key: t.name,
            governs: isCheapest,
            cells: [
              isCheapest && treatments.length > 1 ? `${t.name} ◂ cheapest` : t.name,
              money(t.first.total),
              <>
                {yearsNumber(t.life)}
                {t.capped && <sup>a</sup>}
              </>,
              t.renewals,
              money(t.presentWorth),
              money(t.annual),
            ],
          };
        })}
      />
      {treatments.some(t => t.capped) && (
        <p className="small muted">
          <sup>a</sup> The computed life is longer; other causes are taken to end it by then.
        </p>
      )}
      {treatments.map(({name, breakEven}) =>
        breakEven === null ? null : (
          <p key={name}>
            <b>{name}</b>: its {breakEven.subject} costs {money(breakEven.paid)} {currency}/m²;{" "}
            {breakEven.perArea > 0
              ? `up to ${money(breakEven.perArea)} ${currency}/m² it is worth having.`
              : "it would be dearer even for nothing."}
          </p>
        ),
      )}
      {warnings.map(text => (
        <p key={text} className="note warn small">
          {text}
        </p>
      ))}
    </div>
  );
}

function Worth({told}: {readonly told: CostResult}) {
  const draw = useCallback((canvas: Canvas) => costsChart(told, canvas), [told]);
  return (
    <div className="card">
      <PlotFrame
        title="Costs as they come"
        name="costs"
        draw={draw}
        csv={() => costsCsv(told)}
        note={<Legend names={told.treatments.map(t => t.name)} />}
      />
    </div>
  );
}

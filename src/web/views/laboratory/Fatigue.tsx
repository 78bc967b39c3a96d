/** Bending fatigue tests: lines, materials at equal strain, every specimen. */
import {memo, useCallback} from "react";
import type {FatigueResult, MaterialFatigue} from "../../../engine/laboratory/index.ts";
import {type Canvas, comparisonChart, fatigueChart, historyChart} from "../../../report/charts/index.ts";
import {count, fatigueAnswer, figures, findingTexts, lineTexts, percent} from "../../../report/laboratory/index.ts";
import {Legend} from "../../parts/Legend.tsx";
import {PlainTable} from "../../parts/PlainTable.tsx";
import {PlotFrame} from "../../parts/PlotFrame.tsx";
import type {FatigueAnswer} from "../../worker/laboratoryChannel.ts";
import {comparisonCsv, fatigueCsv, historyCsv} from "./csv.ts";
import {ReadingFaults, Remarks} from "./Reading.tsx";
import {Rows, type TestRow} from "./Rows.tsx";

export const Fatigue = memo(function Fatigue({answer}: {readonly answer: FatigueAnswer}) {
  const {reading, result, problem} = answer;
  return (
    <section className="card stack" aria-labelledby="laboratory-fatigue">
      <h2 id="laboratory-fatigue">Bending fatigue tests</h2>
      {result && <Lines result={result} />}
      {problem && (
        <p role="alert" className="note bad">
          {problem}
        </p>
      )}
      {!result && !problem && <p>No specimen is left.</p>}
      <ReadingFaults {...reading} />
      {result && (
        <>
          <Remarks title="Findings" lines={findingTexts(result)} />
          <h3>Specimens</h3>
          <Rows label="Specimens" noun="Specimen" columns={COLUMNS} rows={specimenRows(answer, result)} />
        </>
      )}
    </section>
  );
});

function Lines({result}: {readonly result: FatigueResult}) {
  const {materials, comparisons, probability, programme} = result;
  const names = materials.map(m => m.material);
  const {headline, details} = fatigueAnswer(result);
  const tested = programme.specimens.filter(s => s.history !== null);
  const drawLines = useCallback(
    (canvas: Canvas) => fatigueChart(result.materials, result.probability, canvas),
    [result],
  );
  const drawComparison = useCallback(
    (canvas: Canvas) =>
      comparisonChart(
        result.comparisons,
        result.materials.map(m => m.material),
        canvas,
      ),
    [result],
  );
  const drawHistories = useCallback(
    (canvas: Canvas) =>
      historyChart(
        result.programme.specimens.filter(s => s.history !== null),
        result.materials.map(m => m.material),
        canvas,
      ),
    [result],
  );
  return (
    <>
      <div aria-live="polite">
        <p>
          <b>{headline}</b>
        </p>
        {details.map(line => (
          <p key={line}>{line}</p>
        ))}
      </div>
      <LineTable materials={materials} probability={probability} />
      <div className="columns">
        <PlotFrame
          title="Fatigue lines"
          name="fatigue-lines"
          draw={drawLines}
          csv={() => fatigueCsv(result)}
          note={
            <>
              <Legend names={names} /> Open with an arrow: run-out, its life is longer. Crossed: set aside. Dark band:
              where the line is ({percent(probability)}); light band: where one more specimen would be.
            </>
          }
        />
        {comparisons.length > 0 && (
          <PlotFrame
            title="Materials at equal strain"
            name="lives-compared"
            draw={drawComparison}
            csv={() => comparisonCsv(result)}
            note={`Life over that of ${comparisons[0].reference} at equal strain, with its interval, where both were tested. Dotted: beyond that, extrapolated; not to be relied on.`}
          />
        )}
        {tested.length > 0 && (
          <PlotFrame
            title="Stiffness"
            name="stiffness-histories"
            draw={drawHistories}
            csv={() => historyCsv(tested)}
            note="Stiffness over its value at the 100th cycle. A specimen has failed at half of it."
          />
        )}
      </div>
    </>
  );
}

function LineTable({materials, probability}: Pick<FatigueResult, "materials" | "probability">) {
  return (
    <PlainTable
      caption={
        <>
          N = 10⁶·(ε₆/ε)
          <sup>k</sup>; intervals of {percent(probability)}
        </>
      }
      columns={[
        {title: "Material"},
        {title: "ε₆, µε", isNumber: true},
        {title: "Interval", isNumber: true},
        {title: "k", isNumber: true},
        {title: "Interval", isNumber: true},
        {title: "Scatter of lg N", isNumber: true},
        {title: "Specimens", isNumber: true},
      ]}
      rows={materials.map(m => {
        const own = lineTexts(m, probability);
        return {
          key: m.material,
          cells: [
            m.material,
            own.strain,
            own.strainInterval,
            own.k,
            own.kInterval,
            own.scatter,
            own.runOuts > 0 ? `${own.specimens}, ${own.runOuts} run-out` : own.specimens,
          ],
        };
      })}
    />
  );
}

const COLUMNS = [
  {title: "Material", isNumber: false},
  {title: "Strain, µε", isNumber: true},
  {title: "Cycles", isNumber: true},
  {title: "Modulus, MPa", isNumber: true},
];

function specimenRows({reading: {origins}}: FatigueAnswer, {materials, programme}: FatigueResult): TestRow[] {
  return materials.flatMap(material =>
    material.points.map((p): TestRow => {
      const specimen = programme.specimens[p.specimen];
      const modulus = specimen.history?.initialModulus ?? specimen.initialModulus;
      return {
        name: p.name,
        cells: [
          material.material,
          figures(p.strain * 1e6),
          `${p.runOut ? "> " : ""}${count(p.cycles)}`,
          modulus === null ? "–" : figures(modulus / 1e6),
        ],
        remark: findingCodes(material, p.name),
        setAside: p.setAside,
        place: origins.get(p.name) ?? null,
      };
    }),
  );
}

function findingCodes({findings}: MaterialFatigue, name: string): string {
  const own = findings.filter(f => f.code !== "set-aside" && f.specimens.includes(name));
  return own
    .map(f => f.code)
    .join(", ")
    .replaceAll("-", " ");
}

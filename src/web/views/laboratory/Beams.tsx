/** Wheel-tracked beams: the fit of growth laws, its worth, every beam. */
import {memo, useCallback} from "react";
import {Label, ProgressBar} from "react-aria-components";
import type {BeamTest, Calibration} from "../../../engine/laboratory/index.ts";
import {beamChart, type Canvas, lawChart, predictionChart, residualChart} from "../../../report/charts/index.ts";
import {
  AT_STRAIN,
  beamRows,
  calibrationAnswer,
  choiceText,
  coefficientText,
  count,
  figures,
  intervalText,
  levelText,
  originText,
  otherMaterials,
  percent,
  rateText,
  warningTexts,
} from "../../../report/laboratory/index.ts";
import {Button} from "../../parts/Button.tsx";
import {Legend} from "../../parts/Legend.tsx";
import {PlainTable} from "../../parts/PlainTable.tsx";
import {PlotFrame} from "../../parts/PlotFrame.tsx";
import {
  cancelBeams,
  type FittedBeams,
  fitBeams,
  useCurrentFit,
  useLaboratory,
  useProgramme,
} from "../../state/laboratory.ts";
import type {BeamsLook} from "../../worker/laboratoryChannel.ts";
import {frontsCsv, lawCsv, predictionCsv, residualCsv} from "./csv.ts";
import {ReadingFaults, Remarks} from "./Reading.tsx";
import {Rows, type TestRow} from "./Rows.tsx";

export const Beams = memo(function Beams({look}: {readonly look: BeamsLook}) {
  const fitted = useLaboratory(s => s.fitted);
  const isRunning = useLaboratory(s => s.fitting.status === "running");
  const {programme} = useProgramme();
  const isFresh = useCurrentFit() === fitted;
  const {reading, unknown, missing} = look;
  const left = reading.beams.filter(b => b.setAside === null).length;
  const isReading = useLaboratory(l => l.isReading); // tables may be others than those shown
  const obstacle = obstacleOf({left, hasProgramme: programme !== null, unknown});
  return (
    <section className="card stack" aria-labelledby="laboratory-beams">
      <h2 id="laboratory-beams">Wheel-tracked beams</h2>
      <ReadingFaults {...reading} />
      {missing.length > 0 && (
        <p className="note warn">
          The programme names fatigue tables that are not used: {missing.join(", ")}. They give the law of an interlayer
          that does not crack.
        </p>
      )}
      <div className="row">
        <Button look="main" isDisabled={obstacle !== null || isRunning || isReading} onPress={() => void fitBeams()}>
          Fit growth laws to {left} {left === 1 ? "beam" : "beams"}
        </Button>
        {obstacle && <span className="muted">{obstacle}</span>}
      </div>
      <Fit />
      {fitted && (
        <div className={isFresh ? "stack" : "stack laboratory-old"}>
          {!isFresh && <p className="note warn">Tables, choices or programme have changed since: fit anew.</p>}
          <Laws fitted={fitted} />
        </div>
      )}
      <h3>Beams</h3>
      <Rows label="Beams" noun="Beam" columns={COLUMNS} rows={reading.beams.map(b => beamRow(b, look))} />
    </section>
  );
});

function obstacleOf({
  left,
  hasProgramme,
  unknown,
}: {
  readonly left: number;
  readonly hasProgramme: boolean;
  readonly unknown: readonly string[];
}): string | null {
  if (left === 0) return "No beam is left.";
  if (!hasProgramme) return "The programme is missing, or has faults.";
  return unknown.length
    ? `The programme says nothing of ${unknown.join(", ")}: under materials give each an aggregate_mm or a process_zone_mm.`
    : null;
}

function Fit() {
  const fitting = useLaboratory(s => s.fitting);
  switch (fitting.status) {
    case "idle":
      return null;
    case "stopped":
      return <p role="status">Stopped.</p>;
    case "failed":
      return (
        <p role="alert" className="note bad">
          {fitting.message}
        </p>
      );
    case "running": {
      const {done, doing} = fitting.progress;
      return (
        <div className="row">
          <ProgressBar className="progress laboratory-progress" value={100 * done}>
            {({percentage = 0, valueText}) => (
              <>
                <Label>
                  Fitting{doing && `: ${doing}`} ({valueText})
                </Label>
                <div className="bar">
                  <div className="fill" style={{width: `${percentage}%`}} />
                </div>
              </>
            )}
          </ProgressBar>
          <Button onPress={cancelBeams}>Cancel</Button>
        </div>
      );
    }
  }
}

const Laws = memo(function Laws({fitted}: {readonly fitted: FittedBeams}) {
  const {calibration} = fitted;
  const {headline, details} = calibrationAnswer(calibration);
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
      <LawTable calibration={calibration} />
      <Pictures calibration={calibration} />
      <PassesTable calibration={calibration} />
      <ul>
        {calibration.choices.map(c => (
          <li key={c.choice}>
            {c.choice}:{" "}
            {c.known
              ? `readings allow ${c.allowed.map(v => choiceText(c.choice, v)).join(", ")}`
              : "not known from these beams"}{" "}
            (used: {choiceText(c.choice, c.used)})
          </li>
        ))}
      </ul>
      <Remarks title="Warnings" lines={warningTexts(calibration)} />
    </>
  );
});

function LawTable({calibration}: {readonly calibration: Calibration}) {
  const {estimates, request} = calibration;
  const row = (material: string, law: readonly string[]) => ({
    key: material,
    cells: [material, ...law, figures(request.choices.zoneLength[material] * 1e3), originText(calibration, material)],
  });
  return (
    <PlainTable
      caption={
        <>
          dc/dN = A·ε
          <sup>n</sup>, c in mm, ε the tip strain in µε; intervals of {levelText(calibration)}
        </>
      }
      columns={[
        {title: "Material"},
        {title: `mm per cycle at ${AT_STRAIN}`, isNumber: true},
        {title: "Interval", isNumber: true},
        {title: "n", isNumber: true},
        {title: "Interval", isNumber: true},
        {title: "A", isNumber: true},
        {title: "Process zone, mm", isNumber: true},
        {title: "Law"},
      ]}
      rows={[
        ...estimates.map(e => {
          const {value, interval} = rateText(e.rate);
          const n = e.exponent;
          return row(e.material, [value, interval, figures(n.value), intervalText(n), coefficientText(e)]);
        }),
        ...otherMaterials(calibration).map(name => row(name, ["–", "–", "–", "–", "–"])),
      ]}
    />
  );
}

function Pictures({calibration}: {readonly calibration: Calibration}) {
  const {estimates, predictions, fronts, request} = calibration;
  const drawLaws = useCallback(
    (canvas: Canvas) =>
      lawChart(
        estimates.map(e => ({...e.curve, met: e.met})),
        canvas,
      ),
    [estimates],
  );
  const drawPredictions = useCallback((canvas: Canvas) => predictionChart(predictions, canvas), [predictions]);
  const drawResiduals = useCallback((canvas: Canvas) => residualChart(fronts, canvas), [fronts]);
  return (
    <div className="columns">
      <PlotFrame
        title="Growth laws"
        name="growth-laws"
        draw={drawLaws}
        csv={() => lawCsv(calibration)}
        note={
          <>
            <Legend names={estimates.map(e => e.material)} /> Thick, with their band: over the strains that cracks in
            the beams went through. Thin: beyond them, where nothing was measured.
          </>
        }
      />
      {predictions.length > 0 && (
        <PlotFrame
          title="Each beam predicted without it"
          name="beams-predicted"
          draw={drawPredictions}
          csv={() => predictionCsv(calibration)}
          note={`Passes to breaking by laws fitted to the other beams, against those observed. Bars: ${levelText(calibration)}. Solid line: equal; broken lines: a factor of two. Open with an arrow: had not broken.`}
        />
      )}
      <PlotFrame
        title="Residuals"
        name="beam-residuals"
        draw={drawResiduals}
        csv={() => residualCsv(calibration)}
        note="Lengths about the fitted fronts over their standard deviation: no pattern should show."
      />
      {request.tests.map((test, k) => (
        <BeamPlot key={test.name} calibration={calibration} index={k} />
      ))}
    </div>
  );
}

function BeamPlot({calibration, index}: {readonly calibration: Calibration; readonly index: number}) {
  const test = calibration.request.tests[index];
  const draw = useCallback(
    (canvas: Canvas) => {
      const {request, reduced, cases, fronts, predictions} = calibration;
      const {name} = request.tests[index];
      const at = cases.findIndex(c => c.test.name === name);
      const picture = {
        test: request.tests[index],
        reduced: reduced[index],
        fitted: at < 0 ? null : fronts[at],
        prediction: predictions.find(p => p.name === name) ?? null,
      };
      return beamChart(picture, canvas);
    },
    [calibration, index],
  );
  return (
    <PlotFrame
      title={test.setAside === null ? test.name : `${test.name}, set aside`}
      name={`beam-${index + 1}`}
      draw={draw}
      csv={() => frontsCsv(calibration)}
      note={index === 0 && FRONTS}
    />
  );
}

const FRONTS =
  "Filled: from below; open: from above; the bar joins the two faces. Lines: the fit with the beam’s own factors. Bands: what laws fitted without this beam foretold, 90 % of the draws. Cross with its bar: where the fronts would meet by a straight line through the last readings.";

function PassesTable({calibration}: {readonly calibration: Calibration}) {
  return (
    <PlainTable
      caption="Passes to breaking, predicted by laws fitted without the beam. Its own factor says how much faster its cracks grew than the laws say."
      columns={[
        {title: "Beam"},
        {title: "Observed", isNumber: true},
        {title: "Predicted", isNumber: true},
        {title: `${percent(calibration.request.level)} interval`, isNumber: true},
        {title: "Within"},
        {title: "Own factor", isNumber: true},
      ]}
      rows={beamRows(calibration).map(({name, observed, predicted, interval, within, factor}) => ({
        key: name,
        cells: [name, observed, predicted, interval, within === null ? "–" : within ? "yes" : "no", factor],
      }))}
    />
  );
}

const COLUMNS = [
  {title: "Overlay", isNumber: false},
  {title: "Interlayer", isNumber: false},
  {title: "Wheel, kN", isNumber: true},
  {title: "Readings", isNumber: true},
  {title: "Last at, passes", isNumber: true},
];

function beamRow(test: BeamTest, {reading: {origins}}: BeamsLook): TestRow {
  const course = (c: BeamTest["overlay"] | null): string =>
    c ? `${c.material}, ${figures(c.thickness * 1e3)} mm, ${figures(c.modulus / 1e6)} MPa` : "none";
  return {
    name: test.name,
    cells: [
      course(test.overlay),
      course(test.interlayer),
      figures(test.wheel.load / 1e3),
      count(test.readings.length),
      count(test.readings.at(-1)?.passes ?? 0),
    ],
    remark: "",
    setAside: test.setAside,
    place: origins.get(test.name) ?? null,
  };
}

/** Under the wheel: strain and stress around the joint, the wheel rolled by hand. */
import {useCallback, useEffect, useMemo, useState} from "react";
import {Label, Slider, SliderOutput, SliderThumb, SliderTrack} from "react-aria-components";
import type {JointField} from "../../../engine/life/index.ts";
import type {Study} from "../../../engine/life/types.ts";
import {type Canvas, tipAlongChart} from "../../../report/charts/index.ts";
import {tipAlongCsv} from "../../../report/data/index.ts";
import {
  displayUnit,
  figures,
  frontsAt,
  quantityText,
  reflection,
  type UnitSystem,
  years as yearsText,
} from "../../../report/live/index.ts";
import {Choice} from "../../parts/Choice.tsx";
import {PlotFrame} from "../../parts/PlotFrame.tsx";
import {ViewHead} from "../../parts/ViewHead.tsx";
import {isCurrent, useAnswers} from "../../state/answers.ts";
import {askField, useField} from "../../state/field.ts";
import {useSettings} from "../../state/settings.ts";
import {useCursor} from "../../state/view.ts";
import {useWorkbook} from "../../state/workbook.ts";
import type {AskedField} from "../../worker/channel.ts";
import {FieldPicture, heaviestOf} from "./FieldPicture.tsx";
import {QUANTITIES, type Quantity} from "./paint.ts";
import "../../style/plot.css";
import "./wheel.css";

export default function Wheel() {
  const study = useAnswers(s => s.study?.study);
  return (
    <>
      <ViewHead title="Under the wheel">
        What a rolling wheel does around the joint: far from it next to nothing, beside it shear, over it bending. Drag
        the wheel.
      </ViewHead>
      {study ? <Content study={study} /> : <p role="status">Reading the study…</p>}
    </>
  );
}

/** At which the laws are usually compared; what the study's own bins span decides. */
function usualTemperature({bins}: Study): number {
  return "kind" in bins ? 15 : bins[Math.floor(bins.length / 2)].temperature;
}

function Content({study}: {readonly study: Study}) {
  const [treatment, setTreatment] = useState(Math.min(1, study.treatments.length - 1));
  const [temperature, setTemperature] = useState(() => usualTemperature(study));
  const [isCracked, setCracked] = useState("now");
  const [quantity, setQuantity] = useState<Quantity>("strainXx");
  const [wheel, setWheel] = useState(-0.3);
  const {field, isRunning, message} = useField();
  const units = useSettings(s => s.units);
  const present = useWorkbook(s => s.present);
  const {asked, year} = useAsked(Math.min(treatment, study.treatments.length - 1), temperature, isCracked === "now");
  // biome-ignore lint/correctness/useExhaustiveDependencies: the study is part of what is asked
  useEffect(() => {
    const timer = setTimeout(() => void askField(asked), 300);
    return () => clearTimeout(timer);
  }, [asked, present]);
  const unit = displayUnit("°C", units);
  const isOld = isRunning || message !== null; // what is shown is of another question
  return (
    <div className="wheel">
      <div className="card stack">
        <div className="fields">
          <Choice
            label="Treatment"
            options={study.treatments.map((t, k) => ({id: String(k), text: t.name}))}
            value={String(treatment)}
            onChange={id => setTreatment(Number(id))}
          />
          <Choice
            label="Shown"
            options={Object.entries(QUANTITIES).map(([id, {text}]) => ({id, text}))}
            value={quantity}
            onChange={id => setQuantity(id as Quantity)}
          />
          <Choice
            label="Crack"
            options={[
              {id: "now", text: "as at the time slider"},
              {id: "none", text: "not yet begun"},
            ]}
            value={isCracked}
            onChange={setCracked}
          />
        </div>
        <SliderBox
          label="Temperature"
          value={temperature}
          range={[-15, 45]}
          step={1}
          text={`${figures(unit.toDisplay(temperature))} ${unit.unit}`}
          onChange={setTemperature}
        />
        {field ? (
          <div className={isOld ? "stale" : ""} aria-busy={isRunning}>
            <FieldPicture
              study={study}
              treatment={asked.treatment}
              field={field}
              quantity={quantity}
              conditions={conditions(study, asked, year, units)}
              wheel={wheel}
              onWheel={setWheel}
            />
          </div>
        ) : (
          <p className="empty">{message ?? "Computing the field, a few seconds…"}</p>
        )}
        <SliderBox
          label="Axle from the joint"
          value={wheel}
          range={[-1.5, 1.5]}
          step={0.01}
          text={quantityText(wheel, "distance", units)}
          onChange={setWheel}
        />
        <p className="small muted" role="status">
          {isRunning ? "Computing…" : (message ?? QUANTITIES[quantity].note)} Movements are drawn far larger than they
          are. For pictures only: lives are computed on finer meshes.
        </p>
        {field?.warnings.map(text => (
          <p key={text} className="note warn small">
            {text}
          </p>
        ))}
      </div>
      {field && (
        <div className={isOld ? "stale" : ""} aria-busy={isRunning}>
          <Tips field={field} wheel={wheel} onWheel={setWheel} />
        </div>
      )}
    </div>
  );
}

/** The crack that the time slider has grown in this treatment; none while the study is not solved as it stands. */
function useAsked(treatment: number, temperature: number, isCracked: boolean) {
  const years = useCursor(s => s.years);
  const present = useWorkbook(s => s.present);
  const result = useAnswers(s => (isCurrent(s.resultOf, present) ? s.result : null));
  return useMemo(() => {
    const life = result?.treatments[treatment];
    const history = life && reflection(life);
    const found = isCracked && history && !isThrough(history, years) ? frontsAt(history, years) : null;
    const asked = {treatment, temperature, cracks: found ?? {interlayer: 0, underside: 0, surface: 0}};
    return {asked, year: found && years};
  }, [treatment, temperature, isCracked, years, result]);
}

const SMALLEST = 1e-4; // of a crack that is told [m]

/** What the picture is of, beside its title: the load, the temperature, the crack. */
function conditions(study: Study, {temperature, cracks}: AskedField, year: number | null, units: UnitSystem): string {
  const {load, length, width} = heaviestOf(study);
  const wheel = `standard axle, ${quantityText(load, "force", units)} a wheel at ${quantityText(load / length / width, "stress", units)}`;
  const lengths = Object.entries(TIP_WORDS).flatMap(([tip, words]) => {
    const grown = cracks[tip as keyof typeof TIP_WORDS];
    return grown > SMALLEST ? [`${quantityText(grown, "length", units)} ${words}`] : [];
  });
  const when = year === null ? "" : `after ${yearsText(year)}: `;
  const crack = lengths.length > 0 ? `crack ${when}${lengths.join(", ")}` : "no crack in the overlay yet";
  return `${wheel}; ${quantityText(temperature, "temperature", units)}; ${crack}`;
}

const isThrough = (
  {failed, life}: {readonly failed: boolean; readonly life: {readonly years: number}},
  years: number,
): boolean => failed && years >= life.years;

interface SliderBoxProps {
  readonly label: string;
  readonly value: number;
  readonly range: readonly [number, number];
  readonly step: number;
  readonly text: string;
  readonly onChange: (value: number) => void;
}

function SliderBox({label, value, range, step, text, onChange}: SliderBoxProps) {
  return (
    <Slider
      className="slider"
      minValue={range[0]}
      maxValue={range[1]}
      step={step}
      value={value}
      onChange={v => onChange(v as number)}
    >
      <Label>{label}</Label>
      <SliderTrack className="track">
        <SliderThumb className="thumb" />
      </SliderTrack>
      <SliderOutput style={{minWidth: 68, textAlign: "right"}}>{text}</SliderOutput>
    </Slider>
  );
}

const TIP_WORDS = {
  interlayer: "in the interlayer",
  underside: "at the overlay’s underside",
  surface: "at the surface",
} as const;

function Tips({
  field,
  wheel,
  onWheel,
}: {
  readonly field: JointField;
  readonly wheel: number;
  readonly onWheel: (x: number) => void;
}) {
  const tips = (["interlayer", "underside", "surface"] as const).flatMap(name => (field.tips[name] ? [name] : []));
  return (
    <div className="stack">
      {tips.map(name => (
        <Tip key={name} field={field} name={name} wheel={wheel} onWheel={onWheel} />
      ))}
      {tips.length === 0 && <p className="card empty">There is no crack tip: the overlay is cracked through.</p>}
    </div>
  );
}

interface TipProps {
  readonly field: JointField;
  readonly name: keyof typeof TIP_WORDS;
  readonly wheel: number;
  readonly onWheel: (x: number) => void;
}

function Tip({field, name, wheel, onWheel}: TipProps) {
  const units = useSettings(s => s.units);
  const along = useMemo(() => ({positions: field.positions, tip: field.tips[name]!}), [field, name]);
  const draw = useCallback((canvas: Canvas) => tipAlongChart(along, canvas), [along]);
  const unit = displayUnit("m", units);
  return (
    <div className="card">
      <PlotFrame
        title={`Tip ${TIP_WORDS[name]}`}
        name={`tip-${name}`}
        draw={draw}
        csv={() => tipAlongCsv(along)}
        cursor={unit.toDisplay(wheel)}
        onCursor={x => x !== null && onWheel(Math.min(1.5, Math.max(-1.5, unit.fromDisplay(x))))}
      />
    </div>
  );
}

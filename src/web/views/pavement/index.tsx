/** The pavement: treatments side by side, to one scale, with their cracks at any time. */
import {Plus, Search} from "lucide-react";
import {useCallback, useEffect, useMemo, useRef, useState} from "react";
import {ToggleButton} from "react-aria-components";
import {useShallow} from "zustand/react/shallow";
import type {Study} from "../../../engine/life/types.ts";
import type {Wheel} from "../../../engine/traffic/types.ts";
import {type TimeAxis, timeAxis} from "../../../report/charts/index.ts";
import {Button} from "../../parts/Button.tsx";
import type {Span} from "../../parts/PlotFrame.tsx";
import {Tour} from "../../parts/Tour.tsx";
import {isCurrent, useAnswers} from "../../state/answers.ts";
import {useCursor} from "../../state/view.ts";
import {useWorkbook} from "../../state/workbook.ts";
import {addTreatment} from "./edits.ts";
import {drawnDepth, drawnHeight} from "./geometry.ts";
import {Inspector} from "./Inspector.tsx";
import {TimeSlider} from "./TimeSlider.tsx";
import {TreatmentColumn} from "./TreatmentColumn.tsx";
import "../../style/section.css";
import "../../style/plot.css";

const TALLEST = 215; // of a drawing below the surface, unless its labels need more [px]
const NARROWEST = 392; // column [px]
const ON_A_TABLET = 350; // column, so that two stand on a tablet held upright [px]
const GAP = 10; // [px]
/** A wheel of this shown depth would fill the drawing: no more px to a metre. */
const FINEST = 1000; // [px/m]

export default function Pavement() {
  // Not the progress of solving: it would draw all columns anew at every step.
  const {study, reading, result, resultOf, quick} = useAnswers(
    useShallow(({study, reading, result, resultOf, quick}) => ({study, reading, result, resultOf, quick})),
  );
  const present = useWorkbook(s => s.present);
  const isMagnified = useCursor(s => s.isMagnified);
  const [box, width] = useBoxWidth();
  const [span, setSpan] = useState<Span | null>(null);
  const isFresh = isCurrent(resultOf, present);
  const whole = useMemo(() => (result ? timeAxis(result.treatments, result.study.analysisPeriod) : null), [result]);
  const axis: TimeAxis | null = useMemo(() => (whole && span ? {...whole, domain: span} : whole), [whole, span]);
  useEffect(() => {
    setSpan(null);
    if (whole && useCursor.getState().years === 0) useCursor.setState({years: whole.domain[1] * 0.3});
  }, [whole]);
  if (!study) return <Waiting hasFaults={reading?.kind === "faults"} />;
  const {treatments, traffic} = study.study;
  const depth = Math.max(...treatments.map(t => drawnDepth(t.section)));
  const least = Math.min(width < 2 * NARROWEST + GAP ? ON_A_TABLET : NARROWEST, width);
  const column = Math.max(least, (width - GAP * (treatments.length - 1)) / treatments.length);
  const tallest = Math.max(TALLEST, ...treatments.map(t => drawnHeight(t.section.layers.length)));
  const scale = Math.min(tallest / depth, FINEST);
  return (
    <>
      <Tour />
      <div className="bench">
        <div className="stack">
          <div className="row no-print">
            <Button onPress={() => addTreatment(treatments.length > 1 ? treatments.length - 1 : null)}>
              <Plus size={15} aria-hidden />
              Add a treatment
            </Button>
            <ToggleButton
              className="button"
              isSelected={isMagnified}
              onChange={next => useCursor.setState({isMagnified: next})}
            >
              <Search size={15} aria-hidden />
              Magnify the joint
            </ToggleButton>
            {reading?.kind === "faults" && !reading.unpriced && (
              <span className="tag bad">The drawing shows the study before its faults.</span>
            )}
          </div>
          <div className="treatments" ref={box} style={{gridAutoColumns: `minmax(${least}px, 1fr)`}}>
            {treatments.map((treatment, k) => (
              <TreatmentColumn
                key={treatment.name}
                index={k}
                treatment={treatment}
                control={treatments[0]}
                life={lifeFor(result, k, treatment.name)}
                controlLife={result?.treatments[0] ?? null}
                isStale={!isFresh}
                scale={scale}
                width={column}
                depth={depth}
                wheel={heaviest(study.study)}
                axis={axis}
                zoom={whole && axis && {whole: whole.domain, span: axis.domain, onZoom: setSpan}}
              />
            ))}
          </div>
          {axis && whole && <TimeSlider end={whole.domain[1]} />}
          {quick && !isFresh && (
            <p className="small muted">
              Lives above are told at once from the last solution; sections and fronts follow when it is solved.
            </p>
          )}
          {traffic.classes.length === 0 && <p className="note warn">No wheels: only temperature is computed.</p>}
        </div>
        <Inspector />
      </div>
    </>
  );
}

/** Width of the element that is given to the reference, when it is there. */
function useBoxWidth(): [(element: HTMLDivElement | null) => void, number] {
  const [width, setWidth] = useState(NARROWEST);
  const observer = useRef<ResizeObserver | null>(null);
  const take = useCallback((element: HTMLDivElement | null): void => {
    observer.current?.disconnect();
    if (!element) return;
    observer.current = new ResizeObserver(() => setWidth(element.clientWidth));
    observer.current.observe(element);
  }, []);
  return [take, width];
}

function lifeFor(result: ReturnType<typeof useAnswers.getState>["result"], k: number, name: string) {
  const same = result?.treatments[k];
  return same?.treatment.name === name ? same : (result?.treatments.find(t => t.treatment.name === name) ?? null);
}

/** A wheel of the heaviest load. */
function heaviest({traffic}: Study): Wheel | null {
  const wheels = traffic.classes.flatMap(c => c.wheels);
  return wheels.length > 0 ? wheels.reduce((most, w) => (w.load > most.load ? w : most)) : null;
}

function Waiting({hasFaults}: {readonly hasFaults: boolean}) {
  return hasFaults ? (
    <div className="card empty">
      <p>The study has faults, so there is no section to draw yet.</p>
      <a className="button main" href="#text">
        See every fault in its place
      </a>
    </div>
  ) : (
    <p role="status">Reading the study…</p>
  );
}

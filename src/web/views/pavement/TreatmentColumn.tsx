/** One treatment: its section with cracks at the time of the slider, its lives by mechanism, its fronts against time. */
import {useCallback, useEffect, useRef} from "react";
import type {CrackHistory, Treatment, TreatmentLife} from "../../../engine/life/types.ts";
import type {Wheel} from "../../../engine/traffic/types.ts";
import {frontsChart, sectionChart, type TimeAxis} from "../../../report/charts/index.ts";
import {frontsCsv, layersCsv} from "../../../report/data/index.ts";
import {
  frontsAt,
  lifeText,
  mechanismRows,
  quantityText,
  reflection,
  rowName,
  type UnitSystem,
} from "../../../report/live/index.ts";
import {fileWord} from "../../../schema/editing/index.ts";
import {Exports, standalone} from "../../parts/Exports.tsx";
import {PlainTable} from "../../parts/PlainTable.tsx";
import {PlotFrame, type Zoom} from "../../parts/PlotFrame.tsx";
import {useSettings} from "../../state/settings.ts";
import {type Selection, useCursor} from "../../state/view.ts";
import {differences} from "./differences.ts";
import {setThickness} from "./edits.ts";
import {SectionDrawing} from "./SectionDrawing.tsx";

export interface TreatmentColumnProps {
  readonly index: number;
  readonly treatment: Treatment;
  readonly control: Treatment;
  readonly life: TreatmentLife | null;
  readonly controlLife: TreatmentLife | null;
  readonly isStale: boolean;
  readonly scale: number; // [px/m]
  readonly width: number; // [px]
  readonly depth: number; // [m]
  readonly wheel: Wheel | null;
  readonly axis: TimeAxis | null;
  readonly zoom: Zoom | null;
}

export function TreatmentColumn(props: TreatmentColumnProps) {
  const {index, treatment, control, life, controlLife, isStale, scale, width, depth, wheel} = props;
  const {selection, years, isMagnified} = useCursor();
  const units = useSettings(s => s.units);
  const history = (life && reflection(life)) ?? null;
  const fronts = history ? (frontsAt(history, years) ?? lastOf(history)) : null;
  const choose = (next: Selection): void => useCursor.setState({selection: next});
  const isChosen = selection?.kind === "treatment" && selection.treatment === index;
  const head = useRef<HTMLElement>(null);
  useEffect(() => {
    if (isChosen) head.current?.scrollIntoView({block: "nearest", inline: "nearest"}); // one just added may be out of sight
  }, [isChosen]);
  return (
    <article className="card treatment" aria-label={treatment.name}>
      <header ref={head}>
        <h2 title={treatment.name}>{treatment.name}</h2>
        <div className="row" style={{gap: 2, flexWrap: "nowrap"}}>
          <button
            type="button"
            className="button bare"
            aria-pressed={isChosen}
            onClick={() => choose({kind: "treatment", treatment: index})}
          >
            Edit<span className="unseen"> {treatment.name}</span>
          </button>
          <Exports
            name={`${fileWord(treatment.name, `treatment-${index + 1}`)}-section`}
            svg={() => sectionPicture(treatment, units)}
            csv={() => layersCsv([treatment])}
          />
        </div>
      </header>
      <div className="row small" style={{alignContent: "start"}}>
        {index === 0 ? (
          <span className="tag">control</span>
        ) : (
          differences(treatment.section, control.section, units).map(text => (
            <span key={text} className="tag">
              {text}
            </span>
          ))
        )}
      </div>
      <SectionDrawing
        title={treatment.name}
        section={treatment.section}
        scale={scale}
        width={width - 30}
        depth={depth}
        wheel={wheel}
        fronts={isStale ? null : fronts}
        chosen={chosenName(selection, index)}
        isMagnified={isMagnified}
        onChoose={name =>
          choose(name === null ? null : name === "joint" ? {kind: "joint"} : {kind: "layer", name, treatment: index})
        }
        onThickness={(name, thickness) => setThickness(treatment.section, index, name, thickness)}
      />
      {life && controlLife && (
        <div className={isStale ? "stale" : ""}>
          <Mechanisms life={life} control={controlLife} />
          <Fronts {...props} life={life} history={history} />
        </div>
      )}
    </article>
  );
}

const PICTURE_WIDTH = 700; // [px]

/** The section as reports draw it. */
function sectionPicture({name, section}: Treatment, units: UnitSystem): string | null {
  const markup = String(sectionChart(section, {document, width: PICTURE_WIDTH, units}));
  const svg = new DOMParser().parseFromString(markup, "text/html").querySelector("svg");
  return svg && standalone(titled(svg, name));
}

const TITLE = 26; // height above a picture [px]

function titled(svg: SVGSVGElement, title: string): SVGSVGElement {
  const {x, y, width, height} = svg.viewBox.baseVal;
  svg.setAttribute("viewBox", `${x} ${y - TITLE} ${width} ${height + TITLE}`);
  svg.setAttribute("height", String(height + TITLE));
  const text = document.createElementNS(svg.namespaceURI, "text");
  text.textContent = title;
  const look = {x: String(x + 4), y: String(y - 8), "font-size": "15", "font-weight": "600", fill: "currentColor"};
  for (const [key, value] of Object.entries(look)) text.setAttribute(key, value);
  svg.prepend(text);
  return svg;
}

function chosenName(selection: Selection, treatment: number): string | null {
  if (selection?.kind === "joint") return "joint";
  return selection?.kind === "layer" && selection.treatment === treatment ? selection.name : null;
}

function lastOf({interlayer, underside, surface}: CrackHistory) {
  return {interlayer: interlayer.at(-1)!, underside: underside.at(-1)!, surface: surface.at(-1)!};
}

function Mechanisms({life, control}: {readonly life: TreatmentLife; readonly control: TreatmentLife}) {
  const isControl = life === control;
  return (
    <PlainTable
      isSmall
      columns={[
        {title: "Mechanism"},
        {title: "Years", isNumber: true},
        ...(isControl ? [] : [{title: "To control", isNumber: true}]),
      ]}
      rows={mechanismRows(life, control).map(row => {
        const {short, note} = lifeText(row.life);
        return {
          key: rowName(row),
          governs: row.governs,
          cells: [
            <>
              {rowName(row)}
              {row.governs && <span className="unseen"> (governs)</span>}
            </>,
            <span key="years" title={note ?? undefined}>
              {short}
            </span>,
            ...(isControl ? [] : [row.ratio.text]),
          ],
        };
      })}
    />
  );
}

function Fronts({
  life,
  history,
  axis,
  zoom,
}: TreatmentColumnProps & {readonly life: TreatmentLife; readonly history: CrackHistory | null}) {
  const years = useCursor(s => s.years);
  const units = useSettings(s => s.units);
  const draw = useCallback(
    (canvas: Parameters<typeof frontsChart>[2]) => frontsChart(life, axis!, canvas),
    [life, axis],
  );
  if (!axis || !history) return null;
  const {name} = life.treatment;
  return (
    <PlotFrame
      title="Crack fronts"
      name={`${fileWord(name, "treatment")}-fronts`}
      draw={draw}
      csv={() => frontsCsv(history, life.treatment)}
      cursor={years}
      onCursor={x => x !== null && useCursor.setState({years: x})}
      readout={x => {
        const at = frontsAt(history, x);
        if (!at) return [];
        const overlay = life.treatment.section.layers.reduce(
          (sum, l) => sum + (l.role === "overlay" ? l.thickness : 0),
          0,
        );
        return [
          ...(at.interlayer > 0 ? [`in the interlayer: ${quantityText(at.interlayer, "length", units)}`] : []),
          `from below: ${quantityText(at.underside, "length", units)}`,
          `from above: ${quantityText(at.surface, "length", units)}`,
          `cracked: ${Math.round((100 * (at.underside + at.surface)) / overlay)} % of the overlay`,
        ];
      }}
      {...(zoom && {zoom})}
    />
  );
}

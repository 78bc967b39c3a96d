/**
 * A chart of the report on the page: drawn to the width there is, answering a pointer, zoomed where it can be, and handed out
 * as SVG, PNG and CSV.
 */
import {ZoomIn, ZoomOut} from "lucide-react";
import {type PointerEvent, type ReactNode, useEffect, useLayoutEffect, useMemo, useRef, useState} from "react";
import {flushSync} from "react-dom";
import {type Canvas, chartScales, darkChartCss} from "../../report/charts/index.ts";
import {figures, type Html} from "../../report/live/index.ts";
import {useSettings} from "../state/settings.ts";
import {IconButton} from "./Button.tsx";
import {Exports, standalone} from "./Exports.tsx";

export type Span = readonly [number, number];

/** Of a chart that draws part of its x axis itself; others are drawn wider and scrolled. */
export interface Zoom {
  readonly whole: Span; // of the x axis
  readonly span: Span; // shown
  readonly onZoom: (span: Span) => void;
}

const WIDEST = 8; // times the room there is
const NEAR = 200; // charts this far out of sight are drawn already [px]

export interface PlotFrameProps {
  readonly title: string;
  readonly name: string; // of downloaded files, without ending
  /** Draws the chart. Give the same function as long as the chart is the same. */
  readonly draw: (canvas: Canvas) => string | Html;
  readonly csv?: () => string;
  readonly note?: ReactNode;
  readonly cursor?: number | null; // marked on the x axis
  readonly onCursor?: (x: number | null) => void; // where the pointer is
  readonly readout?: (x: number) => readonly string[]; // what the chart says there, besides the place itself
  readonly zoom?: Zoom;
  readonly controls?: ReactNode;
}

export function PlotFrame(props: PlotFrameProps) {
  const {title, name, draw, csv, note, zoom, controls} = props;
  const box = useRef<HTMLDivElement>(null);
  const width = useWidth(box);
  const isSeen = useSeen(box);
  const units = useSettings(s => s.units);
  const [times, setTimes] = useState(1); // as wide as there is room
  const picture = useMemo(
    () => (isSeen && width > 0 ? String(draw({document, width: width * times, units})) : ""),
    [draw, isSeen, width, times, units],
  );
  const middle = useRef(0); // of what is in sight, where the chart is as wide as there is room [px]
  const widen = (by: number): void => {
    const element = box.current!;
    middle.current = (element.scrollLeft + element.clientWidth / 2) / times;
    setTimes(times * by);
  };
  useLayoutEffect(() => {
    if (times === 1) return; // nothing to scroll
    const element = box.current!;
    element.scrollLeft = middle.current * times - element.clientWidth / 2;
  }, [times]);
  const drawn = (): string | null => {
    const svg = box.current?.querySelector("svg");
    return svg ? standalone(svg) : null;
  };
  return (
    <figure className="plot">
      <div className="title">
        <h3>{title}</h3>
        <div className="row no-print" style={{gap: 2}}>
          {controls}
          {zoom ? (
            <AxisZoom {...zoom} />
          ) : (
            <ZoomButtons isNearest={times >= WIDEST} isWhole={times === 1} onZoom={widen} />
          )}
          <Exports name={name} svg={drawn} {...(csv && {csv})} />
        </div>
      </div>
      {/* A region that scrolls is reached by keyboard, and told what it is. */}
      <div ref={box} className="plot-box" {...(times > 1 && {tabIndex: 0, role: "region", "aria-label": title})}>
        <Picture {...props} picture={picture} />
      </div>
      {note && <figcaption className="small muted">{note}</figcaption>}
    </figure>
  );
}

function useWidth(box: React.RefObject<HTMLDivElement | null>): number {
  const [width, setWidth] = useState(0);
  useLayoutEffect(() => {
    const element = box.current!;
    const measure = (): void => setWidth(Math.max(240, Math.floor(element.getBoundingClientRect().width)));
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, [box]);
  return width;
}

/** Whether an element has come into sight, or is about to be printed: charts that nobody sees are not drawn. */
function useSeen(box: React.RefObject<HTMLDivElement | null>): boolean {
  const [isSeen, setSeen] = useState(false);
  useLayoutEffect(() => {
    // Before anything is painted, so that what stands below does not move when a view opens.
    const {left, right, top, bottom} = box.current!.getBoundingClientRect();
    setSeen(left < innerWidth + NEAR && right > -NEAR && top < innerHeight + NEAR && bottom > -NEAR);
  }, [box]);
  useEffect(() => {
    const observer = new IntersectionObserver(entries => entries.some(e => e.isIntersecting) && setSeen(true), {
      rootMargin: `${NEAR}px`,
    });
    observer.observe(box.current!);
    const draw = (): void => flushSync(() => setSeen(true)); // paper is made when this returns
    window.addEventListener("beforeprint", draw);
    return () => {
      observer.disconnect();
      window.removeEventListener("beforeprint", draw);
    };
  }, [box]);
  return isSeen;
}

interface Pointed {
  readonly x: number; // [px]
  readonly y: number; // [px]
}

function Picture({picture, cursor, onCursor, readout, zoom}: PlotFrameProps & {readonly picture: string}) {
  const [pointed, setPointed] = useState<Pointed | null>(null);
  const [dragged, setDragged] = useState<number | null>(null); // where a drag began [px]
  const scales = useMemo(() => (picture === "" ? null : chartScales(picture)), [picture]);
  const [x, y] = [scales?.x ?? null, scales?.y ?? null];
  const inside = ({x: px}: Pointed): boolean => x !== null && px >= Math.min(...x.range) && px <= Math.max(...x.range);
  const valueAt = (px: number): number | null => (x && x.type !== "band" ? x.toValue(px) : null);

  const place = (event: PointerEvent): Pointed => {
    const {left, top} = event.currentTarget.getBoundingClientRect();
    return {x: event.clientX - left, y: event.clientY - top};
  };
  const move = (event: PointerEvent): void => {
    const at = place(event);
    setPointed(inside(at) ? at : null);
    onCursor?.(inside(at) ? valueAt(at.x) : null);
  };
  const leave = (): void => {
    setPointed(null);
    setDragged(null);
    onCursor?.(null);
  };
  const up = (event: PointerEvent): void => {
    const at = place(event).x;
    if (dragged !== null && zoom && Math.abs(at - dragged) > 8) {
      const [a, b] = [valueAt(Math.min(at, dragged)), valueAt(Math.max(at, dragged))];
      if (a !== null && b !== null) zoom.onZoom([Math.max(a, zoom.whole[0]), Math.min(b, zoom.whole[1])]);
    }
    setDragged(null);
  };
  const marked = cursor === undefined || cursor === null || !x || x.type === "band" ? null : x.toPixel(cursor);
  const isMarked =
    marked !== null && x !== null && marked >= Math.min(...x.range) - 1 && marked <= Math.max(...x.range) + 1;
  return (
    <div
      className="plot-picture"
      onPointerMove={move}
      onPointerLeave={leave}
      onPointerDown={event => zoom && event.pointerType === "mouse" && setDragged(place(event).x)}
      onPointerUp={up}
    >
      {/* biome-ignore lint/security/noDangerouslySetInnerHtml: the charts escape every text that goes into them */}
      <div className="drawn" dangerouslySetInnerHTML={{__html: picture}} />
      {isMarked && <div className="plot-line" style={{left: marked}} />}
      {dragged !== null && pointed && (
        <div className="plot-drag" style={{left: Math.min(dragged, pointed.x), width: Math.abs(pointed.x - dragged)}} />
      )}
      {pointed && x && (
        <>
          <div className="plot-line pointer" style={{left: pointed.x}} />
          <div className="plot-readout" style={readoutPlace(pointed, x.range)}>
            {[
              axisText(x.label, x.toValue(pointed.x)),
              ...(y && !readout ? [axisText(y.label, y.toValue(pointed.y))] : []),
            ].map(line => (
              <div key={line}>{line}</div>
            ))}
            {readout &&
              valueAt(pointed.x) !== null &&
              readout(valueAt(pointed.x)!).map(line => <div key={line}>{line}</div>)}
          </div>
        </>
      )}
    </div>
  );
}

function readoutPlace({x, y}: Pointed, range: readonly [number, number]): React.CSSProperties {
  const isRight = x > (range[0] + range[1]) / 2;
  return {top: Math.max(0, y - 12), ...(isRight ? {right: `calc(100% - ${x - 10}px)`} : {left: x + 10})};
}

function axisText(label: string, value: number | string | null): string {
  if (value === null) return label;
  if (typeof value === "string") return value;
  const at = label.lastIndexOf(",");
  const [what, unit] = at < 0 ? [label, ""] : [label.slice(0, at), label.slice(at + 1).trim()];
  return `${what}${what ? ": " : ""}${figures(value)}${unit ? ` ${unit}` : ""}`;
}

function AxisZoom({whole, span, onZoom}: Zoom) {
  const isWhole = span[0] <= whole[0] && span[1] >= whole[1];
  const zoom = (by: number): void => {
    const [middle, half] = [(span[0] + span[1]) / 2, (span[1] - span[0]) / 2 / by];
    onZoom([Math.max(whole[0], middle - half), Math.min(whole[1], middle + half)]);
  };
  return <ZoomButtons hint="; or drag across the chart" isWhole={isWhole} onZoom={zoom} />;
}

interface ZoomButtonsProps {
  readonly hint?: string; // after “Zoom in”
  readonly isNearest?: boolean;
  readonly isWhole: boolean;
  readonly onZoom: (by: number) => void; // 2: twice as large
}

function ZoomButtons({hint = "", isNearest = false, isWhole, onZoom}: ZoomButtonsProps) {
  return (
    <>
      <IconButton label={`Zoom in${hint}`} isDisabled={isNearest} onPress={() => onZoom(2)}>
        <ZoomIn size={16} aria-hidden />
      </IconButton>
      <IconButton label="Zoom out" isDisabled={isWhole} onPress={() => onZoom(0.5)}>
        <ZoomOut size={16} aria-hidden />
      </IconButton>
    </>
  );
}

// Dark counterparts of the charts' colours, on the screen alone: what is handed out stays light.
const dark = new CSSStyleSheet();
dark.replaceSync(darkChartCss(':root[data-theme="dark"] .plot-picture'));
document.adoptedStyleSheets = [...document.adoptedStyleSheets, dark];

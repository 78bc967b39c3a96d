/** One treatment's section, drawn to scale: layers, joint, wheel and crack fronts; layers are chosen, boundaries dragged. */
import {type CSSProperties, type KeyboardEvent, type PointerEvent, useState} from "react";
import type {Section} from "../../../engine/section/types.ts";
import type {Wheel} from "../../../engine/traffic/types.ts";
import {quantityText} from "../../../report/live/index.ts";
import {courseStep} from "../../parts/courseStep.ts";
import {useSettings} from "../../state/settings.ts";
import {crackPath, type DrawnLayer, depthOf, drawnHeight, drawnLayers, LABEL_GAP, spreadLabels} from "./geometry.ts";

export interface FrontsDrawn {
  readonly interlayer: number; // [m]
  readonly underside: number; // [m]
  readonly surface: number; // [m]
}

export interface SectionDrawingProps {
  readonly title: string;
  readonly section: Section;
  readonly scale: number; // [px/m]
  readonly width: number; // [px]
  readonly depth: number; // drawn [m]
  readonly wheel: Wheel | null;
  readonly fronts: FrontsDrawn | null;
  readonly chosen: string | null; // a layer's name, or "joint"
  readonly isMagnified: boolean;
  readonly onChoose: (what: string | null) => void;
  /** A layer's new thickness [m], as a whole step. */
  readonly onThickness: (layer: string, thickness: number) => void;
}

const SKY = 40; // above the surface [px]
const LABELS = 150; // beside the drawing [px]
const JOINT_AT = 0.6; // of the drawing's width, so that the wheel before the joint has room [–]
const TYRE_RADIUS = 0.5; // [m]; a lorry's (common practice, no source)
const LENS = {size: 128, times: 5} as const; // [px], [–]
const LEAST_THICKNESS = 0.001; // [m]

export function SectionDrawing(props: SectionDrawingProps) {
  const {title, section, scale, width, depth, chosen, isMagnified, onChoose} = props;
  const [dragged, setDragged] = useState<Readonly<Record<string, number>>>({});
  const layers = drawnLayers(section, dragged);
  const drawing = width - LABELS;
  const [left, right] = [JOINT_AT * drawing, (1 - JOINT_AT) * drawing]; // of the joint
  const height = SKY + Math.max(depth * scale, drawnHeight(layers.length)) + 6;
  const jointed = depthOf(layers, "jointed");
  const focus = depthOf(layers, "interlayer") ?? {top: depthOf(layers, "overlay")?.bottom ?? 0, bottom: 0};
  return (
    <div className="section-drawing" style={{width, height}}>
      <svg width={drawing} height={height} aria-hidden="true" viewBox={`${-left} ${-SKY} ${drawing} ${height}`}>
        <Shapes {...props} layers={layers} half={left} />
        {isMagnified && jointed && (
          <g>
            <rect
              x={-LENS.size / LENS.times / 2}
              y={focus.top * scale - LENS.size / LENS.times / 4}
              width={LENS.size / LENS.times}
              height={LENS.size / LENS.times}
              className="lens-mark"
            />
            <svg
              aria-hidden="true"
              x={right - LENS.size - 6}
              y={jointed.bottom * scale - LENS.size + 30}
              width={LENS.size}
              height={LENS.size}
              viewBox={`${-LENS.size / LENS.times / 2} ${focus.top * scale - LENS.size / LENS.times / 4} ${LENS.size / LENS.times} ${LENS.size / LENS.times}`}
            >
              <rect x={-500} y={-500} width={2000} height={2000} className="lens-ground" />
              <Shapes {...props} layers={layers} half={left} finest={1.6 / LENS.times} />
            </svg>
            <rect
              x={right - LENS.size - 6}
              y={jointed.bottom * scale - LENS.size + 30}
              width={LENS.size}
              height={LENS.size}
              className="lens"
            />
            <text x={right - LENS.size} y={jointed.bottom * scale + 43} className="lens-text">
              {LENS.times} times as large
            </text>
          </g>
        )}
      </svg>
      <Labels {...props} layers={layers} left={drawing} />
      {layers.map(
        layer =>
          !layer.isCut && (
            <Boundary
              key={layer.name}
              treatment={title}
              layer={layer}
              scale={scale}
              width={drawing}
              onDrag={thickness => setDragged(thickness === null ? {} : {[layer.name]: thickness})}
              onDone={thickness => {
                setDragged({});
                props.onThickness(layer.name, thickness);
              }}
            />
          ),
      )}
      {jointed && (
        <button
          type="button"
          className="joint-button"
          aria-pressed={chosen === "joint"}
          aria-label={`Joint, ${title}`}
          style={{
            left: left - 9,
            top: SKY + jointed.top * scale,
            height: (jointed.bottom - jointed.top) * scale,
          }}
          onClick={() => onChoose("joint")}
        />
      )}
    </div>
  );
}

type ShapesProps = SectionDrawingProps & {
  readonly finest?: number; // width that a joint is drawn with at least [px]
  readonly layers: readonly DrawnLayer[];
  readonly half: number;
};

function Shapes({section, layers, scale, half, wheel, fronts, chosen, onChoose, finest = 1.6}: ShapesProps) {
  const overlay = depthOf(layers, "overlay");
  const interlayer = depthOf(layers, "interlayer");
  const jointed = depthOf(layers, "jointed");
  const {joint, reinforcement} = section;
  const gap = Math.max(finest, joint.width * scale);
  const strip = joint.unbondedStrip * scale;
  const floor = layers.at(-1)!.bottom * scale;
  const cut = jointed && Math.min((jointed.bottom + joint.cutDepth) * scale, floor);
  return (
    <>
      {layers.map(l => (
        // biome-ignore lint/a11y/noStaticElementInteractions: the labels beside the drawing are buttons that do the same
        <rect
          key={l.name}
          x={-half}
          y={l.top * scale}
          width={2 * half}
          height={Math.max(0.5, (l.bottom - l.top) * scale)}
          className={`layer ${l.role} ${l.isAlternate ? "alternate" : ""} ${chosen === l.name ? "chosen" : ""}`}
          onClick={() => onChoose(l.name)}
        />
      ))}
      {layers.slice(1).map(l => (
        <line key={l.name} x1={-half} x2={half} y1={l.top * scale} y2={l.top * scale} className="interface" />
      ))}
      {wheel && <Tyre wheel={wheel} scale={scale} half={half} />}
      {jointed && (
        <>
          <rect
            x={-gap / 2}
            y={jointed.top * scale}
            width={gap}
            height={(jointed.bottom - jointed.top) * scale}
            className={`joint ${chosen === "joint" ? "chosen" : ""}`}
          />
          {cut !== null && cut > jointed.bottom * scale && (
            <line x1={0} x2={0} y1={jointed.bottom * scale} y2={cut} className="cut" />
          )}
          {strip > 0 && (
            <line x1={-strip} x2={strip} y1={jointed.top * scale} y2={jointed.top * scale} className="unbonded" />
          )}
        </>
      )}
      {reinforcement && (
        <line
          x1={-half}
          x2={half}
          y1={reinforcement.depth * scale}
          y2={reinforcement.depth * scale}
          className="reinforcement"
        />
      )}
      {layers
        .filter(l => l.isCut)
        .map(l => (
          <path key={l.name} className="break" d={breakLine(half, l.bottom * scale - 3)} />
        ))}
      {fronts && overlay && (
        <g className="cracks">
          {interlayer && fronts.interlayer > 0 && (
            <path d={crackPath(interlayer.bottom, interlayer.bottom - fronts.interlayer, scale)} />
          )}
          {fronts.underside > 0 && <path d={crackPath(overlay.bottom, overlay.bottom - fronts.underside, scale)} />}
          {fronts.surface > 0 && <path d={crackPath(0, fronts.surface, scale)} />}
        </g>
      )}
    </>
  );
}

/** Where a layer is cut short: a broken line along its lower edge. */
function breakLine(half: number, y: number): string {
  const step = 9;
  const count = Math.ceil((2 * half) / step);
  return `M${Array.from({length: count + 1}, (_, k) => `${(-half + k * step).toFixed(1)} ${(y + (k % 2 ? 3 : 0)).toFixed(1)}`).join("L")}`;
}

/** The foot of the wheel before the joint, its contact patch to scale. */
function Tyre({wheel, scale, half}: {readonly wheel: Wheel; readonly scale: number; readonly half: number}) {
  const radius = TYRE_RADIUS * scale;
  const patch = Math.min(wheel.length * scale, 1.6 * half);
  const x = -(patch / 2 + 16); // just before the joint
  // Where the tyre's circle leaves the sky, beyond the patch on which it is flat.
  const out = Math.sqrt(Math.max(0, radius ** 2 - Math.max(0, radius - SKY) ** 2));
  const edge = patch / 2 + Math.min(out, 26);
  return (
    <g>
      <path
        d={`M${x - patch / 2} 0H${x + patch / 2}Q${x + edge} ${-SKY * 0.25} ${x + edge} ${-SKY}H${x - edge}Q${x - edge} ${-SKY * 0.25} ${x - patch / 2} 0Z`}
        className="tyre"
      />
      <line x1={x - patch / 2} x2={x + patch / 2} y1={0} y2={0} className="patch" />
    </g>
  );
}

function Labels({
  title,
  layers,
  scale,
  left,
  chosen,
  onChoose,
  depth,
}: SectionDrawingProps & {readonly layers: readonly DrawnLayer[]; readonly left: number}) {
  const units = useSettings(s => s.units);
  const middles = layers.map(l => ((l.top + l.bottom) / 2) * scale);
  const places = spreadLabels(middles, LABEL_GAP, Math.max(depth * scale, drawnHeight(layers.length)) - 12);
  return layers.map((l, k) => {
    const style: CSSProperties = {left: left + 10, top: SKY + places[k] - 16, width: LABELS - 12};
    return (
      <button
        key={l.name}
        type="button"
        className="layer-label"
        style={style}
        aria-pressed={chosen === l.name}
        onClick={() => onChoose(l.name)}
      >
        <svg className="leader" width="10" height="66" viewBox="-10 -33 10 66" aria-hidden="true">
          <path d={`M-10 ${middles[k] - places[k]}L-1 0`} />
        </svg>
        <span>
          <b>{l.name}</b> <span className="number">{quantityText(l.thickness, "length", units)}</span>
        </span>
        <small className="muted">{l.material}</small>
        <span className="unseen">, {title}</span>
      </button>
    );
  });
}

interface BoundaryProps {
  readonly treatment: string;
  readonly layer: DrawnLayer;
  readonly scale: number;
  readonly width: number;
  readonly onDrag: (thickness: number | null) => void;
  readonly onDone: (thickness: number) => void;
}

/** The lower edge of a layer: dragged, or moved by arrow keys, it changes the layer's thickness. */
function Boundary({treatment, layer, scale, width, onDrag, onDone}: BoundaryProps) {
  const [start, setStart] = useState<{readonly y: number; readonly thickness: number} | null>(null);
  const units = useSettings(s => s.units);
  const step = courseStep(layer.thickness * 1e3, units) / 1e3; // [m]
  const at = (y: number): number => {
    const wanted = start!.thickness + (y - start!.y) / scale;
    return Math.max(LEAST_THICKNESS, Math.round(wanted / step) * step);
  };
  const release = (event: PointerEvent): void => {
    if (!start) return;
    setStart(null);
    const thickness = at(event.clientY);
    if (Math.abs(thickness - start.thickness) < 1e-9) onDrag(null);
    else onDone(thickness);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const by = {ArrowDown: 1, ArrowUp: -1, PageDown: 10, PageUp: -10}[event.key];
    if (by === undefined) return;
    event.preventDefault();
    onDone(Math.max(LEAST_THICKNESS, layer.thickness + by * step));
  };
  return (
    <div
      className="boundary"
      role="slider"
      tabIndex={0}
      aria-orientation="vertical"
      aria-label={`Thickness of ${layer.name}, ${treatment}`}
      aria-valuenow={Math.round(layer.thickness * 1e6) / 1e3}
      aria-valuemin={1}
      aria-valuemax={5000}
      aria-valuetext={quantityText(layer.thickness, "length", units)}
      style={{top: SKY + layer.bottom * scale - 4, width}}
      onPointerDown={event => {
        event.currentTarget.setPointerCapture(event.pointerId);
        setStart({y: event.clientY, thickness: layer.thickness});
      }}
      onPointerMove={event => start && onDrag(at(event.clientY))}
      onPointerUp={release}
      onPointerCancel={() => {
        setStart(null);
        onDrag(null);
      }}
      onKeyDown={onKeyDown}
    />
  );
}

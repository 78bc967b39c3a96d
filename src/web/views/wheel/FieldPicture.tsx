import {type PointerEvent, useLayoutEffect, useMemo, useRef, useState} from "react";
import type {JointField} from "../../../engine/life/index.ts";
import type {Study} from "../../../engine/life/types.ts";
import type {Section} from "../../../engine/section/types.ts";
import type {Wheel} from "../../../engine/traffic/types.ts";
import {figures, measure, quantityText, type UnitSystem} from "../../../report/live/index.ts";
import {Exports} from "../../parts/Exports.tsx";
import {useSettings} from "../../state/settings.ts";
import {type Band, type FieldDrawing, fieldCsv, fieldSvg, INK, layerTexts} from "./fieldFiles.ts";
import {colourOf, momentAt, paintField, QUANTITIES, type Quantity, usualLimit} from "./paint.ts";

export interface FieldPictureProps {
  readonly study: Study;
  readonly treatment: number;
  readonly field: JointField;
  readonly quantity: Quantity;
  readonly conditions: string; // under which it is so
  readonly wheel: number; // position of the axle [m]
  readonly onWheel: (x: number) => void;
}

const SKY = 46; // [px]
const TALLEST = 400; // [px]
const MOVED = 14; // the largest movement is drawn so large [px]

/** Coloured cells around the joint; the wheel above follows the pointer. */
export function FieldPicture({study, treatment, field, quantity, conditions, wheel, onWheel}: FieldPictureProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const box = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(0);
  const theme = useSettings(s => s.theme);
  const units = useSettings(s => s.units);
  useLayoutEffect(() => {
    const observer = new ResizeObserver(() => setWidth(box.current!.clientWidth));
    observer.observe(box.current!);
    return () => observer.disconnect();
  }, []);
  const {name, section} = study.treatments[treatment] ?? study.treatments[0];
  const limit = useMemo(
    () => usualLimit(field, quantity, layer => section.layers[layer]?.role !== "foundation"),
    [field, quantity, section],
  );
  const most = useMemo(() => field.w.reduce((size, w) => Math.max(size, Math.abs(w)), 1e-9), [field]);
  const wide = field.x.at(-1)! - field.x[0];
  const deep = field.z.at(-1)!;
  const scale = Math.max(1, Math.min(width / wide, (TALLEST - SKY) / deep));
  const height = Math.ceil(SKY + deep * scale + MOVED);
  const wheels = useMemo(() => axle(study), [study]);
  const painting = useMemo(() => ({scale, sky: SKY, magnified: MOVED / (most * scale), limit}), [scale, most, limit]);
  const layers = useMemo(() => bandsOf(section), [section]);
  const bar = useMemo(() => scaleBar(units), [units]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the theme changes the colours that are asked for here
  useLayoutEffect(() => {
    const element = canvas.current;
    const context = element?.getContext("2d");
    if (!element || !context || width === 0) return;
    [element.width, element.height] = [width * devicePixelRatio, height * devicePixelRatio];
    context.setTransform(devicePixelRatio, 0, 0, devicePixelRatio, 0, 0);
    const moment = momentAt(field, quantity, wheel);
    paintField(context, width / 2, field, moment, painting);
    const style = getComputedStyle(element);
    drawInterfaces(context, layers, {scale, width, colour: style.getPropertyValue("--muted")});
    drawWords(context, {layers, bar}, {scale, width, height});
    drawWheels(context, wheels, {
      wheel,
      scale,
      width,
      colour: style.getPropertyValue("--tyre"),
      patch: style.getPropertyValue("--ink"),
    });
  }, [field, quantity, wheel, width, height, scale, painting, layers, bar, wheels, theme]);
  const move = (event: PointerEvent): void => {
    const {left} = event.currentTarget.getBoundingClientRect();
    onWheel(Math.min(1.5, Math.max(-1.5, (event.clientX - left - width / 2) / scale)));
  };
  const {kind, text} = QUANTITIES[quantity];
  const {unit, of} = measure(kind, units);
  const end = `${figures(of(limit), 2)}\u00a0${unit}`; // of the colours
  return (
    <div ref={box} className="field-picture">
      <p className="small">{capitalised(conditions)}.</p>
      <canvas
        ref={canvas}
        style={{width, height}}
        role="img"
        aria-label={`${text} around the joint, axle ${quantityText(wheel, "distance", units)} from it`}
        onPointerDown={event => {
          event.currentTarget.setPointerCapture(event.pointerId);
          move(event);
        }}
        onPointerMove={event => event.buttons > 0 && move(event)}
      />
      <div className="field-key">
        <Exports
          name="around-the-joint"
          svg={() =>
            fieldSvg(
              {
                title: `${name}: ${text.toLowerCase()}, axle ${quantityText(wheel, "distance", units)} from the joint`,
                conditions: capitalised(conditions),
                end,
              },
              {width, height, layers, bar, patches: wheels.map(({x, length}) => ({x: wheel + x, length}))},
              field,
              momentAt(field, quantity, wheel),
              painting,
            )
          }
          csv={() => fieldCsv(field, wheel)}
        />
        <span className="number">−{end}</span>
        <span className="field-ramp" style={{background: `linear-gradient(90deg, ${RAMP.join(",")})`}} />
        <span className="number">{end}</span>
      </div>
    </div>
  );
}

const RAMP = Array.from({length: 17}, (_, k) => colourOf(k / 8 - 1));

const capitalised = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Of the axle that is drawn. */
export function heaviestOf({traffic}: Study): Wheel {
  return traffic.standardAxle.wheels.reduce((best, w) => (w.load > best.load ? w : best));
}

function axle(study: Study): readonly Wheel[] {
  const most = heaviestOf(study);
  return study.traffic.standardAxle.wheels.filter(w => Math.abs(w.y - most.y) < 1e-9);
}

function bandsOf({layers}: Section): Band[] {
  let z = 0;
  return layers.map(({name, thickness}) => {
    const top = z;
    z += thickness;
    return {name, top, bottom: z};
  });
}

function scaleBar(units: UnitSystem): {readonly length: number; readonly text: string} {
  return units === "us" ? {length: 0.3048, text: "1 ft"} : {length: 0.5, text: "0.5 m"};
}

interface Drawing {
  readonly scale: number;
  readonly width: number;
  readonly colour: string;
}

function drawInterfaces(
  context: CanvasRenderingContext2D,
  layers: readonly Band[],
  {scale, width, colour}: Drawing,
): void {
  context.strokeStyle = colour;
  context.lineWidth = 0.7;
  context.setLineDash([4, 4]);
  for (const {bottom} of layers) {
    context.beginPath();
    context.moveTo(0, SKY + bottom * scale);
    context.lineTo(width, SKY + bottom * scale);
    context.stroke();
  }
  context.setLineDash([]);
}

/** Names of layers and the bar of the scale: on colours that are light in both themes. */
function drawWords(
  context: CanvasRenderingContext2D,
  {layers, bar}: Pick<FieldDrawing, "layers" | "bar">,
  {scale, width, height}: {readonly scale: number; readonly width: number; readonly height: number},
): void {
  context.font = "12px system-ui, sans-serif";
  context.fillStyle = INK;
  context.strokeStyle = "rgba(255, 255, 255, 0.75)";
  context.lineWidth = 3;
  context.lineJoin = "round";
  for (const {text, y} of layerTexts(layers, {scale, sky: SKY, height})) {
    context.strokeText(text, 6, y);
    context.fillText(text, 6, y);
  }
  const right = width - 8;
  const y = height - MOVED - 8;
  context.strokeText(bar.text, right - context.measureText(bar.text).width, y - 5);
  context.fillText(bar.text, right - context.measureText(bar.text).width, y - 5);
  context.fillRect(right - bar.length * scale, y, bar.length * scale, 2);
}

const RADIUS = 0.5; // of a tyre [m]; a lorry's (common practice, no source)

function drawWheels(
  context: CanvasRenderingContext2D,
  wheels: readonly Wheel[],
  {wheel, scale, width, colour, patch}: Drawing & {readonly wheel: number; readonly patch: string},
): void {
  for (const {x, length} of wheels) {
    const at = width / 2 + (wheel + x) * scale;
    context.save();
    context.beginPath();
    context.rect(0, 0, width, SKY);
    context.clip();
    context.fillStyle = colour;
    context.beginPath();
    context.arc(
      at,
      SKY - RADIUS * scale + (length * scale) ** 2 / (8 * RADIUS * scale),
      RADIUS * scale,
      0,
      2 * Math.PI,
    );
    context.fill();
    context.restore();
    context.fillStyle = patch;
    context.fillRect(at - (length * scale) / 2, SKY - 3, length * scale, 4);
  }
}

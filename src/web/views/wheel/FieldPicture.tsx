import {type PointerEvent, useLayoutEffect, useMemo, useRef, useState} from "react";
import type {JointField} from "../../../engine/life/index.ts";
import type {Study} from "../../../engine/life/types.ts";
import type {Wheel} from "../../../engine/traffic/types.ts";
import {figures, measure, quantityText} from "../../../report/live/index.ts";
import {Exports} from "../../parts/Exports.tsx";
import {useSettings} from "../../state/settings.ts";
import {fieldCsv, fieldSvg} from "./fieldFiles.ts";
import {colourOf, momentAt, paintField, QUANTITIES, type Quantity, usualLimit} from "./paint.ts";

export interface FieldPictureProps {
  readonly study: Study;
  readonly treatment: number;
  readonly field: JointField;
  readonly quantity: Quantity;
  readonly wheel: number; // position of the axle [m]
  readonly onWheel: (x: number) => void;
}

const SKY = 46; // [px]
const TALLEST = 400; // [px]
const MOVED = 14; // the largest movement is drawn so large [px]

/** Coloured cells around the joint; the wheel above follows the pointer. */
export function FieldPicture({study, treatment, field, quantity, wheel, onWheel}: FieldPictureProps) {
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
  const interfaces = useMemo(() => depths(section.layers.map(l => l.thickness)), [section]);
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
    drawInterfaces(context, interfaces, {scale, width, colour: style.getPropertyValue("--muted")});
    drawWheels(context, wheels, {
      wheel,
      scale,
      width,
      colour: style.getPropertyValue("--tyre"),
      patch: style.getPropertyValue("--ink"),
    });
  }, [field, quantity, wheel, width, height, scale, painting, interfaces, wheels, theme]);
  const move = (event: PointerEvent): void => {
    const {left} = event.currentTarget.getBoundingClientRect();
    onWheel(Math.min(1.5, Math.max(-1.5, (event.clientX - left - width / 2) / scale)));
  };
  const {kind, text} = QUANTITIES[quantity];
  const {unit, of} = measure(kind, units);
  const end = `${figures(of(limit), 2)}\u00a0${unit}`; // of the colours
  return (
    <div ref={box} className="field-picture">
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
                end,
              },
              {width, height, interfaces, patches: wheels.map(({x, length}) => ({x: wheel + x, length}))},
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

function axle({traffic}: Study): readonly Wheel[] {
  const {wheels} = traffic.standardAxle;
  const most = wheels.reduce((best, w) => (w.load > best.load ? w : best));
  return wheels.filter(w => Math.abs(w.y - most.y) < 1e-9);
}

/** Of the bottoms of layers [m]. */
function depths(thicknesses: readonly number[]): number[] {
  let z = 0;
  return thicknesses.map(thickness => {
    z += thickness;
    return z;
  });
}

interface Drawing {
  readonly scale: number;
  readonly width: number;
  readonly colour: string;
}

function drawInterfaces(
  context: CanvasRenderingContext2D,
  interfaces: readonly number[],
  {scale, width, colour}: Drawing,
): void {
  context.strokeStyle = colour;
  context.lineWidth = 0.7;
  context.setLineDash([4, 4]);
  for (const z of interfaces) {
    context.beginPath();
    context.moveTo(0, SKY + z * scale);
    context.lineTo(width, SKY + z * scale);
    context.stroke();
  }
  context.setLineDash([]);
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

/** What is saved of the field around the joint: a picture that stands alone, with its key, and the numbers of every cell. */
import type {JointField} from "../../../engine/life/index.ts";
import {html, measure} from "../../../report/live/index.ts";
import {colourOf, type Moment, momentAt, type Painting, piecesOf, QUANTITIES, type Quantity, SEAM} from "./paint.ts";

export interface FieldWords {
  readonly title: string; // what is shown, of what, where the axle is
  readonly conditions: string; // load, temperature, crack
  readonly end: string; // of the colours, "120 µε"
}

/** A layer of the section. */
export interface Band {
  readonly name: string;
  readonly top: number; // depth [m]
  readonly bottom: number; // depth [m]
}

export interface FieldDrawing {
  readonly width: number; // [px]
  readonly height: number; // [px]
  readonly layers: readonly Band[];
  readonly bar: {readonly length: number; readonly text: string}; // of the scale [m]
  readonly patches: readonly {readonly x: number; readonly length: number}[]; // of the wheels, from the joint [m]
}

const TITLE = 42; // height above [px]
const KEY = 34; // height below [px]
const RAMP = {width: 240, height: 12, steps: 24};
const EDGE = 8; // around texts [px]
const CHARACTER = 7.2; // width, at most in the mean of a text [px]
export const INK = "#1c2530";
const MUTED = "#525d69";

const LINE = 13; // height of a layer's name [px]

/** Names of layers where there is room for them, and where they stand [px]; of a thin layer a little lower than it. */
export function layerTexts(
  layers: readonly Band[],
  {scale, sky, height}: {readonly scale: number; readonly sky: number; readonly height: number},
): {readonly text: string; readonly y: number}[] {
  let free = Number.NEGATIVE_INFINITY;
  return layers.flatMap(({name, top, bottom}) => {
    const end = Math.min(sky + bottom * scale, height);
    const y = Math.max((sky + top * scale + end) / 2 + LINE / 3, free);
    if (y > end + LINE || y > height) return [];
    free = y + LINE;
    return [{text: name, y}];
  });
}

/** The picture as it is on the page, on white, with a title and the key of its colours. */
export function fieldSvg(
  {title, conditions, end}: FieldWords,
  {width: own, height, layers, bar, patches}: FieldDrawing,
  field: JointField,
  moment: Moment,
  painting: Painting,
): string {
  const {scale, sky} = painting;
  const width = Math.ceil(
    Math.max(
      own,
      EDGE * 2 + CHARACTER * Math.max(title.length, conditions.length),
      RAMP.width + 4 * EDGE + 2 * CHARACTER * (end.length + 1),
    ),
  );
  const outline = (x: readonly number[], y: readonly number[]): string =>
    `M${x.map((v, k) => `${v.toFixed(1)} ${y[k].toFixed(1)}`).join("L")}Z`;
  const pieces = [...piecesOf(field, moment, painting)].map(
    ({x, y, colour}) => html`<path fill="${colour}" stroke="${colour}" d="${outline(x, y)}"/>`,
  );
  const lines = layers.map(({bottom}) => {
    const y = (sky + bottom * scale).toFixed(1);
    return html`<line x1="${-own / 2}" x2="${own / 2}" y1="${y}" y2="${y}"/>`;
  });
  const wheels = patches.map(
    ({x, length}) =>
      html`<rect x="${((x - length / 2) * scale).toFixed(1)}" y="${sky - 5}" width="${(length * scale).toFixed(1)}" height="5"/>`,
  );
  const names = layerTexts(layers, {scale, sky, height}).map(
    ({text, y}) => html`<text x="${6 - own / 2}" y="${y.toFixed(1)}">${text}</text>`,
  );
  const [right, low] = [own / 2 - EDGE, height - 22];
  const scaleMark = html`<rect x="${(right - bar.length * scale).toFixed(1)}" y="${low}" width="${(bar.length * scale).toFixed(1)}" height="2"/><text x="${right}" y="${low - 5}" text-anchor="end">${bar.text}</text>`;
  const step = RAMP.width / RAMP.steps;
  const ramp = Array.from({length: RAMP.steps}, (_, k) => {
    const colour = colourOf((2 * (k + 0.5)) / RAMP.steps - 1);
    return html`<rect x="${k * step - RAMP.width / 2}" y="${height + 8}" width="${step + 0.5}" height="${RAMP.height}" fill="${colour}"/>`;
  });
  const ends = [-1, 1].map(
    side =>
      html`<text x="${side * (RAMP.width / 2 + EDGE)}" y="${height + 8 + RAMP.height - 2}" text-anchor="${side < 0 ? "end" : "start"}">${side < 0 ? "−" : ""}${end}</text>`,
  );
  return String(
    html`<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${TITLE + height + KEY}" viewBox="${-width / 2} ${-TITLE} ${width} ${TITLE + height + KEY}" font-family="system-ui, sans-serif" font-size="12"><rect x="${-width / 2}" y="${-TITLE}" width="${width}" height="${TITLE + height + KEY}" fill="#ffffff"/><text x="${EDGE - width / 2}" y="-25" fill="${INK}" font-weight="600">${title}</text><text x="${EDGE - width / 2}" y="-7" fill="${MUTED}">${conditions}</text><g stroke-width="${SEAM}">${pieces}</g><g stroke="${MUTED}" stroke-width="0.7" stroke-dasharray="4 4">${lines}</g><g fill="${INK}">${wheels}${scaleMark}</g><g fill="${INK}" stroke="#ffffff" stroke-opacity="0.75" stroke-width="3" stroke-linejoin="round" paint-order="stroke">${names}</g>${ramp}<g fill="${INK}">${ends}</g></svg>`,
  );
}

const CSV_UNITS = {strain: "microstrain", stress: "MPa"} as const;

/** Every cell's middle with all quantities at this moment, metric as all tables are. */
export function fieldCsv(field: JointField, x: number): string {
  const all = (Object.keys(QUANTITIES) as Quantity[]).map(q => {
    const {kind} = QUANTITIES[q];
    return {name: `${q}_${CSV_UNITS[kind]}`, of: measure(kind).of, values: momentAt(field, q, x).values};
  });
  const columns = field.x.length - 1;
  const lines = [`x_mm,depth_mm,${all.map(({name}) => name).join(",")}`];
  field.layer.forEach((layer, cell) => {
    if (layer < 0) return;
    const [column, row] = [cell % columns, Math.floor(cell / columns)];
    const middle = [(field.x[column] + field.x[column + 1]) / 2, (field.z[row] + field.z[row + 1]) / 2].map(
      v => v * 1e3,
    );
    lines.push(
      [...middle, ...all.map(({of, values}) => of(values[cell]))].map(v => Number(v.toPrecision(6))).join(","),
    );
  });
  return `${lines.join("\r\n")}\r\n`;
}

import {type Layer, type LoadTransfer, modulusAt, type Section} from "../engine/section/index.ts";

/** Width of the drawn section, in characters; the joint is in the middle. */
const drawnWidth = 41;
/** At which the modulus of a master curve is told [°C]. */
const shownTemperature = 15;
/** Rows of the thickest layer. */
const mostRows = 9;

const fill: Readonly<Record<Layer["role"], string>> = {overlay: " ", interlayer: "~", jointed: ".", foundation: " "};

/**
 * The section as it was understood, drawn in characters: layers from the surface down with the joint in the middle
 * and, below the drawing, everything that cannot be drawn. Heights grow with the square root of the thickness.
 */
export function describeSection(section: Section): string {
  const rows: string[] = [];
  let depth = 0;
  rows.push(rule(depth, "┌", "┐", "─"));
  let foundationAbove = 0;
  for (const [i, layer] of section.layers.entries()) {
    const height = rowsOf(layer);
    const cutRows =
      layer.role === "foundation" ? cutRowsOf(layer, height, section.joint.cutDepth - foundationAbove) : 0;
    const text = captions(layer);
    for (let row = 0; row < height; row++) {
      const mark = layer.role === "jointed" ? jointMark(section) : row < cutRows ? "┊" : "";
      rows.push(`          │${across(fill[layer.role], mark)}│ ${text[row] ?? ""}`.trimEnd());
    }
    depth += layer.thickness;
    if (layer.role === "foundation") foundationAbove += layer.thickness;
    const last = i === section.layers.length - 1;
    rows.push(last ? rule(depth, "└", "┘", "─") : rule(depth, "├", "┤", "─"));
  }
  rows.push(`           ${(section.base.kind === "rigid" ? "/" : "⌇").repeat(drawnWidth)}  ${baseText(section)}`);
  return `${rows.join("\n")}\n\n${notes(section).join("\n")}\n`;
}

function rule(depth: number, left: string, right: string, line: string): string {
  return `${`${number(depth * 1000)} mm`.padStart(9)} ${left}${line.repeat(drawnWidth)}${right}`;
}

/** 10 mm and less take one row, 80 mm three, 300 mm five. */
function rowsOf(layer: Layer): number {
  const byThickness = Math.round(Math.sqrt(layer.thickness * 1000) / 3.4);
  return Math.min(mostRows, Math.max(layer.role === "interlayer" ? 1 : 2, byThickness));
}

function cutRowsOf(layer: Layer, height: number, remaining: number): number {
  if (remaining <= 0) return 0;
  return Math.max(1, Math.round(height * Math.min(1, remaining / layer.thickness)));
}

function jointMark(section: Section): string {
  return section.joint.width >= 1e-3 ? "│ │" : "│";
}

function across(filling: string, mark: string): string {
  const left = Math.floor((drawnWidth - mark.length) / 2);
  return filling.repeat(left) + mark + filling.repeat(drawnWidth - left - mark.length);
}

function captions(layer: Layer): string[] {
  const first = `${layer.name}: ${number(layer.thickness * 1000)} mm ${layer.role}`;
  const second = `${layer.material.name}, ${modulusText(layer)}`;
  return rowsOf(layer) === 1 ? [`${first}, ${second}`] : [first, second];
}

function modulusText({material}: Layer): string {
  const moduli = material.modulus;
  if (material.masterCurve) {
    const {loadingFrequency, origin} = material.masterCurve;
    const modulus = modulusAt(material, shownTemperature);
    const how = origin === "estimate" ? ", estimated" : "";
    return `${number(modulus / 1e6)} MPa at ${shownTemperature} °C and ${number(loadingFrequency)} Hz${how}`;
  }
  if (moduli.length === 1) return `${number(moduli[0].modulus / 1e6)} MPa${material.estimated ? ", estimated" : ""}`;
  const at = ({temperature, modulus}: (typeof moduli)[number]) =>
    `${number(modulus / 1e6)} MPa at ${number(temperature)} °C`;
  return `${at(moduli[0])} to ${at(moduli[moduli.length - 1])}`;
}

function baseText({base}: Section): string {
  return base.kind === "rigid" ? "rough, rigid base" : `springs of ${number(base.stiffness / 1e9)} MPa/mm`;
}

function notes(section: Section): string[] {
  const {joint} = section;
  return [
    `joint              ${number(joint.width * 1000)} mm wide, every ${number(joint.spacing)} m; faces ${joint.facesTouch ? "can touch" : "never touch"}`,
    `unbonded strip     ${number(joint.unbondedStrip * 1000)} mm on each side`,
    `load transfer      ${transferText(joint.transfer)}`,
    `cut goes on        ${number(joint.cutDepth * 1000)} mm into the foundation`,
    `under the slab     ${bondText(section.slabFriction)}`,
    ...bondNotes(section),
    ...reinforcementNotes(section),
    `overlay cracks     interlock ${number(section.crackInterlock / 1e9)} MPa/mm, shear weight ${number(section.shearWeight)}`,
    "                   (layer heights are drawn to the square root of the thickness)",
  ];
}

function transferText(transfer: LoadTransfer): string {
  switch (transfer.kind) {
    case "efficiency":
      return `deflection efficiency ${number(transfer.efficiency * 100)} %`;
    case "spring":
      return `shear spring ${number(transfer.stiffness / 1e9)} MPa/mm`;
    case "test": {
      const ratios = transfer.test.positions.map(p => `${number((100 * p.unloaded) / p.loaded)} % (${p.name})`);
      return `deflection test, ${ratios.join(", ")}`;
    }
  }
}

function bondText(stiffness: number): string {
  if (stiffness === Infinity) return "full bond";
  return stiffness === 0 ? "free slip" : `shear spring ${number(stiffness / 1e9)} MPa/mm`;
}

function bondNotes({layers}: Section): string[] {
  return layers.flatMap(({name, bondBelow}) =>
    bondBelow === undefined ? [] : [`bond               under ${name}: ${bondText(bondBelow)}`],
  );
}

function reinforcementNotes({reinforcement: r}: Section): string[] {
  if (!r) return [];
  const stiffness = `${number(r.stiffness / 1000)} kN/m, let go over ${number(r.bondLength * 1000)} mm`;
  return [`reinforcement      ${r.name} at ${number(r.depth * 1000)} mm, ${stiffness} on each side`];
}

/** Four digits are enough to recognise one's input. */
function number(value: number): string {
  return String(Number(value.toPrecision(value >= 1000 ? 6 : 4)));
}

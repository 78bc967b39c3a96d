/** The discretisations that are compared. All sizes start from the product's own for some accuracy. */
import {meshSizes} from "../../src/engine/response/model.ts";
import type {Section} from "../../src/engine/section/index.ts";
import type {Discretisation} from "./measure.ts";

export interface Member {
  readonly name: string;
  readonly of: (section: Section) => Discretisation;
}

export interface Family {
  readonly name: string;
  readonly members: readonly Member[];
}

/** What the product takes (src/engine/response/model.ts): a mesh, its companion at a third of the wavenumbers. */
export function ownSizes(section: Section, accuracy: number): Discretisation {
  const {rowSize, finest, neighbour, waveCount} = meshSizes(section, accuracy);
  const corrections = Math.ceil(waveCount / 3);
  return {
    rowSize,
    finest,
    neighbour,
    cracks: accuracy,
    mesh: false,
    companion: "near joints",
    waves: 3 * corrections,
    corrections,
    lastWave: 300,
    element: "quadratic",
    positions: 1,
    offsets: 1,
  };
}

/**
 * Much finer in everything but the places of wheels, which accuracy does not rule: sizes of the finest accuracy halved and
 * halved again, everywhere; waves up to twice the last wavenumber.
 */
export function reference(section: Section): Discretisation {
  return {...ownSizes(section, FINEST), mesh: true, companion: "twice", waves: 36, corrections: 12, lastWave: 600};
}

const FINEST = 0.0025;
const DEFAULT = 0.01;

function percent(accuracy: number): string {
  return `${100 * accuracy} %`;
}

function own(accuracy: number, name: string, changes: Partial<Discretisation> = {}): Member {
  return {name, of: section => ({...ownSizes(section, accuracy), ...changes})};
}

function single(accuracy: number, mesh: "whole" | "halved", element: Discretisation["element"]): Member {
  const halved = mesh === "halved";
  return own(accuracy, percent(accuracy) + (halved ? ", halved" : ""), {mesh: halved, companion: null, element});
}

export const PAIR = "quadratic, pair (the product)";

/** Of the product but for one thing: rows stay at the half zone of accuracy 1 % where a coarser one is asked for. */
function withRows(accuracy: number): Member {
  return {
    name: percent(accuracy),
    of: section => ({...ownSizes(section, accuracy), rowSize: ownSizes(section, DEFAULT).rowSize}),
  };
}

function singles(element: Discretisation["element"]): Member[] {
  return [
    single(0.02, "whole", element),
    single(0.01, "whole", element),
    single(0.0025, "whole", element),
    single(0.01, "halved", element),
  ];
}

/** Drawn against each other. */
export const FAMILIES: readonly Family[] = [
  {name: PAIR, members: [0.05, 0.02, 0.01, 0.005, 0.0025].map(a => own(a, percent(a)))},
  {name: "quadratic, pair, rows half a zone at most", members: [withRows(0.05), withRows(0.02)]},
  {name: "quadratic, one mesh", members: singles("quadratic")},
  {name: "linear, one mesh", members: singles("linear")},
  {
    name: "linear, pair",
    members: [
      ...[0.02, 0.01, 0.0025].map(a => own(a, percent(a), {element: "linear"})),
      own(0.02, "2 %, halved", {mesh: true, companion: "twice", element: "linear"}),
    ],
  },
];

function changed(name: string, changes: Partial<Discretisation>): Member {
  return own(DEFAULT, name, changes);
}

function scaled(name: string, key: "rowSize" | "finest" | "neighbour", factor: number): Member {
  return {
    name,
    of: section => {
      const sizes = ownSizes(section, DEFAULT);
      return {...sizes, [key]: factor * sizes[key]};
    },
  };
}

/** One thing changed at a time, from accuracy 1 %. */
export const CHANGES: readonly Family[] = [
  {name: "none", members: [changed("accuracy 1 %", {})]},
  {
    name: "wavenumbers, a third of them on both meshes (15)",
    members: [9, 12, 18, 24].map(n => changed(String(n), {waves: n, corrections: n / 3})),
  },
  {name: "last wavenumber (300/m)", members: [changed("600/m, of 24", {lastWave: 600, waves: 24, corrections: 8})]},
  {
    name: "wavenumbers on both meshes, of 15 (5)",
    members: [3, 7, 15].map(n => changed(String(n), {corrections: n})),
  },
  {name: "companion halved (near joints)", members: [changed("everywhere", {companion: true})]},
  {name: "rows (1)", members: [scaled("× 2", "rowSize", 2), scaled("× ½", "rowSize", 0.5)]},
  {name: "first elements (1)", members: [scaled("× 4", "finest", 4), scaled("× ¼", "finest", 0.25)]},
  {
    name: "columns at the neighbouring joint (1)",
    members: [
      scaled("× 10", "neighbour", 10),
      scaled("× 1/10", "neighbour", 0.1),
      changed("as elsewhere", {neighbour: Infinity}),
    ],
  },
  {
    name: "crack lengths (as for 1 %)",
    members: [changed("as for 2 %", {cracks: 0.02}), changed("as for ¼ %", {cracks: 0.0025})],
  },
];

const DENSEST = 4;

/** Accuracy does not rule these; the last one is what the others are measured against. */
export const PLACES: readonly Member[] = [
  changed("as in the product", {}),
  changed("wheel positions twice as dense", {positions: 2}),
  changed("offsets across the lane twice as dense", {offsets: 2}),
  changed("both four times as dense", {positions: DENSEST, offsets: DENSEST}),
];

/** Which view is open: it stands behind the # of the address, so that going back works. */
import {create} from "zustand";
import type {ThicknessGoal} from "../../engine/survey/index.ts";
import type {AskedAxis, WhatIf} from "../worker/channel.ts";

export const VIEWS = [
  "pavement",
  "materials",
  "climate",
  "traffic",
  "laboratory",
  "wheel",
  "certainty",
  "pays",
  "thickness",
  "costs",
  "report",
  "text",
] as const;

export type ViewName = (typeof VIEWS)[number];

const named = (): ViewName => VIEWS.find(v => location.hash === `#${v}`) ?? "pavement";

export const useView = create<{readonly view: ViewName}>(() => ({view: named()}));

window.addEventListener("hashchange", () => useView.setState({view: named()}));

/** What is chosen on the drawing of the section. */
export type Selection =
  | {readonly kind: "layer"; readonly name: string; readonly treatment: number}
  | {readonly kind: "joint"}
  | {readonly kind: "treatment"; readonly treatment: number}
  | null;

/** How thick: what is asked of a study. */
export interface ThicknessQuestion extends ThicknessGoal {
  readonly study: string; // name of its workbook
  readonly layer: string;
  readonly isSampled: boolean; // lives reached by the share of samples that the study says; else best estimates
}

/** What was asked for on forms that are no part of the study, so that it is there again when their view is. */
interface Asked {
  readonly across: AskedAxis | null; // of the map; null: the usual one
  readonly up: AskedAxis;
  readonly treatment: string | null; // of the map; null: the first beside the control
  readonly factors: WhatIf;
  readonly thickness: ThicknessQuestion | null; // null: the usual one
}

export const AS_IN_THE_STUDY: WhatIf = {passes: 1, loads: 1, temperatures: 1, coefficients: {}};

/** Points along an axis of the map. */
export const MAP_POINTS = 20;

export const TRAFFIC: AskedAxis = {name: "traffic", from: 0.25, to: 4, count: MAP_POINTS};

export const useAsked = create<Asked>(() => ({
  across: null,
  up: TRAFFIC,
  treatment: null,
  factors: AS_IN_THE_STUDY,
  thickness: null,
}));

interface Cursor {
  readonly selection: Selection;
  readonly material: string | null; // shown in the view of materials; null: the first
  readonly years: number; // of the time slider [years]
  readonly isMagnified: boolean;
}

export const useCursor = create<Cursor>(() => ({selection: null, material: null, years: 0, isMagnified: false}));

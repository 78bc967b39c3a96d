/** Which view is open: it stands behind the # of the address, so that going back works. */
import {create} from "zustand";

export const VIEWS = [
  "pavement",
  "materials",
  "climate",
  "traffic",
  "laboratory",
  "wheel",
  "certainty",
  "pays",
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

interface Cursor {
  readonly selection: Selection;
  readonly years: number; // of the time slider [years]
  readonly isMagnified: boolean;
}

export const useCursor = create<Cursor>(() => ({selection: null, years: 0, isMagnified: false}));

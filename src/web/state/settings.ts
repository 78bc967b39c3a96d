/** What the user likes: units and theme. Kept in the browser, never in the study. */
import {create} from "zustand";
import type {UnitSystem} from "../../report/live/index.ts";

export type Theme = "light" | "dark";

export interface Settings {
  readonly units: UnitSystem;
  readonly theme: Theme;
  readonly tour: boolean; // whether it is still to be shown
}

const KEY = "seamwright settings";

export const useSettings = create<Settings>(() => {
  const dark = window.matchMedia("(prefers-color-scheme: dark)").matches;
  return {units: "metric", theme: dark ? "dark" : "light", tour: true, ...stored()};
});

export function setSettings(settings: Partial<Settings>): void {
  useSettings.setState(settings);
  const {units, theme, tour} = useSettings.getState();
  try {
    localStorage.setItem(KEY, JSON.stringify({units, theme, tour}));
  } catch {
    // A browser that keeps nothing: the settings last as long as the page.
  }
}

function stored(): Partial<Settings> {
  try {
    const value: unknown = JSON.parse(localStorage.getItem(KEY) ?? "{}");
    if (typeof value !== "object" || value === null) return {};
    const {units, theme, tour} = value as Record<string, unknown>;
    return {
      ...((units === "metric" || units === "us") && {units}),
      ...((theme === "light" || theme === "dark") && {theme}),
      ...(typeof tour === "boolean" && {tour}),
    };
  } catch {
    return {};
  }
}

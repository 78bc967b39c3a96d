import {useEffect} from "react";
import {saveStudy} from "./saving.ts";
import {redo, undo} from "./workbook.ts";

/**
 * Ctrl or ⌘ with Z, Shift+Z, Y and S. A box whose text is no field of the study undoes its own typing; a field of the study takes
 * back what is typed and not yet in the study first (`Field.tsx`).
 */
export function useShortcuts(): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const key = event.key.toLowerCase();
      if (key === "s") {
        event.preventDefault();
        takeTyped(event.target);
        void saveStudy();
        return;
      }
      if (event.defaultPrevented || (isTyping(event.target) && !isOfStudy(event.target))) return;
      if (key === "z") {
        event.preventDefault();
        if (event.shiftKey) redo();
        else undo();
      } else if (key === "y") {
        event.preventDefault();
        redo();
      }
    };
    window.addEventListener("keydown", onKey);
    return () => window.removeEventListener("keydown", onKey);
  }, []);
}

/** A box writes what was typed into the study when it is left. */
function takeTyped(target: EventTarget | null): void {
  if (!(target instanceof HTMLElement) || !isTyping(target)) return;
  target.blur();
  target.focus();
}

/** Marks the boxes of the study's fields. */
export const OF_STUDY = "data-of-study";

function isOfStudy(target: EventTarget | null): boolean {
  return target instanceof Element && target.hasAttribute(OF_STUDY);
}

function isTyping(target: EventTarget | null): boolean {
  return target instanceof HTMLTextAreaElement || (target instanceof HTMLInputElement && target.type === "text");
}

import {useEffect} from "react";
import {saveStudy} from "./saving.ts";
import {redo, undo} from "./workbook.ts";

/** Ctrl or ⌘ with Z, Shift+Z, Y and S. Inside a box that is being typed in, undoing is the box's own. */
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
      if (isTyping(event.target)) return;
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

function isTyping(target: EventTarget | null): boolean {
  return target instanceof HTMLTextAreaElement || (target instanceof HTMLInputElement && target.type === "text");
}

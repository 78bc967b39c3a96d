/** Text for a terminal: lines no longer than it is wide, and nothing that moves its cursor. */

export interface TerminalOptions {
  readonly colour: boolean;
  readonly width: number; // characters in a line
}

export function wrap(text: string, width: number, indent: string): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(" ")) {
    if (line !== "" && line.length + 1 + word.length > width - indent.length) {
      lines.push(indent + line);
      line = word;
    } else line = line === "" ? word : `${line} ${word}`;
  }
  return [...lines, indent + line];
}

export function printable(text: string): string {
  // A name must not move the cursor or change colours.
  return text.replace(/\p{Cc}/gu, " ").replaceAll("\u00a0", " ");
}

/** Cut to so many characters, the last of them an ellipsis. */
export function fitted(text: string, size: number): string {
  return text.length > size ? `${text.slice(0, size - 1)}…` : text;
}

/** Where a command prints and how it is told to stop. */
export interface Terminal {
  readonly colour: boolean; // on stdout
  readonly width: number; // of stdout [characters]
  readonly signal: AbortSignal; // aborted by Ctrl-C
  /** To stdout: results. */
  print(text: string): void;
  /** To stderr: everything about the making of the results. */
  say(text: string): void;
  /** A line on stderr that is overwritten by the next one; nothing where stderr is no terminal. */
  status(line: (width: number) => string): void;
  /** Removes that line. */
  clearStatus(): void;
}

/** Line length where the output is no terminal, or one that does not say [characters]. */
const DEFAULT_WIDTH = 100;

/** Back to the first column, erase to the end (ECMA-48, CR and EL). */
const ERASE_LINE = "\r\u001b[K";

/** Kept free at the end of the status line for the ^C that the terminal echoes: a second line would not be erased. */
const ROOM_FOR_ECHO = 4;

type Environment = Readonly<Record<string, string | undefined>>;

/** Colours and cursor movement: only for a terminal that has them. */
function capable(stream: {readonly isTTY?: boolean}, environment: Environment): boolean {
  return stream.isTTY === true && environment.TERM !== "dumb";
}

/** The convention NO_COLOR: any value but the empty one switches colours off. */
export function wantsColour(stream: {readonly isTTY?: boolean}, environment: Environment): boolean {
  return capable(stream, environment) && !environment.NO_COLOR;
}

export function openTerminal(process: NodeJS.Process, signal: AbortSignal): Terminal {
  const {stdout, stderr, env} = process;
  const moves = capable(stderr, env);
  let shown = false;
  // A reader that has seen enough, such as `head`, is no error.
  for (const stream of [stdout, stderr]) {
    stream.on("error", (error: NodeJS.ErrnoException) => {
      if (error.code !== "EPIPE") throw error;
      process.exit();
    });
  }
  const clearStatus = (): void => {
    if (shown) stderr.write(ERASE_LINE);
    shown = false;
  };
  return {
    colour: wantsColour(stdout, env),
    width: stdout.columns || DEFAULT_WIDTH,
    signal,
    print: text => {
      clearStatus();
      stdout.write(text);
    },
    say: text => {
      clearStatus();
      stderr.write(text);
    },
    status: line => {
      if (!moves) return;
      shown = true;
      stderr.write(ERASE_LINE + line((stderr.columns || DEFAULT_WIDTH) - ROOM_FOR_ECHO));
    },
    clearStatus,
  };
}

/** Bold where there are colours. */
export function heading(text: string, terminal: Pick<Terminal, "colour">): string {
  return terminal.colour ? `\u001b[1m${text}\u001b[0m` : text;
}

/** A run file that cannot be gone on with; the message is for people. */
export class RunFileError extends Error {
  readonly path: string;

  constructor(path: string, reasons: readonly string[]) {
    super(`cannot go on with ${path}: ${reasons.join("; ")}`);
    this.name = "RunFileError";
    this.path = path;
  }
}

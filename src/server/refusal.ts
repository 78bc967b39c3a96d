/** What the server does not do, and why: a status for the browser, a code for the page, words for people. */
export class Refusal extends Error {
  readonly status: number;
  readonly code: string; // stable
  readonly etag: string | null | undefined; // of the file as it is now, null when there is none; told where it matters

  constructor(status: number, code: string, message: string, etag?: string | null) {
    super(message);
    this.name = "Refusal";
    this.status = status;
    this.code = code;
    this.etag = etag;
  }
}

const ofStatus: Readonly<Record<number, readonly [code: string, message: string]>> = {
  400: ["bad-request", "the request cannot be read"],
  403: ["forbidden", "this is not given out"],
  404: ["not-found", "there is nothing at this address"],
  413: ["too-large", "the file is too large"],
  503: ["closing", "the server is ending"],
};

const ofFileSystem: Readonly<Record<string, readonly [status: number, code: string, message: string]>> = {
  ENOENT: [404, "not-found", "there is no such file"],
  EISDIR: [409, "not-a-file", "it is a folder"],
  ENOTDIR: [409, "not-a-folder", "part of the path is a file, not a folder"],
  EEXIST: [409, "not-a-folder", "part of the path is a file, not a folder"],
  ELOOP: [403, "link", "it is a symbolic link, and links are not followed"],
  EACCES: [403, "permission", "permission denied"],
  EPERM: [403, "permission", "permission denied"],
  EROFS: [403, "permission", "the file system is read-only"],
  ENAMETOOLONG: [400, "path", "the name is too long"],
  ENOSPC: [507, "disk-full", "the disk is full"],
  EDQUOT: [507, "disk-full", "the disk quota is used up"],
};

/** What went wrong with a file, told without its place on this machine. Null for what nobody foresaw. */
export function fileRefusal(error: unknown): Refusal | null {
  const cause = error instanceof Error && error.cause instanceof Error ? error.cause : error;
  const known = cause instanceof Error && ofFileSystem[(cause as NodeJS.ErrnoException).code ?? ""];
  return known ? new Refusal(...known) : null;
}

/**
 * Any error as a refusal. The text of an unforeseen one stays here: it may name folders of this machine.
 *
 * @returns with status 500 for what nobody foresaw
 */
export function refusalOf(error: unknown): Refusal {
  if (error instanceof Refusal) return error;
  const status = error instanceof Error && "statusCode" in error ? Number(error.statusCode) : 500;
  const known = ofStatus[status] ?? (status >= 400 && status < 500 ? ofStatus[400] : undefined);
  return known
    ? new Refusal(status, ...known)
    : new Refusal(500, "internal", "something went wrong in the server; it has told more where it was started");
}

/** A file that cannot be read or written; the message is for people. */
export class FileError extends Error {
  readonly action: "read" | "write";
  readonly path: string;

  constructor(action: "read" | "write", path: string, cause: unknown) {
    super(`cannot ${action} ${path}: ${reasonOf(cause)}`, {cause});
    this.name = "FileError";
    this.action = action;
    this.path = path;
  }
}

const reasons: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file or folder",
  EISDIR: "it is a folder",
  ENOTDIR: "part of the path is a file, not a folder",
  EACCES: "permission denied",
  EPERM: "permission denied",
  EROFS: "the file system is read-only",
  ENOSPC: "the disk is full",
  ENAMETOOLONG: "the name is too long",
};

/** Why an operation of the file system failed, in a few words. */
export function reasonOf(cause: unknown): string {
  if (cause instanceof Error) return reasons[(cause as NodeJS.ErrnoException).code ?? ""] ?? cause.message;
  return String(cause);
}

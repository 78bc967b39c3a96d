/** Hands a file to the browser to be saved. */
export function download(name: string, content: string | Uint8Array, type: string): void {
  const url = URL.createObjectURL(new Blob([content as BlobPart], {type}));
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000); // the browser has begun by then
}

/** A name as the first word of a file's: letters, digits and hyphens. */
export function fileWord(name: string, otherwise: string): string {
  return (
    name
      .toLowerCase()
      .normalize("NFKD")
      .replaceAll(/[^\p{L}\p{N}]+/gu, "-")
      .replaceAll(/^-+|-+$/g, "")
      .slice(0, 60) || otherwise
  );
}

/** One file of a ZIP archive, as its central directory tells it. */
export interface ZipEntry {
  readonly name: string;
  readonly size: number; // unpacked [bytes]
  /** @throws when the data are damaged, or longer than `size` */
  read(): Promise<Uint8Array>;
}

const END_OF_DIRECTORY = 0x06054b50;
const DIRECTORY_ENTRY = 0x02014b50;

/**
 * The files of a ZIP archive held in memory; none when it has no central directory. Stored and deflated files only, as
 * in workbooks; no ZIP64.
 *
 * @source PKWARE APPNOTE.TXT 6.3, sections 4.3.7, 4.3.12 and 4.3.16
 */
export function zipEntries(bytes: Uint8Array<ArrayBuffer>): ZipEntry[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const u16 = (at: number): number => view.getUint16(at, true);
  const u32 = (at: number): number => view.getUint32(at, true);
  let end = bytes.length - 22;
  while (end >= 0 && u32(end) !== END_OF_DIRECTORY) end--;
  if (end < 0) return [];
  const entries: ZipEntry[] = [];
  let at = u32(end + 16);
  while (at + 46 <= bytes.length && u32(at) === DIRECTORY_ENTRY) {
    const [method, packed, size] = [u16(at + 10), u32(at + 20), u32(at + 24)];
    const nameLength = u16(at + 28);
    const local = u32(at + 42);
    const name = new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + nameLength));
    const read = async (): Promise<Uint8Array> => {
      const start = local + 30 + u16(local + 26) + u16(local + 28);
      const data = bytes.subarray(start, start + packed);
      return method === 0 ? data : inflated(data, size);
    };
    entries.push({name, size, read});
    at += 46 + nameLength + u16(at + 30) + u16(at + 32);
  }
  return entries;
}

/** @throws when there is more than the directory says: a small file that swells without end is stopped */
async function inflated(data: Uint8Array<ArrayBuffer>, size: number): Promise<Uint8Array> {
  const whole = new Uint8Array(size);
  let length = 0;
  const reader = new Blob([data]).stream().pipeThrough(new DecompressionStream("deflate-raw")).getReader();
  for (let part = await reader.read(); !part.done; part = await reader.read()) {
    if (length + part.value.length > size) {
      await reader.cancel();
      throw new Error("a file of the workbook is longer than its directory says");
    }
    whole.set(part.value, length);
    length += part.value.length;
  }
  return whole.subarray(0, length);
}

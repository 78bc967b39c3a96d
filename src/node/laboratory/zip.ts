import {inflateRawSync} from "node:zlib";

/** One file of a ZIP archive, as its central directory tells it. */
export interface ZipEntry {
  readonly name: string;
  readonly size: number; // unpacked [bytes]
  /** @throws when the data are damaged */
  read(): Buffer;
}

/**
 * The files of a ZIP archive held in memory; none when it has no central directory. Stored and deflated files only, as
 * in workbooks; no ZIP64.
 *
 * @source PKWARE APPNOTE.TXT 6.3, sections 4.3.7, 4.3.12 and 4.3.16
 */
export function zipEntries(bytes: Buffer): ZipEntry[] {
  const end = bytes.lastIndexOf(Buffer.from("PK\x05\x06", "latin1"));
  if (end < 0 || end + 22 > bytes.length) return [];
  const entries: ZipEntry[] = [];
  let at = bytes.readUInt32LE(end + 16);
  while (at + 46 <= bytes.length && bytes.readUInt32LE(at) === 0x02014b50) {
    const [method, packed, size] = [
      bytes.readUInt16LE(at + 10),
      bytes.readUInt32LE(at + 20),
      bytes.readUInt32LE(at + 24),
    ];
    const nameLength = bytes.readUInt16LE(at + 28);
    const local = bytes.readUInt32LE(at + 42);
    const name = bytes.toString("utf8", at + 46, at + 46 + nameLength);
    const read = (): Buffer => {
      const start = local + 30 + bytes.readUInt16LE(local + 26) + bytes.readUInt16LE(local + 28);
      const data = bytes.subarray(start, start + packed);
      return method === 0 ? data : inflateRawSync(data, {maxOutputLength: size + 1});
    };
    entries.push({name, size, read});
    at += 46 + nameLength + bytes.readUInt16LE(at + 30) + bytes.readUInt16LE(at + 32);
  }
  return entries;
}

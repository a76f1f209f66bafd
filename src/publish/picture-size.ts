/** Whether a JPEG or PNG ends before its picture does: a copy that was broken off decodes all the same, to grey. */
export function isCutShort(bytes: Uint8Array): boolean {
  const file = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length);
  // PNG (ISO/IEC 15948) ends with the chunk IEND; what follows the last scan of a JPEG is EOI (ITU-T T.81, B.1.1.3).
  if (bytes.length >= 4 && file.readUInt32BE(0) === 0x89504e47) return !file.includes('IEND');
  if (bytes.length < 4 || file.readUInt16BE(0) !== 0xffd8) return false;
  let at = 2;
  while (at + 4 <= file.length && file[at] === 0xff && file[at + 1] !== 0xda) {
    at += file[at + 1] === 0xff ? 1 : 2 + file.readUInt16BE(at + 2);
  }
  return file.indexOf(Buffer.from([0xff, 0xd9]), at) < 0;
}

/** Size that the header of a PNG or JPEG states, in dots, without unpacking anything; null where it states none. */
export function statedSize(bytes: Uint8Array): { width: number; height: number } | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  if (bytes.length >= 24 && view.getUint32(0) === 0x89504e47) {
    return { width: view.getUint32(16), height: view.getUint32(20) };
  }
  if (bytes.length < 4 || view.getUint16(0) !== 0xffd8) return null;
  for (let at = 2; at + 9 <= bytes.length && bytes[at] === 0xff; ) {
    const marker = bytes[at + 1] as number;
    // Frame headers (ITU-T T.81, B.2.2); C4, C8 and CC are tables.
    if (marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker)) {
      return { width: view.getUint16(at + 7), height: view.getUint16(at + 5) };
    }
    at += marker === 0xff ? 1 : 2 + view.getUint16(at + 2);
  }
  return null;
}

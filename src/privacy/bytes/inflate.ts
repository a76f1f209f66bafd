// Choices of the method and codes of file formats: not clinical numbers.

import { constants, gunzipSync, inflateRawSync, inflateSync } from 'node:zlib';

/** More than any public file needs; what grows beyond it is refused as a trap. */
const LARGEST = 256_000_000;

const UNPACK = { zlib: inflateSync, gzip: gunzipSync, raw: inflateRawSync };

/** Unpacks; what is cut off at its end gives what can be read of it. Null where nothing can be read, or too much. */
export function unpacked(bytes: Uint8Array, as: keyof typeof UNPACK): Uint8Array | null {
  try {
    // Room for most of what is packed in one go: each further stretch is copied once more.
    const chunkSize = Math.min(1 << 20, Math.max(1 << 14, bytes.length * 8));
    return UNPACK[as](bytes, {
      ...{ maxOutputLength: LARGEST, finishFlush: constants.Z_SYNC_FLUSH },
      chunkSize,
    });
  } catch {
    return null;
  }
}

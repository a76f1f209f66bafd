import { createHash } from 'node:crypto';

/** SHA-256 of parts in their order, in hex. Each part stands with its length, so no two lists of parts run together. */
export function digestOf(...parts: readonly (string | Uint8Array)[]): string {
  const hash = createHash('sha256');
  for (const part of parts) {
    const bytes = typeof part === 'string' ? Buffer.from(part) : part;
    hash.update(`${bytes.length}:`).update(bytes);
  }
  return hash.digest('hex');
}

// Choices of the method and codes of file formats: not clinical numbers.

import type { Encoding } from './read.js';

type Wide = Exclude<Encoding, 'UTF-8'>;

/** With what a spelling may begin in UTF-16. */
export interface WideBeginnings {
  /** 1 for each code unit that may be the first. */
  readonly units: Uint8Array;
  /** 1 for each byte that is the higher one of such a unit. */
  readonly highBytes: Uint8Array;
}

/** Where a spelling may begin in UTF-16 of both orders, at even and at odd bytes alike. */
export function wideBeginningsIn(
  bytes: Uint8Array,
  { units, highBytes }: WideBeginnings,
  begin: (at: number, encoding: Wide) => void,
): void {
  const { length } = bytes;
  for (let at = 0; at < length; at++) {
    const byte = bytes[at] as number;
    if (highBytes[byte] === 0) continue;
    const upper = byte << 8;
    if (at > 0) {
      const unit = upper | (bytes[at - 1] as number);
      if (units[unit] === 1) begin(at - 1, 'UTF-16LE');
    }
    const unit = upper | (bytes[at + 1] ?? 0);
    if (units[unit] === 1) begin(at, 'UTF-16BE');
  }
  // The last byte may be half of a unit.
  const last = bytes[length - 1] ?? 0;
  if (units[last] === 1) begin(length - 1, 'UTF-16LE');
}
